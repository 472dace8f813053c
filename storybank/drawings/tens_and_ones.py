"""Tens as upright bars and ones as small squares: two numbers added, or one taken away."""

from dataclasses import dataclass

from storybank.drawings._display import BACK, Box, Cross, Drawing, Frame, Grid, Item, Label, Line
from storybank.drawings._measures import NORMAL, Measures
from storybank.drawings._numbers import MINUS, equation, equation_width, signed
from storybank.model import Solution

TITLE = "Tens and ones"
LARGEST = 100
_UNIT = 6.5
_BAR = 10 * _UNIT
_BAR_STEP, _SQUARE_STEP, _COLUMN = 13.5, 11.0, 5
_LABELS, _BETWEEN, _LEAST, _AFTER = 52.0, 36.0, 24.0, 12.0


@dataclass(frozen=True, slots=True)
class _Layout:
    """The left edges and the widths of the columns of tens and of ones, in points."""

    tens: float
    tens_width: float
    ones: float
    ones_width: float

    @property
    def middles(self) -> tuple[float, float]:
        """The middles of both columns."""
        return self.tens + self.tens_width / 2, self.ones + self.ones_width / 2


def worked(solution: Solution, *, measures: Measures = NORMAL) -> Drawing | None:
    """The numbers of a solution by tens and ones as bars and squares, the answer ringed.

    Adding, both numbers stand one above the other; taking away, the first is drawn and what goes
    is crossed out. None past 100, where there is nothing to split, or where a ten would have to be
    broken up. `measures` sets the width in points and the type. Form: base-ten pieces as they are
    drawn in grades 1 and 2 (common teaching guidance); measures: our own design.
    """
    a, b = solution.a, solution.b
    if a is None or b is None or not solution.lines:
        return None
    if solution.operation == "+":
        return _added(a, b, measures) if a + b <= LARGEST else None
    if a >= LARGEST or b > a or a % 10 < b % 10:
        return None
    return _taken(a, b, measures)


def _added(a: int, b: int, measures: Measures) -> Drawing:
    s, size = measures.scale, measures.sizes[0]
    layout = _layout((a, b), a + b, measures)
    items: list[Item] = []
    top = 6.0
    for number, sign in ((a, ""), (b, "+ ")):
        tens, squares = _pieces(number, layout, top, s)
        items += [_bar(box, measures) for box in tens]
        items += [Frame(box, measures.thin) for box in squares]
        middle = (top + _BAR / 2) * s + 0.36 * size
        items.append(Label(layout.tens - 16 * s, middle, f"{sign}{number}", size, "end"))
        top += _BAR + 11
    tens_sum, ones_sum = a // 10 * 10 + b // 10 * 10, a % 10 + b % 10
    alt = (
        f"{TITLE} for {a} plus {b}. {_said(a)}, {_said(b)}. The tens make {tens_sum}, the ones "
        f"make {ones_sum}. {tens_sum} plus {ones_sum} is {a + b}, the answer."
    )
    return _finished(items, layout, top - 3, (tens_sum, ones_sum), alt, measures)


def _taken(a: int, b: int, measures: Measures) -> Drawing:
    s, size = measures.scale, measures.sizes[0]
    layout = _layout((a,), a - b, measures)
    top = 24.0
    tens, squares = _pieces(a, layout, top, s)
    items: list[Item] = [_bar(box, measures) for box in tens]
    items += [Frame(box, measures.thin) for box in squares]
    for boxes, count, unit in ((tens, b // 10, 10), (squares, b % 10, 1)):
        gone = boxes[len(boxes) - count :]
        items += [_cross(box, s, measures) for box in gone]
        if gone:
            middle = (min(box.left for box in gone) + max(box.right for box in gone)) / 2
            items.append(Label(middle, (top - 8) * s, signed(-count * unit), size, ink=BACK))
    x, middle = layout.tens - 16 * s, (top + _BAR / 2) * s
    items.append(Label(x, middle - 4 * s, str(a), size, "end"))
    items.append(Label(x, middle + size + 2 * s, f"{MINUS} {b}", size, "end"))
    rest = a - b
    alt = (
        f"{TITLE} for {a} minus {b}. {_said(a)}. {_count(b // 10, 'ten')} and "
        f"{_count(b % 10, 'one')} are crossed out. {_count(rest // 10, 'ten')} and "
        f"{_count(rest % 10, 'one')} are left. {rest // 10 * 10} plus {rest % 10} is {rest}, "
        "the answer."
    )
    return _finished(items, layout, top + _BAR + 8, (rest // 10 * 10, rest % 10), alt, measures)


def _layout(numbers: tuple[int, ...], answer: int, measures: Measures) -> _Layout:
    s = measures.scale
    most_tens = max(number // 10 for number in numbers)
    columns = max(-(-(number % 10) // _COLUMN) for number in numbers)
    tens = max(most_tens * _BAR_STEP - _BAR_STEP + _UNIT, _LEAST) * s
    ones = max(columns * _SQUARE_STEP - _SQUARE_STEP + _UNIT, _LEAST) * s
    after = _AFTER * s + equation_width("", answer, measures.sizes[0], measures)
    whole = _LABELS * s + tens + _BETWEEN * s + ones + after
    left = (measures.width - whole) / 2 + _LABELS * s
    return _Layout(left, tens, left + tens + _BETWEEN * s, ones)


def _pieces(number: int, layout: _Layout, top: float, scale: float) -> tuple[list[Box], list[Box]]:
    """The bars and the squares of `number`; squares stand in columns of five, from the foot up."""
    s = scale
    bars = [
        Box(x * s + layout.tens, top * s, (x + _UNIT) * s + layout.tens, (top + _BAR) * s)
        for x in (_BAR_STEP * place for place in range(number // 10))
    ]
    squares = []
    for place in range(number % 10):
        column, row = divmod(place, _COLUMN)
        x, y = layout.ones + column * _SQUARE_STEP * s, (top + _BAR - row * _SQUARE_STEP) * s
        squares.append(Box(x, y - _UNIT * s, x + _UNIT * s, y))
    return bars, squares


def _bar(box: Box, measures: Measures) -> Grid:
    return Grid(box, 1, 10, measures.thin)


def _cross(box: Box, scale: float, measures: Measures) -> Cross:
    """A cross over a square, or a bold one as high as five squares over the middle of a bar."""
    aside, high = 1.5 * scale, box.bottom - box.top
    middle, half = (box.top + box.bottom) / 2, min(high, 5 * _UNIT * scale) / 2 + aside
    edge = Box(box.left - aside, middle - half, box.right + aside, middle + half)
    bold = high > 2 * _UNIT * scale
    return Cross(edge, measures.line * (1.4 if bold else 1.0))


def _finished(
    items: list[Item], layout: _Layout, foot: float, parts: tuple[int, int], alt: str,
    measures: Measures,
) -> Drawing:  # fmt: skip
    """The drawing with a line below the pieces and the sum of tens and ones under their columns."""
    s, size, answer = measures.scale, measures.sizes[0], sum(parts)
    right = layout.ones + layout.ones_width
    y = (foot + 19) * s
    for middle, part in zip(layout.middles, parts, strict=True):
        items.append(Label(middle, y, str(part), size))
    between = (layout.tens + layout.tens_width + layout.ones) / 2
    items += [
        Line(layout.tens - 8 * s, foot * s, right + 8 * s, foot * s, measures.thin),
        Label(between, y, "+", size),
    ]
    items += equation("", answer, right + _AFTER * s, y, size, measures)
    return Drawing(measures.width, y + 8 * s, tuple(items), TITLE, alt)


def _said(number: int) -> str:
    return f"{number} is {_count(number // 10, 'ten')} and {_count(number % 10, 'one')}"


def _count(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"
