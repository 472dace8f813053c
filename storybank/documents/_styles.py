"""The named styles of a Word file; sizes and room stand here and nowhere else."""

from dataclasses import dataclass

STAND_IN = "DejaVu Sans"
# Names of the character styles and of the table style.
STRONG, UNKNOWN_NUMBER, CELL_GRID = "Strong", "Unknown Number", "Table Grid"
TO_FILL = "Number to Write"
UNKNOWN_SIZE, TO_FILL_SIZE = 14, 36


@dataclass(frozen=True, slots=True)
class ParagraphStyle:
    """A paragraph style based on Normal; sizes and room in points, `level` of a heading.

    `cut` draws a dashed line above it; `tab` is the place of its tab, in points.
    """

    name: str
    size: float
    before: float = 0
    after: float = 6
    bold: bool = False
    level: int | None = None
    centered: bool = False
    builtin: bool = False
    cut: bool = False
    tab: float | None = None


PARAGRAPH_STYLES = {
    "title": ParagraphStyle("Title", 20, after=8, bold=True, builtin=True),
    "heading1": ParagraphStyle("Heading 1", 14, 12, 4, bold=True, level=0, builtin=True),
    "heading2": ParagraphStyle("Heading 2", 12, 14, 4, bold=True, level=1, builtin=True),
    "header": ParagraphStyle("Header", 11, after=0, builtin=True),
    "footer": ParagraphStyle("Footer", 10, after=0, centered=True, builtin=True),
    "story": ParagraphStyle("Story", 14),
    "question": ParagraphStyle("Story Question", 14),
    "work": ParagraphStyle("Work Room", 11, before=2, after=16),
    "tall": ParagraphStyle("Tall Work Room", 11, before=8, after=140),
    "fill": ParagraphStyle("Fill In", 12, before=6, after=3),
    "help": ParagraphStyle("Talk Frame", 12, after=3),
    "fact": ParagraphStyle("Key Facts", 11),
    "say": ParagraphStyle("Say Aloud", 14),
    "launch": ParagraphStyle("Launch Story", 16, after=8),
    "sum": ParagraphStyle("Number Sentence", 16, before=2, after=2, tab=230),
    "cut": ParagraphStyle("Cut Line", 12, before=10, after=4, cut=True),
    "card": ParagraphStyle("Card Story", 13, after=4),
    "card-name": ParagraphStyle("Card Name", 11, after=4, bold=True),
    "note": ParagraphStyle("Key Note", 11, after=5),
    "drawing": ParagraphStyle("Drawing", 12, before=2, after=4),
    "cell": ParagraphStyle("Table Text", 11, before=1, after=1),
    "cell-header": ParagraphStyle("Table Header", 11, before=1, after=1, bold=True),
}
