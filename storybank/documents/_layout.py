"""How pages are to look, and which of them: what a teacher chooses once the set is made."""

from dataclasses import dataclass
from pathlib import Path

from storybank.cleaning import clean_text
from storybank.drawings import LARGE, NORMAL, Measures
from storybank.errors import RequestError, unknown_value

DEFAULT_PAGES = ("student", "key")
DEFAULT_FONT = "Verdana"
PAPERS = {"letter": (612.0, 792.0), "a4": (595.3, 841.9)}
"""Width and height in points (ANSI Y14.1 size A; ISO 216)."""
LINES = ("started", "blank", "none")
DRAWINGS = ("pictures", "shapes")
UNKNOWNS = {"box": "\N{WHITE SQUARE}", "blank": "____", "question-mark": "?"}
LEAST_LARGE = 18.0
"""Points of the smallest type in large print (American Printing House guidelines; from memory)."""
_GROWTH = 1.3
_FONT_LETTERS = 60
_MARGIN, _LARGE_MARGIN = 65.0, 48.0
TOP, BOTTOM = 60.0, 46.0
"""The room above and below the text, in points; header and footer stand in it."""


@dataclass(frozen=True, slots=True)
class Layout:
    """The pages asked for and how they look.

    `pages` are kinds of page in the order in which they are made. `lines` says what the number
    lines for children hold, whatever their level says: `started` (one given number), `blank`
    or `none` (no line); None leaves it to the level. `unknown` is the sign of the number to
    find. `template` is a Word file whose styles, header and margins are used. `drawings` are
    `pictures`, or in Word `shapes` that can be moved. Raises RequestError for a value that is
    none of the valid ones.
    """

    pages: tuple[str, ...] = DEFAULT_PAGES
    paper: str = "letter"
    large_print: bool = False
    font: str = DEFAULT_FONT
    lines: str | None = None
    unknown: str = "box"
    template: Path | None = None
    drawings: str = "pictures"

    def __post_init__(self) -> None:
        for what, value, valid in (
            ("paper", self.paper, PAPERS),
            ("kind of lines", self.lines, (*LINES, None)),
            ("sign for the unknown", self.unknown, UNKNOWNS),
            ("kind of drawings", self.drawings, DRAWINGS),
        ):
            if value not in valid:
                names = [one for one in valid if one is not None]
                raise RequestError(unknown_value(what, str(value), names))
        cleaned, _ = clean_text(self.font, _FONT_LETTERS)
        if cleaned != self.font or not self.font.strip():
            raise RequestError(
                f'The font "{cleaned}" is no name of a font: it is empty, too long or holds signs '
                'that cannot be printed. Write its name as Word shows it, such as "Verdana".'
            )

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the paper in points."""
        return PAPERS[self.paper]

    @property
    def margin(self) -> float:
        """The room left free at the sides, in points."""
        return _LARGE_MARGIN if self.large_print else _MARGIN

    @property
    def text_width(self) -> float:
        """The room between the margins, in points."""
        return self.size[0] - 2 * self.margin

    @property
    def text_height(self) -> float:
        """The room between the margins above and below, in points."""
        return self.size[1] - TOP - BOTTOM

    @property
    def measures(self) -> Measures:
        """The measures of drawings."""
        return LARGE if self.large_print else NORMAL

    @property
    def sign(self) -> str:
        """The sign for the number to find."""
        return UNKNOWNS[self.unknown]

    def type_size(self, size: float) -> float:
        """A type size in points as it is printed: in large print larger, and never below 18."""
        return max(LEAST_LARGE, round(size * _GROWTH)) if self.large_print else size
