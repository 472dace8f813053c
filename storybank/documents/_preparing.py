"""Word files before any text is in them: our own from python-docx's, or the school's emptied."""

import zipfile
from copy import deepcopy
from pathlib import Path
from typing import TYPE_CHECKING, Any

import docx
from docx.enum.style import WD_STYLE_TYPE
from docx.enum.text import WD_ALIGN_PARAGRAPH
from docx.opc.constants import RELATIONSHIP_TYPE as KIND
from docx.opc.exceptions import PackageNotFoundError
from docx.opc.part import Part
from docx.shared import Pt
from lxml import etree

from storybank.cleaning import clean_text
from storybank.documents import _ooxml
from storybank.documents._layout import Layout
from storybank.documents._styles import (
    CELL_GRID,
    PARAGRAPH_STYLES,
    STAND_IN,
    STRONG,
    TO_FILL,
    TO_FILL_SIZE,
    UNKNOWN_NUMBER,
    UNKNOWN_SIZE,
    ParagraphStyle,
)
from storybank.errors import RequestError

if TYPE_CHECKING:
    from docx.document import Document
    from docx.section import Section
    from docx.styles.style import CharacterStyle
    from docx.styles.style import ParagraphStyle as WordStyle

_KEPT = ("Normal", "Default Paragraph Font", "Normal Table", CELL_GRID)
_LARGEST = 20_000_000
_DOCUMENT = "wordprocessingml.document.main+xml"
_KINDS = {
    "template.main+xml": "a Word template (.dotx)",
    "macroEnabled": "a Word file with macros (.docm or .dotm)",
    "spreadsheetml": "a spreadsheet",
    "presentationml": "a set of slides",
}
_STALE = "http://schemas.microsoft.com/office/2007/relationships/stylesWithEffects"
"""A second list of styles that only Word 2007 read, and which ours do not stand in."""
_NOT_KEPT = (
    KIND.IMAGE, KIND.HYPERLINK, KIND.CHART, KIND.OLE_OBJECT, KIND.COMMENTS, KIND.A_F_CHUNK, _STALE,
)  # fmt: skip
_OF_SECTIONS = (KIND.HEADER, KIND.FOOTER)


def reduce(document: "Document", font: str) -> None:
    """Takes out of python-docx's template the parts and settings that nothing here needs."""
    package = document.part.package
    kept = {KIND.STYLES, KIND.SETTINGS, KIND.THEME, KIND.FONT_TABLE}
    kept |= {KIND.OFFICE_DOCUMENT, KIND.CORE_PROPERTIES}
    for relations in (package.rels, document.part.rels):
        for key in [key for key, one in relations.items() if one.reltype not in kept]:
            del relations[key]
    for key, one in list(document.part.rels.items()):
        part = one.target_part
        if one.reltype == KIND.THEME:
            blob = _ooxml.theme_in_font(part.blob, font)
        elif one.reltype == KIND.FONT_TABLE:
            blob = _ooxml.table_of_one_font(part.blob, font, STAND_IN)
        else:
            continue
        part = Part(part.partname, part.content_type, blob, package)
        document.part.rels.add_relationship(one.reltype, part, key)
    _ooxml.reduce_settings(document.settings.element)


def set_styles(document: "Document", layout: Layout) -> None:
    """Gives the document the named styles, all based on Normal, and no others."""
    for style in list(document.styles):
        if style.name not in _KEPT:
            style.delete()
    form = document.styles["Normal"].paragraph_format
    form.space_after, form.line_spacing = Pt(6), 1.1
    _add_missing(document, layout)


def add_styles(document: "Document", layout: Layout, ours: "Document") -> None:
    """Adds the named styles that a school's file lacks; its own stay as they are.

    In large print those of ours that are there grow too. `ours` is python-docx's own file, from
    which the most basic styles are taken.
    """
    styles = document.styles
    names = {style.name for style in styles}
    for name in _KEPT:
        if name not in names:
            styles.element.append(deepcopy(ours.styles[name].element))
    _add_missing(document, layout)


def _add_missing(document: "Document", layout: Layout) -> None:
    styles: Any = document.styles
    there = {style.name: style for style in styles}
    for wanted in PARAGRAPH_STYLES.values():
        known = there.get(wanted.name)
        if known is not None and known.type == WD_STYLE_TYPE.PARAGRAPH:
            if layout.large_print:
                known.font.size = Pt(layout.type_size(wanted.size))
            continue
        if known is not None:  # A style of letters or tables has the name: ours takes its place.
            known.delete()
        made = styles.add_style(wanted.name, WD_STYLE_TYPE.PARAGRAPH, wanted.builtin)
        _shape(made, wanted, layout, styles["Normal"])
    for name, size in (
        (STRONG, None),
        (UNKNOWN_NUMBER, layout.type_size(UNKNOWN_SIZE)),
        (TO_FILL, layout.type_size(TO_FILL_SIZE)),
    ):
        if name in there:
            continue
        letters: CharacterStyle = styles.add_style(name, WD_STYLE_TYPE.CHARACTER, name == STRONG)
        letters.base_style, letters.quick_style = styles["Default Paragraph Font"], True
        letters.font.bold, letters.font.size = (True, None) if size is None else (None, Pt(size))
        _ooxml.set_complex_script_sizes(letters.element)


def _shape(made: "WordStyle", wanted: ParagraphStyle, layout: Layout, normal: "WordStyle") -> None:
    made.base_style, made.quick_style = normal, True
    form = made.paragraph_format
    form.space_before, form.space_after = Pt(wanted.before), Pt(wanted.after)
    if wanted.centered:
        form.alignment = WD_ALIGN_PARAGRAPH.CENTER
    if wanted.level is not None:
        made.next_paragraph_style = normal
        form.keep_with_next = form.keep_together = True
        _ooxml.set_outline_level(made.element, wanted.level)
    if wanted.tab is not None:
        form.tab_stops.add_tab_stop(Pt(wanted.tab))
    if wanted.cut:
        _ooxml.set_dashed_top(made.element)
    made.font.size, made.font.bold = Pt(layout.type_size(wanted.size)), wanted.bold or None
    _ooxml.set_complex_script_sizes(made.element)


def opened(path: Path) -> "Document":
    """A school's Word file. Raises RequestError, saying what it is, for anything else."""
    _check(path)
    try:
        return docx.Document(str(path))
    except (KeyError, ValueError, etree.XMLSyntaxError, PackageNotFoundError) as error:
        raise _damaged(path) from error


def text_width(section: "Section") -> float:
    """The room between the margins in points; letter paper with an inch where none is said."""
    width, left, right = section.page_width, section.left_margin, section.right_margin
    if width is None or left is None or right is None:
        return 468.0
    return float((width - left - right) / Pt(1))


def _check(path: Path) -> None:
    name = clean_text(path.name, 100)[0]
    if not path.is_file():
        raise RequestError(
            f'The template "{name}" is not there or no file. Check its name and folder, or leave '
            "--template out."
        )
    if path.stat().st_size > _LARGEST:
        raise RequestError(
            f'The template "{name}" is larger than 20 MB. Take its pictures out and save it again.'
        )
    if not zipfile.is_zipfile(path):
        raise RequestError(
            f'The template "{name}" is no Word file, whatever its name says. Open the file that '
            "you mean in Word and save it as a Word document (.docx)."
        )
    try:
        with zipfile.ZipFile(path) as archive:
            types = archive.read("[Content_Types].xml").decode("utf-8", "replace")
    except (KeyError, OSError, zipfile.BadZipFile) as error:
        raise _damaged(path) from error
    if _DOCUMENT in types:
        return
    what = next((said for sign, said in _KINDS.items() if sign in types), "another kind of file")
    raise RequestError(
        f'The template "{name}" is {what}, not a Word document. Open it in Word, choose Save As, '
        "Word Document (.docx), and give that file."
    )


def _damaged(path: Path) -> RequestError:
    """The error about a Word file that cannot be read."""
    return RequestError(
        f'The template "{clean_text(path.name, 100)[0]}" is damaged and cannot be read. Open it '
        "in Word, save it again as a Word document (.docx), and give that file."
    )


def empty(document: "Document") -> None:
    """Takes the text out of a school's file, with all that belonged to it.

    Styles, margins, header and footer of its last section stay.
    """
    body = document.element.body
    for element in list(body):
        if element is not body.sectPr:
            body.remove(element)
    used = set(body.xpath(".//@r:id"))
    relations = document.part.rels
    for key, one in list(relations.items()):
        if one.reltype in _NOT_KEPT or (one.reltype in _OF_SECTIONS and key not in used):
            del relations[key]


def open_header(document: "Document") -> None:
    """Makes room for our line at the end of the header, and page numbers if there are none."""
    section = document.sections[-1]
    section.header.is_linked_to_previous = section.footer.is_linked_to_previous = False
    header = section.header
    if header.paragraphs and not header.paragraphs[-1].text.strip():
        header.paragraphs[-1].style = PARAGRAPH_STYLES["header"].name
    else:
        header.add_paragraph(style=PARAGRAPH_STYLES["header"].name)
    footer = section.footer
    if not any(one.text.strip() for one in footer.paragraphs):
        number_pages(footer.paragraphs[0])


def number_pages(paragraph: Any) -> None:
    """Writes "Page 1 of 1" into the paragraph of a footer, with fields that count."""
    paragraph.style = PARAGRAPH_STYLES["footer"].name
    paragraph.add_run("Page ")
    _ooxml.add_field(paragraph._p, "PAGE", "1")
    paragraph.add_run(" of ")
    _ooxml.add_field(paragraph._p, "NUMPAGES", "1")
