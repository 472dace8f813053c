"""How large a drawing is: its width, its type and its lines."""

from dataclasses import dataclass

_TYPE = 13.0
EDGE = 8.0
"""How far a line ends from the edge of its drawing, in points."""
_LINE = 1.5


@dataclass(frozen=True, slots=True)
class Measures:
    """The size in which drawings are made.

    `width` is that of every drawing in points, at least 25 times the largest type. Of the type
    `sizes`, in points, the first at which everything fits is taken, so the largest stands first.
    `line` is the width of lines in points. Everything else (arcs, dots, heights, gaps) grows with
    the largest type.
    """

    width: float
    sizes: tuple[float, ...]
    line: float

    @property
    def scale(self) -> float:
        """How much larger heights, dots and gaps are than beside type of 13 points."""
        return self.sizes[0] / _TYPE

    @property
    def thin(self) -> float:
        """The width in points of brackets and of lines to write on."""
        return self.line / _LINE


NORMAL = Measures(width=460.0, sizes=(13.0, 12.0, 11.0), line=_LINE)
# Large print is 18 points in drawings too (American Printing House guidelines).
LARGE = Measures(width=496.0, sizes=(18.0,), line=2.0)
# Notes that only a teacher reads; on a plan of one page there is room for no more.
SMALL = Measures(width=340.0, sizes=(11.0, 10.0), line=1.5)
