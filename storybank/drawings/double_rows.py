"""Doubles as two rows of dots: both alike, one of them taken away, or a few dots over."""

from storybank.drawings._counters import counter
from storybank.drawings._display import (
    BACK,
    FORWARD,
    Box,
    Drawing,
    Frame,
    Item,
    Label,
)
from storybank.drawings._measures import NORMAL, Measures
from storybank.drawings._numbers import MINUS, middle_equation, signed
from storybank.model import Solution

TITLE = "Two rows of dots"
_PITCH, _AFTER_FIVE, _BEFORE_EXTRA = 20.0, 8.0, 14.0
_ROWS = (20.0, 42.0)


def worked(solution: Solution, *, measures: Measures = NORMAL) -> Drawing | None:
    """Two equal rows of dots in a frame, grouped in fives, the answer of the sum below ringed.

    None where a number is above 20 or the lines of the solution are no double. They are like
    "6 + 6 = 12", or "6 + 6 = 12", "12 - 6 = 6", of which one row is crossed out, or "6 + 6 = 12",
    "12 + 1 = 13", of which what is over stands outside the frame with a dark middle. Other near
    doubles have numbers above 20. `measures` sets the width in points and the type. Form: common
    teaching guidance; marks and measures: our own design.
    """
    a, b = solution.a, solution.b
    if a is None or b is None or max(a, b, a + b if solution.operation == "+" else a) > 20:
        return None
    half = min(a, b)
    double, gap = f"{half} + {half} = {2 * half}", abs(a - b)
    if solution.operation == "-" and solution.lines == (double, f"{2 * half} - {half} = {half}"):
        return _halved(half, measures)
    if a == b and solution.lines == (double,):
        return _doubled(a, b, measures)
    if a != b and solution.lines == (double, f"{2 * half} + {gap} = {a + b}"):
        return _doubled(a, b, measures)
    return None


def _doubled(a: int, b: int, measures: Measures) -> Drawing:
    s, size, half, gap = measures.scale, measures.sizes[0], min(a, b), abs(a - b)
    items, left, right = _double(half, gap, measures)
    for y, number, filled in zip(_ROWS, (a, b), (True, False), strict=True):
        items.append(_beside(left, y, str(number), measures))
        for place in range(half):
            items += counter(left + _along(place) * s, y * s, measures, filled=filled)
        for place in range(number - half):
            x = right + (_BEFORE_EXTRA + place * _PITCH) * s
            items += counter(x, y * s, measures, cored=True)
        if number > half:
            x = right + (_BEFORE_EXTRA + (gap - 1) * _PITCH + 14) * s
            items.append(Label(x, y * s + 0.36 * size, signed(gap), size, "start", FORWARD))
    side = f"{half} + {half}" + (f" + {gap}" if gap else "")
    alt = f"{TITLE}, {half} in each: {half} plus {half} is {2 * half}"
    if gap:
        which = "first" if a > b else "second"
        over = "dot is" if gap == 1 else "dots are"
        alt += f". {gap} more {over} marked at the end of the {which} row. "
        alt += f"{2 * half} plus {gap} is {a + b}"
    return _finished(items, side, a + b, f"{alt}, the answer.", measures)


def _halved(half: int, measures: Measures) -> Drawing:
    s, size = measures.scale, measures.sizes[0]
    items, left, right = _double(half, 0, measures)
    for y, filled in zip(_ROWS, (True, False), strict=True):
        items.append(_beside(left, y, str(half), measures))
        for place in range(half):
            x = left + _along(place) * s
            items += counter(x, y * s, measures, filled=filled, taken=not filled)
    taken = Label(right + 8 * s, _ROWS[1] * s + 0.36 * size, signed(-half), size, "start", BACK)
    alt = (
        f"{TITLE}, {half} in each, {2 * half} in all. One row of {half} is crossed out. "
        f"{2 * half} minus {half} is {half}, the answer."
    )
    return _finished([*items, taken], f"{2 * half} {MINUS} {half}", half, alt, measures)


def _double(half: int, extra: int, measures: Measures) -> tuple[list[Item], float, float]:
    """The frame around the double, the middle of its first dots, and its right edge."""
    s = measures.scale
    long, over = _along(half - 1) * s, (_BEFORE_EXTRA + extra * _PITCH) * s if extra else 0.0
    left = (measures.width - long - over) / 2
    aside = 13 * s
    edge = Box(left - aside, (_ROWS[0] - 13) * s, left + long + aside, (_ROWS[1] + 13) * s)
    return [Frame(edge, measures.thin)], left, edge.right


def _along(place: int) -> float:
    """How far the dot at `place`, counted from 0, is from the first one."""
    return place * _PITCH + place // 5 * _AFTER_FIVE


def _beside(left: float, y: float, text: str, measures: Measures) -> Label:
    s, size = measures.scale, measures.sizes[0]
    return Label(left - 20 * s, y * s + 0.36 * size, text, size, "end")


def _finished(items: list[Item], side: str, answer: int, alt: str, measures: Measures) -> Drawing:
    s = measures.scale
    y = (_ROWS[1] + 36) * s
    items = [*items, *middle_equation(side, answer, y, measures.sizes[0], measures)]
    return Drawing(measures.width, y + 8 * s, tuple(items), TITLE, alt)
