"""The set as Word files: pages for students and the answer key."""

import io
from collections.abc import Callable
from datetime import datetime
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from storybank.compiled import compiled
from storybank.documents._archive import zipped
from storybank.documents._format import Format
from storybank.documents._key import key_page
from storybank.documents._page import Page, Picture
from storybank.documents._student import student_page
from storybank.documents._styles import FONT, PARAGRAPH_STYLES, STAND_IN, UNKNOWN_SIZE
from storybank.drawings import to_png, to_svg
from storybank.model import ProblemSet

if TYPE_CHECKING:
    from docx.document import Document
    from docx.opc.package import OpcPackage

FORMAT = Format(
    id="docx", title="Word documents", files=("student.docx", "key.docx"), sheet="student.docx"
)

_TYPES = {
    "png": "image/png",
    "rels": "application/vnd.openxmlformats-package.relationships+xml",
    "svg": "image/svg+xml",
    "xml": "application/xml",
}
_FIXED_DATE = datetime(2000, 1, 1)


def render(problem_set: ProblemSet, file_name: str) -> bytes:
    """The bytes of `student.docx` or `key.docx`; python-docx is loaded only here."""
    make_page = key_page if file_name == "key.docx" else student_page
    return page_to_word(make_page(problem_set))


def page_to_word(page: Page) -> bytes:
    """A page model as the bytes of a Word file."""
    import docx

    from storybank.documents._writer import Writer

    document = docx.Document(io.BytesIO(_template()))
    document.core_properties.title = page.title
    document.sections[0].header.paragraphs[0].text = page.top
    Writer(document, _pictures_of(document)).write(page)
    return _to_bytes(document.part.package)


@cache
def _template() -> bytes:
    """A Word file without text; kept between runs until this folder or python-docx changes."""
    import docx

    made_by = sorted(Path(__file__).parent.glob("*.py"))
    return compiled("word-template", [*made_by, Path(docx.__file__)], _made_template)


def _made_template() -> bytes:
    """A Word file without text: python-docx's own, reduced to what is used, in our styles."""
    import docx
    from docx.shared import Pt

    from storybank.documents import _ooxml

    document = docx.Document()
    _reduce(document)
    _set_styles(document)
    section = document.sections[0]
    section.left_margin = section.right_margin = section.top_margin = Pt(72)
    section.bottom_margin, section.header_distance, section.footer_distance = Pt(54), Pt(36), Pt(27)
    section.header.is_linked_to_previous = False
    section.footer.is_linked_to_previous = False
    section.header.paragraphs[0].style = "Header"
    footer = section.footer.paragraphs[0]
    footer.style = "Footer"
    footer.add_run("Page ")
    _ooxml.add_field(footer._p, "PAGE", "1")
    footer.add_run(" of ")
    _ooxml.add_field(footer._p, "NUMPAGES", "1")
    properties = document.core_properties
    properties.author = properties.last_modified_by = "Storybank"
    properties.comments = ""
    properties.language, properties.revision = "en-US", 1
    properties.created = properties.modified = _FIXED_DATE
    return _to_bytes(document.part.package)


def _reduce(document: "Document") -> None:
    """Takes out of python-docx's template the parts and settings that nothing here needs."""
    from docx.opc.constants import RELATIONSHIP_TYPE as KIND
    from docx.opc.part import Part

    from storybank.documents import _ooxml

    package = document.part.package
    kept = {KIND.STYLES, KIND.SETTINGS, KIND.THEME, KIND.FONT_TABLE}
    kept |= {KIND.OFFICE_DOCUMENT, KIND.CORE_PROPERTIES}
    for relations in (package.rels, document.part.rels):
        for key in [key for key, one in relations.items() if one.reltype not in kept]:
            del relations[key]
    for key, one in list(document.part.rels.items()):
        part = one.target_part
        if one.reltype == KIND.THEME:
            blob = _ooxml.theme_in_font(part.blob, FONT)
        elif one.reltype == KIND.FONT_TABLE:
            blob = _ooxml.table_of_one_font(part.blob, FONT, STAND_IN)
        else:
            continue
        part = Part(part.partname, part.content_type, blob, package)
        document.part.rels.add_relationship(one.reltype, part, key)
    _ooxml.reduce_settings(document.settings.element)


def _set_styles(document: "Document") -> None:
    """Gives the document the named styles, all based on Normal, and no others."""
    from docx.enum.style import WD_STYLE_TYPE
    from docx.enum.text import WD_ALIGN_PARAGRAPH
    from docx.shared import Pt

    from storybank.documents import _ooxml

    styles = document.styles
    for style in list(styles):
        if style.name not in ("Normal", "Default Paragraph Font", "Normal Table", "Table Grid"):
            style.delete()
    normal = styles["Normal"]
    normal.paragraph_format.space_after, normal.paragraph_format.line_spacing = Pt(6), 1.1
    for wanted in PARAGRAPH_STYLES.values():
        made = styles.add_style(wanted.name, WD_STYLE_TYPE.PARAGRAPH, wanted.builtin)
        made.base_style, made.quick_style = normal, True
        form = made.paragraph_format
        form.space_before, form.space_after = Pt(wanted.before), Pt(wanted.after)
        if wanted.centered:
            form.alignment = WD_ALIGN_PARAGRAPH.CENTER
        if wanted.level is not None:
            made.next_paragraph_style = normal
            form.keep_with_next = form.keep_together = True
            _ooxml.set_outline_level(made.element, wanted.level)
        made.font.size, made.font.bold = Pt(wanted.size), wanted.bold or None
        _ooxml.set_complex_script_sizes(made.element)
    strong = styles.add_style("Strong", WD_STYLE_TYPE.CHARACTER, builtin=True)
    strong.font.bold = True
    unknown = styles.add_style("Unknown Number", WD_STYLE_TYPE.CHARACTER)
    unknown.font.size = Pt(UNKNOWN_SIZE)
    for made in (strong, unknown):
        made.base_style, made.quick_style = styles["Default Paragraph Font"], True
        _ooxml.set_complex_script_sizes(made.element)


def _pictures_of(document: "Document") -> Callable[[Picture], Any]:
    """A function that makes a picture's element: PNG with its SVG form beside it.

    There is one part for each distinct content. python-docx's own call for a picture searches
    all ids of the document each time, and knows no SVG.
    """
    from docx.opc.constants import RELATIONSHIP_TYPE
    from docx.opc.packuri import PackURI
    from docx.opc.part import Part
    from docx.oxml.shape import CT_Inline
    from docx.shared import Pt

    from storybank.documents import _ooxml

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
        size = Pt(drawing.width), Pt(drawing.height)
        inline = CT_Inline.new_pic_inline(count, png, "", *size)
        _ooxml.add_svg(inline, svg, f"{drawing.title} {count}", drawing.alt)
        return inline

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
