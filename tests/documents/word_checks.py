"""Faults of a Word file that a schema check does not see; each function lists what it finds."""

import io
import zipfile
from collections.abc import Callable

from lxml import etree

W = "http://schemas.openxmlformats.org/wordprocessingml/2006/main"
NS = {
    "w": W,
    "wp": "http://schemas.openxmlformats.org/drawingml/2006/wordprocessingDrawing",
    "ct": "http://schemas.openxmlformats.org/package/2006/content-types",
    "dc": "http://purl.org/dc/elements/1.1/",
}


def part(data: bytes, name: str = "word/document.xml") -> etree._Element:
    """One part of the package, parsed."""
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        return etree.fromstring(archive.read(name))


def spoil(data: bytes, name: str, change: Callable[[bytes], bytes]) -> bytes:
    """The package with one part changed."""
    target = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(data)) as source,
        zipfile.ZipFile(target, "w") as archive,
    ):
        for one in source.namelist():
            content = source.read(one)
            archive.writestr(one, change(content) if one == name else content)
    return target.getvalue()


def text_of(paragraph: etree._Element) -> str:
    """The text a reader sees."""
    return "".join(one.text or "" for one in paragraph.iterfind(".//w:t", NS))


def paragraphs(data: bytes) -> list[tuple[str, str]]:
    """Style and text of every paragraph in order, tables included."""
    found = []
    for one in part(data).iterfind(".//w:p", NS):
        style = one.find("w:pPr/w:pStyle", NS)
        found.append(("" if style is None else style.get(f"{{{W}}}val", ""), text_of(one)))
    return found


def faults(data: bytes) -> list[str]:
    """Everything that is wrong with the file, in words."""
    document = part(data)
    return [
        *_pictures(document),
        *_headings(data),
        *_language(data),
        *_tables(document),
        *_empty(document),
        *_fields(document),
        *_content_types(data),
    ]


def _pictures(document: etree._Element) -> list[str]:
    about = document.findall(".//wp:docPr", NS)
    found = ["picture without alt text" for one in about if not one.get("descr")]
    for key in ("id", "name"):
        values = [one.get(key) for one in about]
        if len(set(values)) != len(values):
            found.append(f"picture {key} used twice")
    return found


def _headings(data: bytes) -> list[str]:
    found, level = [], 0
    styles = [style for style, _ in paragraphs(data)]
    if styles.count("Title") != 1:
        found.append("not one title")
    for style in styles:
        if style.startswith("Heading"):
            now = int(style.removeprefix("Heading"))
            if now > level + 1:
                found.append("heading level left out")
            level = now
    return found


def _language(data: bytes) -> list[str]:
    core = part(data, "docProps/core.xml")
    found = [
        f"no {name}" for name in ("dc:title", "dc:language") if not core.findtext(name, "", NS)
    ]
    language = part(data, "word/styles.xml").find(".//w:rPrDefault//w:lang", NS)
    if language is None or language.get(f"{{{W}}}val") != "en-US":
        found.append("no language of the text")
    return found


def _tables(document: etree._Element) -> list[str]:
    return [
        "table without a header row"
        for table in document.iterfind(".//w:tbl", NS)
        if table.find("w:tr/w:trPr/w:tblHeader", NS) is None and not _holds_no_data(table)
    ]


def _holds_no_data(table: etree._Element) -> bool:
    """Whether a table says that it only sets cards beside each other."""
    caption = table.find("w:tblPr/w:tblCaption", NS)
    return caption is not None and caption.get(f"{{{W}}}val") == "Cards to cut out"


def _empty(document: etree._Element) -> list[str]:
    return [
        "empty paragraph"
        for one in document.iterfind(".//w:p", NS)
        if not text_of(one) and one.find(".//w:drawing", NS) is None
    ]


def _fields(document: etree._Element) -> list[str]:
    kinds = [one.get(f"{{{W}}}fldCharType") for one in document.iterfind(".//w:fldChar", NS)]
    return [] if kinds == ["begin", "separate", "end"] * (len(kinds) // 3) else ["odd field"]


def _content_types(data: bytes) -> list[str]:
    types = part(data, "[Content_Types].xml")
    known = {one.get("Extension") for one in types.iterfind("ct:Default", NS)}
    named = {one.get("PartName") for one in types.iterfind("ct:Override", NS)}
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        used = {name.rpartition(".")[2] for name in archive.namelist() if f"/{name}" not in named}
    return [f"no content type for {one}" for one in sorted({"svg", "png"} & used - known)]
