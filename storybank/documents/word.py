"""The set as Word files, one for each kind of page."""

import io
from collections.abc import Callable, Mapping
from dataclasses import replace
from datetime import datetime
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from storybank.compiled import compiled
from storybank.documents import kinds
from storybank.documents._archive import zipped
from storybank.documents._format import Format
from storybank.documents._layout import BOTTOM, TOP, Layout
from storybank.documents._page import Page, Picture
from storybank.drawings import to_png, to_svg
from storybank.model import ProblemSet

if TYPE_CHECKING:
    from docx.document import Document
    from docx.opc.package import OpcPackage

FORMAT = Format(id="docx", title="Word documents", suffix=".docx", by_page=True)

_TYPES = {
    "png": "image/png",
    "rels": "application/vnd.openxmlformats-package.relationships+xml",
    "svg": "image/svg+xml",
    "xml": "application/xml",
}
_FIXED_DATE = datetime(2000, 1, 1)
_USUAL = Layout(pages=())


def render(problem_set: ProblemSet, layout: Layout) -> dict[str, bytes]:
    """The files by name, one for each sheet; python-docx is loaded only here."""
    made = {}
    for sheet in kinds.sheets(layout.pages, problem_set.levels):
        told = problem_set.at_level(sheet.level) if sheet.level else problem_set
        page = kinds.page(sheet.kind, told, layout)
        made[f"{sheet.name}{FORMAT.suffix}"] = page_to_word(page, layout)
    return made


def render_pages(pages: Mapping[str, Page], layout: Layout) -> dict[str, bytes]:
    """A file for each page, named after its name."""
    return {f"{name}{FORMAT.suffix}": page_to_word(one, layout) for name, one in pages.items()}


def check_template(path: Path) -> None:
    """Nothing, if `path` is a Word file that can be used. Raises RequestError otherwise."""
    from storybank.documents import _preparing

    _preparing.opened(path)


def page_to_word(page: Page, layout: Layout) -> bytes:
    """A page model as the bytes of a Word file."""
    import docx

    from storybank.documents import _preparing
    from storybank.documents._writer import Writer

    document = docx.Document(io.BytesIO(_template(layout)))
    document.core_properties.title = page.title
    section = document.sections[-1]
    section.header.paragraphs[-1].text = page.top or page.title
    width = _preparing.text_width(section)
    pictures = _pictures_of(document, width, shapes=layout.drawings == "shapes")
    Writer(document, pictures, width).write(page)
    return _to_bytes(document.part.package)


def _template(layout: Layout) -> bytes:
    """A Word file without text: the school's, read anew each time, or ours."""
    if layout.template is not None:
        return _school_template(layout, layout.template)
    return _own_template(replace(layout, pages=(), lines=None, unknown="box", drawings="pictures"))


@cache
def _own_template(layout: Layout) -> bytes:
    """Our Word file without text; the usual one is kept between runs until its makers change."""
    import docx

    if layout != _USUAL:
        return _made_template(layout)
    made_by = sorted(Path(__file__).parent.glob("*.py"))
    return compiled(
        "word-template", [*made_by, Path(docx.__file__)], lambda: _made_template(layout)
    )


def _made_template(layout: Layout) -> bytes:
    """A Word file without text: python-docx's own, reduced to what is used, in our styles."""
    import docx
    from docx.shared import Pt

    from storybank.documents import _preparing

    document = docx.Document()
    _preparing.reduce(document, layout.font)
    _preparing.set_styles(document, layout)
    section = document.sections[0]
    section.page_width, section.page_height = Pt(layout.size[0]), Pt(layout.size[1])
    section.left_margin = section.right_margin = Pt(layout.margin)
    section.top_margin, section.bottom_margin = Pt(TOP), Pt(BOTTOM)
    section.header_distance, section.footer_distance = Pt(28), Pt(22)
    section.header.is_linked_to_previous = False
    section.footer.is_linked_to_previous = False
    section.header.paragraphs[0].style = "Header"
    _preparing.number_pages(section.footer.paragraphs[0])
    properties = document.core_properties
    properties.author = properties.last_modified_by = "Storybank"
    properties.comments = ""
    properties.language, properties.revision = "en-US", 1
    properties.created = properties.modified = _FIXED_DATE
    return _to_bytes(document.part.package)


def _school_template(layout: Layout, path: Path) -> bytes:
    """The school's Word file without its text, with the styles that it lacks."""
    import docx

    from storybank.documents import _preparing

    document = _preparing.opened(path)
    _preparing.empty(document)
    _preparing.add_styles(document, layout, docx.Document())
    _preparing.open_header(document)
    properties = document.core_properties
    properties.last_modified_by, properties.revision = "Storybank", 1
    properties.created = properties.modified = _FIXED_DATE
    properties.language = properties.language or "en-US"
    return _to_bytes(document.part.package)


def _pictures_of(document: "Document", widest: float, *, shapes: bool) -> Callable[[Picture], Any]:
    """A function that makes what stands in a run for a picture: PNG with its SVG form beside it.

    There is one part for each distinct content; one wider than `widest`, in points, is made
    smaller. With `shapes` Word shows shapes that can be moved, and other readers the picture.
    python-docx's own call for a picture searches all ids of the document each time, and knows
    no SVG.
    """
    from docx.opc.constants import RELATIONSHIP_TYPE
    from docx.opc.packuri import PackURI
    from docx.opc.part import Part
    from docx.oxml import OxmlElement
    from docx.oxml.shape import CT_Inline
    from docx.shared import Pt

    from storybank.documents import _ooxml, _shapes

    part, media, count = document.part, dict[bytes, str](), 0

    def relation(data: bytes, suffix: str) -> str:
        if data not in media:
            key = media[data] = f"picture{len(media) + 1}"
            uri = PackURI(f"/word/media/{key}.{suffix}")
            medium = Part(uri, _TYPES[suffix], data, part.package)
            part.rels.add_relationship(RELATIONSHIP_TYPE.IMAGE, medium, key)
        return media[data]

    def make(picture: Picture) -> Any:
        nonlocal count
        count += 1
        drawing = picture.drawing
        png = relation(to_png(drawing), "png")
        svg = relation(to_svg(drawing).encode(), "svg")
        scale = min(1.0, widest / drawing.width)
        size = Pt(scale * drawing.width), Pt(scale * drawing.height)
        inline = CT_Inline.new_pic_inline(count, png, "", *size)
        _ooxml.add_svg(inline, svg, f"{drawing.title} {count}", drawing.alt)
        if shapes:
            return _shapes.alternatives(inline, drawing, count, scale)
        element = OxmlElement("w:drawing")
        element.append(inline)
        return element

    return make


def _to_bytes(package: "OpcPackage") -> bytes:
    """The package as a file. python-docx's own writer would put the time of day into it."""
    from docx.opc.oxml import CT_Types, serialize_part_xml

    parts: dict[str, bytes] = {"_rels/.rels": _relations(package.rels)}
    suffixes, overrides = {"rels", "xml"}, dict[str, str]()
    for part in package.iter_parts():
        name = part.partname
        parts[name.membername] = part.blob
        if part.rels:
            parts[name.rels_uri.membername] = _relations(part.rels)
        if _TYPES.get(name.ext) == part.content_type:
            suffixes.add(name.ext)
        else:
            overrides[name] = part.content_type
    types: Any = CT_Types.new()  # type: ignore[no-untyped-call]
    for suffix in sorted(suffixes):
        types.add_default(suffix, _TYPES[suffix])
    for uri in sorted(overrides):
        types.add_override(uri, overrides[uri])
    parts["[Content_Types].xml"] = serialize_part_xml(types)
    return zipped(parts)


def _relations(relations: Any) -> bytes:
    # The property is said to be text; it is the bytes of a part.
    xml: bytes = relations.xml
    return xml
