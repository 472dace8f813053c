"""Frames of ten: a ten is filled up from the other number, or the way goes back to ten."""

from collections.abc import Iterator
from dataclasses import dataclass

from storybank.drawings._counters import counter
from storybank.drawings._display import (
    BACK,
    FORWARD,
    Arrow,
    Box,
    Drawing,
    Grid,
    Item,
    Label,
)
from storybank.drawings._measures import NORMAL, Measures
from storybank.drawings._numbers import MINUS, equation, middle_equation, signed
from storybank.model import Solution

TITLE = "Ten frames"
_CELL, _BETWEEN, _TOP = 21.0, 50.0, 21.0
_FIRST, _SECOND, _MOVED, _TAKEN = "first", "second", "moved", "taken"
_BEYOND = 34.0


@dataclass(frozen=True, slots=True)
class _Filling:
    """A sum of which one number takes `moved` from the other to be ten; `rest` stays there."""

    a: int
    b: int
    moved: int
    rest: int
    second_takes: bool

    @property
    def lines(self) -> tuple[tuple[str, ...], ...]:
        """The lines of the solutions that go this way."""
        takes, gives = (self.b, self.a) if self.second_takes else (self.a, self.b)
        whole = f"{self.rest} + 10" if self.second_takes else f"10 + {self.rest}"
        total = self.a + self.b
        return (
            (
                f"{gives} = {self.moved} + {self.rest}",
                f"{takes} + {self.moved} = 10",
                f"{whole} = {total}",
            ),
            (f"{self.a} + {self.b} = {whole}", f"{whole} = {total}"),
        )


def worked(solution: Solution, *, measures: Measures = NORMAL) -> Drawing | None:
    """Two ten frames that show making a ten, or going back to ten, the answer ringed.

    None where a number is above 20 or the lines of the solution do not go through ten. They are
    like "5 = 2 + 3", "8 + 2 = 10", "10 + 3 = 13", or "4 + 9 = 3 + 10", "3 + 10 = 13", or
    "8 = 3 + 5", "13 - 3 = 10", "10 - 5 = 5". The dots of the first number are filled, those of the
    second open; those that move to fill the ten have a dark middle; those taken away are open and
    crossed out. `measures` sets the width in points and the type. Form: two rows of five, filled
    from the left, top row first (common teaching guidance); marks and measures: our own design.
    """
    a, b = solution.a, solution.b
    if a is None or b is None:
        return None
    if solution.operation == "-":
        near, rest = a - 10, 10 - (a - b)
        steps = (f"{b} = {near} + {rest}", f"{a} - {near} = 10", f"10 - {rest} = {a - b}")
        fits = solution.lines == steps and 0 < near <= 10
        return _taking(a, near, rest, measures) if fits else None
    for filling in _fillings(a, b):
        if solution.lines in filling.lines:
            return _making(filling, measures)
    return None


def _fillings(a: int, b: int) -> Iterator[_Filling]:
    for takes, gives, second_takes in ((a, b, False), (b, a, True)):
        moved = 10 - takes
        if moved > 0 and 0 <= gives - moved <= 10:
            yield _Filling(a, b, moved, gives - moved, second_takes)


def _making(filling: _Filling, measures: Measures) -> Drawing:
    a, b, moved, rest = filling.a, filling.b, filling.moved, filling.rest
    s, size, second_takes = measures.scale, measures.sizes[0], filling.second_takes
    taking, giving = (_SECOND, _FIRST) if second_takes else (_FIRST, _SECOND)
    ten = [taking] * (10 - moved) + [_MOVED] * moved
    marks = ([giving] * rest, ten) if second_takes else (ten, [giving] * rest)
    left, right = _lefts(measures, beyond=_BEYOND * s)
    middles = [x + 2.5 * _CELL * s for x in (left, right)]
    items: list[Item] = []
    for x, middle, number, frame in zip((left, right), middles, (a, b), marks, strict=True):
        items += [*_frame(x, frame, measures), Label(middle, 14 * s, str(number), size)]
    between = (middles[0] + middles[1]) / 2
    items.append(Label(between, 14 * s, "+", size))
    # The ones that fill the ten go over in the lower row, where the ten has its last places.
    y, half = (_TOP + 1.5 * _CELL) * s, (_BETWEEN / 2 - 6) * s
    way = half if second_takes else -half
    arrow = Arrow(between - way, y, between + way, y, FORWARD, measures.line, 8 * s)
    items += [arrow, Label(between, y - 7 * s, signed(moved), size, ink=FORWARD)]
    below = (_TOP + 2 * _CELL + 21) * s
    parts = (rest, 10) if second_takes else (10, rest)
    items += [Label(x, below, str(part), size) for x, part in zip(middles, parts, strict=True)]
    items.append(Label(between, below, "+", size))
    items += equation("", a + b, middles[1] + 2 * _CELL * s, below, size, measures)
    return Drawing(measures.width, below + 8 * s, tuple(items), TITLE, _making_alt(filling))


def _making_alt(filling: _Filling) -> str:
    a, b, moved, rest = filling.a, filling.b, filling.moved, filling.rest
    takes, gives = ("second", "first") if filling.second_takes else ("first", "second")
    move, fill = ("moves", "fills") if moved == 1 else ("move", "fill")
    whole = f"{rest} plus 10" if filling.second_takes else f"10 plus {rest}"
    return (
        f"{TITLE} for {a} plus {b}. The {takes} frame has {_dots(10 - moved)}. {moved} of the "
        f"{_dots(a if filling.second_takes else b)} {move} over from the {gives} frame and {fill} "
        f"it to 10. {_dots(rest)} {'stays' if rest == 1 else 'stay'} in the {gives} frame. "
        f"{whole} is {a + b}, the answer."
    )


def _taking(a: int, near: int, rest: int, measures: Measures) -> Drawing:
    s, size = measures.scale, measures.sizes[0]
    left, right = _lefts(measures)
    items: list[Item] = []
    for x, frame, gone in (
        (left, [_FIRST] * (10 - rest) + [_TAKEN] * rest, rest),
        (right, [_TAKEN] * near, near),
    ):
        middle = x + 2.5 * _CELL * s
        items += [*_frame(x, frame, measures), Label(middle, 14 * s, signed(-gone), size, ink=BACK)]
    below = (_TOP + 2 * _CELL + 21) * s
    side = f"{a} {MINUS} {near} {MINUS} {rest}"
    items += middle_equation(side, 10 - rest, below, size, measures)
    alt = (
        f"{TITLE} with {a} dots, a full frame of 10 and {near} in the second frame. First the "
        f"{_dots(near)} of the second frame {_are(near)} crossed out: 10 are left. Then "
        f"{_dots(rest)} of the full frame {_are(rest)} crossed out. {a} minus {near} minus {rest} "
        f"is {10 - rest}, the answer."
    )
    return Drawing(measures.width, below + 8 * s, tuple(items), TITLE, alt)


def _lefts(measures: Measures, beyond: float = 0.0) -> tuple[float, float]:
    """The left edges of the two frames, with room `beyond` kept free on the right."""
    s = measures.scale
    left = (measures.width - (10 * _CELL + _BETWEEN) * s - beyond) / 2
    return left, left + (5 * _CELL + _BETWEEN) * s


def _frame(left: float, marks: list[str], measures: Measures) -> list[Item]:
    """A frame whose places are filled with `marks`, in order."""
    s, cell = measures.scale, _CELL * measures.scale
    top = _TOP * s
    items: list[Item] = [Grid(Box(left, top, left + 5 * cell, top + 2 * cell), 5, 2, measures.line)]
    for place, mark in enumerate(marks):
        row, column = divmod(place, 5)
        x, y = left + (column + 0.5) * cell, top + (row + 0.5) * cell
        items += counter(
            x, y, measures, filled=mark == _FIRST, cored=mark == _MOVED, taken=mark == _TAKEN
        )
    return items


def _dots(count: int) -> str:
    return f"{count} dot{'' if count == 1 else 's'}"


def _are(count: int) -> str:
    return "is" if count == 1 else "are"
