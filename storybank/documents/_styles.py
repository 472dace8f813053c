"""The named styles of a Word file; sizes, fonts and room stand here and nowhere else."""

from dataclasses import dataclass
from functools import cache

from lxml import etree

from storybank.documents._xml import add, root, to_bytes


@dataclass(frozen=True, slots=True)
class ParagraphStyle:
    """A paragraph style based on Normal; sizes and room in points."""

    id: str
    name: str
    size: float
    before: float = 0
    after: float = 6
    bold: bool = False
    level: int | None = None
    centered: bool = False


PARAGRAPH_STYLES = (
    ParagraphStyle("Title", "Title", 20, after=8, bold=True),
    ParagraphStyle("Heading1", "heading 1", 14, before=18, after=5, bold=True, level=0),
    ParagraphStyle("Heading2", "heading 2", 12, before=14, after=4, bold=True, level=1),
    ParagraphStyle("Header", "header", 11, after=0),
    ParagraphStyle("Footer", "footer", 10, after=0, centered=True),
    ParagraphStyle("Story", "Story", 14, after=6),
    ParagraphStyle("Question", "Story Question", 14, after=6),
    ParagraphStyle("Work", "Work Room", 11, before=4, after=64),
    ParagraphStyle("Tall", "Tall Work Room", 11, before=8, after=140),
    ParagraphStyle("Wide", "Wide Work Room", 11, before=8, after=190),
    ParagraphStyle("Fill", "Fill In", 12, before=8, after=6),
    ParagraphStyle("Help", "Talk Frame", 12, after=3),
    ParagraphStyle("Fact", "Key Fact", 11, after=3),
    ParagraphStyle("Note", "Key Note", 11, after=5),
    ParagraphStyle("Drawing", "Drawing", 11, before=2, after=4),
    ParagraphStyle("Cell", "Table Text", 11, before=1, after=1),
)
HEADER_CELL = "TableHeader"
TABLE = "StorybankTable"
UNKNOWN_SIZE = 14


@cache
def styles() -> bytes:
    """The styles part."""
    element = root("w:styles", "w")
    _defaults(element)
    normal = _style(element, "paragraph", "Normal", "Normal")
    normal.set(_ATTRIBUTE_DEFAULT, "1")
    add(normal, "w:qFormat")
    for style in PARAGRAPH_STYLES:
        _paragraph_style(element, style)
    _paragraph_style(
        element, ParagraphStyle(HEADER_CELL, "Table Header", 11, before=1, after=1, bold=True)
    )
    plain = _style(element, "character", "DefaultParagraphFont", "Default Paragraph Font")
    plain.set(_ATTRIBUTE_DEFAULT, "1")
    strong = _style(element, "character", "Strong", "Strong", "DefaultParagraphFont")
    add(strong, "w:qFormat")
    add(add(strong, "w:rPr"), "w:b")
    unknown = _style(element, "character", "Unknown", "Unknown Number", "DefaultParagraphFont")
    add(unknown, "w:qFormat")
    properties = add(unknown, "w:rPr")
    add(properties, "w:sz", w_val=2 * UNKNOWN_SIZE)
    add(properties, "w:szCs", w_val=2 * UNKNOWN_SIZE)
    _table_styles(element)
    return to_bytes(element)


_ATTRIBUTE_DEFAULT = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}default"


def _defaults(element: etree._Element) -> None:
    defaults = add(element, "w:docDefaults")
    run = add(add(defaults, "w:rPrDefault"), "w:rPr")
    add(
        run,
        "w:rFonts",
        w_asciiTheme="minorHAnsi",
        w_eastAsiaTheme="minorEastAsia",
        w_hAnsiTheme="minorHAnsi",
        w_cstheme="minorBidi",
    )
    add(run, "w:sz", w_val=22)
    add(run, "w:szCs", w_val=22)
    add(run, "w:lang", w_val="en-US", w_eastAsia="en-US", w_bidi="ar-SA")
    paragraph = add(add(defaults, "w:pPrDefault"), "w:pPr")
    add(paragraph, "w:spacing", w_after=120, w_line=264, w_lineRule="auto")


def _style(
    element: etree._Element, kind: str, style_id: str, name: str, based_on: str | None = None
) -> etree._Element:
    style = add(element, "w:style", w_type=kind, w_styleId=style_id)
    add(style, "w:name", w_val=name)
    if based_on:
        add(style, "w:basedOn", w_val=based_on)
    return style


def _paragraph_style(element: etree._Element, wanted: ParagraphStyle) -> None:
    style = _style(element, "paragraph", wanted.id, wanted.name, "Normal")
    if wanted.level is not None:
        add(style, "w:next", w_val="Normal")
    add(style, "w:qFormat")
    paragraph = add(style, "w:pPr")
    if wanted.level is not None:
        add(paragraph, "w:keepNext")
        add(paragraph, "w:keepLines")
    add(
        paragraph,
        "w:spacing",
        w_before=_twentieths(wanted.before),
        w_after=_twentieths(wanted.after),
    )
    if wanted.centered:
        add(paragraph, "w:jc", w_val="center")
    if wanted.level is not None:
        add(paragraph, "w:outlineLvl", w_val=wanted.level)
    run = add(style, "w:rPr")
    if wanted.bold:
        add(run, "w:b")
        add(run, "w:bCs")
    add(run, "w:sz", w_val=round(2 * wanted.size))
    add(run, "w:szCs", w_val=round(2 * wanted.size))


def _table_styles(element: etree._Element) -> None:
    plain = _style(element, "table", "TableNormal", "Normal Table")
    plain.set(_ATTRIBUTE_DEFAULT, "1")
    properties = add(plain, "w:tblPr")
    add(properties, "w:tblInd", w_w=0, w_type="dxa")
    _cell_margins(properties, 0, 108)
    grid = _style(element, "table", TABLE, "Storybank Table", "TableNormal")
    properties = add(grid, "w:tblPr")
    borders = add(properties, "w:tblBorders")
    for side in ("top", "left", "bottom", "right", "insideH", "insideV"):
        add(borders, f"w:{side}", w_val="single", w_sz=8, w_space=0, w_color="auto")
    _cell_margins(properties, 20, 108)


def _cell_margins(properties: etree._Element, above: int, beside: int) -> None:
    margins = add(properties, "w:tblCellMar")
    for side, width in (("top", above), ("left", beside), ("bottom", above), ("right", beside)):
        add(margins, f"w:{side}", w_w=width, w_type="dxa")


def _twentieths(points: float) -> int:
    return round(20 * points)
