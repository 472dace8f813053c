"""The zip package of a Word file: parts, content types, relations; the same bytes every time."""

import io
import zipfile
from dataclasses import dataclass, field

from storybank.documents._xml import add, root, to_bytes

_OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships/"
_PACKAGE = "http://schemas.openxmlformats.org/package/2006/relationships/metadata/"
_WORD = "application/vnd.openxmlformats-officedocument.wordprocessingml."
_DEFAULTS = {
    "png": "image/png",
    "rels": "application/vnd.openxmlformats-package.relationships+xml",
    "svg": "image/svg+xml",
    "xml": "application/xml",
}
_OVERRIDES = {
    "docProps/app.xml": "application/vnd.openxmlformats-officedocument.extended-properties+xml",
    "docProps/core.xml": "application/vnd.openxmlformats-package.core-properties+xml",
    "word/document.xml": f"{_WORD}document.main+xml",
    "word/fontTable.xml": f"{_WORD}fontTable+xml",
    "word/footer1.xml": f"{_WORD}footer+xml",
    "word/header1.xml": f"{_WORD}header+xml",
    "word/settings.xml": f"{_WORD}settings+xml",
    "word/styles.xml": f"{_WORD}styles+xml",
    "word/theme/theme1.xml": "application/vnd.openxmlformats-officedocument.theme+xml",
}
_FIXED_TIME = (1980, 1, 1, 0, 0, 0)


@dataclass
class Package:
    """A Word package being put together: its parts by name, and the relations of the document."""

    parts: dict[str, bytes] = field(default_factory=dict)
    relations: list[tuple[str, str, str]] = field(default_factory=list)
    _media: dict[bytes, str] = field(default_factory=dict)

    def relate(self, kind: str, target: str) -> str:
        """The id of a new relation from the document to the part `target`."""
        relation = f"rId{len(self.relations) + 1}"
        self.relations.append((relation, _OFFICE + kind, target))
        return relation

    def picture(self, data: bytes, suffix: str) -> str:
        """The relation id of a picture; one part for each distinct content."""
        if data not in self._media:
            target = f"media/picture{len(self._media) + 1}.{suffix}"
            self.parts[f"word/{target}"] = data
            self._media[data] = self.relate("image", target)
        return self._media[data]

    def to_bytes(self) -> bytes:
        """The package as a zip whose bytes depend on nothing but its parts (and zlib)."""
        parts = dict(self.parts)
        parts["word/_rels/document.xml.rels"] = _relations(self.relations)
        parts["_rels/.rels"] = _relations(
            [
                ("rId1", f"{_OFFICE}officeDocument", "word/document.xml"),
                ("rId2", f"{_PACKAGE}core-properties", "docProps/core.xml"),
                ("rId3", f"{_OFFICE}extended-properties", "docProps/app.xml"),
            ]
        )
        first = {"[Content_Types].xml": _content_types(parts), "_rels/.rels": parts["_rels/.rels"]}
        rest = {name: parts[name] for name in sorted(parts) if name not in first}
        target = io.BytesIO()
        with zipfile.ZipFile(target, "w") as archive:
            for name, data in {**first, **rest}.items():
                info = zipfile.ZipInfo(name, _FIXED_TIME)
                info.create_system = 0
                packed = name.endswith(".png")
                info.compress_type = zipfile.ZIP_STORED if packed else zipfile.ZIP_DEFLATED
                archive.writestr(info, data, compresslevel=6)
        return target.getvalue()


def _content_types(parts: dict[str, bytes]) -> bytes:
    types = root("ct:Types", default="ct")
    used = {name.rpartition(".")[2] for name in parts}
    for suffix, content_type in _DEFAULTS.items():
        if suffix in used:
            add(types, "ct:Default", Extension=suffix, ContentType=content_type)
    for name, content_type in _OVERRIDES.items():
        if name in parts:
            add(types, "ct:Override", PartName=f"/{name}", ContentType=content_type)
    return to_bytes(types)


def _relations(relations: list[tuple[str, str, str]]) -> bytes:
    element = root("rel:Relationships", default="rel")
    for relation, kind, target in relations:
        add(element, "rel:Relationship", Id=relation, Type=kind, Target=target)
    return to_bytes(element)
