"""The display list: what a drawing consists of, in points, before any writer draws it."""

from dataclasses import dataclass
from math import hypot

BLACK = "#000000"
FORWARD = "#1f4e9e"
BACK = "#a33a00"

# Width of a character as a share of the type size. These are Verdana's figures, the widest
# of the fonts a reader may put in place; so a label never needs more room than was kept for it.
_DIGIT_WIDTH = 0.636
_SIGN_WIDTH = 0.818
_SPACE_WIDTH = 0.352
_WIDEST = 1.0
# Small letters, each as wide as it is in Verdana (from memory) or in DejaVu Sans (measured).
_LETTER_WIDTHS = {
    "a": 0.613, "b": 0.635, "c": 0.55, "d": 0.635, "e": 0.615, "f": 0.352, "g": 0.635,
    "h": 0.634, "i": 0.278, "j": 0.344, "k": 0.592, "l": 0.278, "m": 0.974, "n": 0.634,
    "o": 0.612, "p": 0.635, "q": 0.635, "r": 0.427, "s": 0.521, "t": 0.394, "u": 0.634,
    "v": 0.592, "w": 0.818, "x": 0.592, "y": 0.592, "z": 0.525,
}  # fmt: skip
_SIGNS = "+-=?\N{MINUS SIGN}"

Corners = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle by its edges."""

    left: float
    top: float
    right: float
    bottom: float

    def overlaps(self, other: "Box") -> bool:
        """Whether the two rectangles share more than an edge."""
        return (
            self.left < other.right
            and other.left < self.right
            and self.top < other.bottom
            and other.top < self.bottom
        )


@dataclass(frozen=True, slots=True)
class Line:
    """A level or upright line."""

    x1: float
    y1: float
    x2: float
    y2: float
    width: float = 1.5
    ink: str = BLACK


@dataclass(frozen=True, slots=True)
class Arc:
    """A curved jump from (x1, y) to (x2, y) with an arrowhead at its end.

    `rise` is the height of its highest point above y, or below y when it is negative.
    """

    x1: float
    x2: float
    y: float
    rise: float
    ink: str
    dashed: bool = False
    width: float = 1.5
    head_length: float = 8.0

    @property
    def control(self) -> tuple[float, float]:
        """The control point of the quadratic curve."""
        return ((self.x1 + self.x2) / 2, self.y - 2 * self.rise)

    def head(self) -> Corners:
        """The three corners of the arrowhead, tip first."""
        return _head(self.control, (self.x2, self.y), self.head_length)


@dataclass(frozen=True, slots=True)
class Arrow:
    """A straight line from (x1, y1) to (x2, y2), which may slant, with an arrowhead at its end."""

    x1: float
    y1: float
    x2: float
    y2: float
    ink: str
    width: float = 1.5
    head_length: float = 8.0

    def shaft(self) -> tuple[float, float, float, float]:
        """The ends x1, y1, x2, y2 of the line; it stops within the head to keep its tip sharp."""
        _, (left_x, left_y), (right_x, right_y) = self.head()
        stop_x = (2 * self.x2 + left_x + right_x) / 4
        return self.x1, self.y1, stop_x, (2 * self.y2 + left_y + right_y) / 4

    def head(self) -> Corners:
        """The three corners of the arrowhead, tip first."""
        return _head((self.x1, self.y1), (self.x2, self.y2), self.head_length)


@dataclass(frozen=True, slots=True)
class Dot:
    """A small circle that marks a number or stands for one thing, filled or empty.

    An empty one with a `core`, the radius of a filled middle, is told apart from both.
    """

    x: float
    y: float
    radius: float = 3.5
    filled: bool = True
    width: float = 1.5
    core: float = 0.0


@dataclass(frozen=True, slots=True)
class Label:
    """A short text; `y` is its baseline, `anchor` is `start`, `middle` or `end` of it at `x`."""

    x: float
    y: float
    text: str
    size: float = 13.0
    anchor: str = "middle"
    ink: str = BLACK

    @property
    def width(self) -> float:
        """The room that the text needs."""
        return text_width(self.text, self.size)

    @property
    def box(self) -> Box:
        """The rectangle that the text needs."""
        shift = {"start": 0.0, "middle": 0.5, "end": 1.0}[self.anchor]
        left = self.x - shift * self.width
        return Box(left, self.y - 0.76 * self.size, left + self.width, self.y + 0.04 * self.size)


@dataclass(frozen=True, slots=True)
class Ring:
    """A rounded frame around a number: this is the answer. It stands before what it frames."""

    box: Box
    width: float = 1.5
    ink: str = BLACK


@dataclass(frozen=True, slots=True)
class Frame:
    """A rectangle's edge."""

    box: Box
    width: float = 1.5
    ink: str = BLACK


@dataclass(frozen=True, slots=True)
class Grid:
    """A rectangle ruled into equal cells."""

    box: Box
    columns: int
    rows: int
    width: float = 1.5
    ink: str = BLACK

    def inner(self) -> tuple[tuple[float, float, float, float], ...]:
        """The ends x1, y1, x2, y2 of each line between cells, the upright ones first."""
        box = self.box
        across, down = (box.right - box.left) / self.columns, (box.bottom - box.top) / self.rows
        xs = [box.left + across * place for place in range(1, self.columns)]
        ys = [box.top + down * place for place in range(1, self.rows)]
        return (
            *((x, box.top, x, box.bottom) for x in xs),
            *((box.left, y, box.right, y) for y in ys),
        )


@dataclass(frozen=True, slots=True)
class Cross:
    """Two lines from corner to corner of a box: what stands there is taken away."""

    box: Box
    width: float = 1.5
    ink: str = BACK

    def strokes(self) -> tuple[tuple[float, float, float, float], ...]:
        """The ends x1, y1, x2, y2 of the falling and of the rising line."""
        box = self.box
        return (
            (box.left, box.top, box.right, box.bottom),
            (box.left, box.bottom, box.right, box.top),
        )


Item = Line | Arc | Arrow | Dot | Label | Ring | Frame | Grid | Cross


@dataclass(frozen=True, slots=True)
class Drawing:
    """A finished drawing: its size in points, its items from back to front, its alt text."""

    width: float
    height: float
    items: tuple[Item, ...]
    title: str
    alt: str


def text_width(text: str, size: float) -> float:
    """The room in points that `text` needs at most at `size`."""
    return size * sum(map(_character_width, text))


def _head(start: tuple[float, float], tip: tuple[float, float], length: float) -> Corners:
    """An arrowhead whose tip points the way from `start`; it is 0.8 times as wide as long."""
    along_x, along_y = tip[0] - start[0], tip[1] - start[1]
    size = hypot(along_x, along_y)
    along_x, along_y = along_x / size, along_y / size
    back_x, back_y = tip[0] - length * along_x, tip[1] - length * along_y
    spread = 0.4 * length
    return (
        tip,
        (back_x - spread * along_y, back_y + spread * along_x),
        (back_x + spread * along_y, back_y - spread * along_x),
    )


def _character_width(character: str) -> float:
    if character.isdigit():
        return _DIGIT_WIDTH
    if character == " ":
        return _SPACE_WIDTH
    if character in _SIGNS:
        return _SIGN_WIDTH
    return _LETTER_WIDTHS.get(character, _WIDEST)
