"""The same difference: the distance between two numbers, and the same distance further along."""

import re

from storybank.drawings._display import (
    FORWARD,
    Arrow,
    Dot,
    Drawing,
    Item,
    Label,
    Line,
    text_width,
)
from storybank.drawings._measures import EDGE, NORMAL, Measures
from storybank.drawings._numbers import ring, signed
from storybank.model import Solution

TITLE = "Same difference on two number lines"
_LEAST_SHIFT, _MOST_SHIFT = 40.0, 90.0
_BETWEEN = 10.0
_DEEP = 48.0
_EQUAL = re.compile(r"(\d+) - (\d+) = (\d+) - (\d+)")


def worked(
    solution: Solution, *, asked: bool = False, measures: Measures = NORMAL
) -> Drawing | None:
    """The distance from b to a on a line, and below it the same distance shifted by arrows.

    The two distances are drawn equally long and bracketed, the lower one with its value ringed;
    with `asked` both say "?" instead. The arrows go right for what is added to both numbers, left
    for what is taken from both. None unless the first line of the solution is like
    "82 - 47 = 85 - 50". `measures` sets the width in points and the type. Form: constant
    difference, common teaching guidance (New Zealand, Australia); measures: our own design.
    """
    numbers = _numbers(solution)
    if numbers is None:
        return None
    a, b, shift = numbers
    s, size = measures.scale, measures.sizes[0]
    length, aside = _lengths(a, b, shift, size, measures)
    left = (measures.width - length - abs(aside)) / 2 + max(0.0, -aside)
    upper, lower = 50 * s, (50 + _DEEP) * s
    said = "?" if asked else str(a - b)
    items: list[Item] = []
    for y, x, up, ends in (
        (upper, left, True, (b, a)),
        (lower, left + aside, False, (b + shift, a + shift)),
    ):
        items.append(Line(EDGE, y, measures.width - EDGE, y, measures.line))
        items.append(Line(x, y, x + length, y, 3 * measures.line, FORWARD))
        items += _bracketed(x, y, length, said, up=up, answer=not (up or asked), measures=measures)
        for number, place in zip(ends, (x, x + length), strict=True):
            items.append(Dot(place, y, 3.5 * s, width=measures.line))
            items.append(Label(place, y - 9 * s if up else y + 19 * s, str(number), size))
    for x in (left, left + length):
        items += _shift_items(x, aside, shift, upper, measures)
    return Drawing(measures.width, lower + 52 * s, tuple(items), TITLE, _alt(a, b, shift, said))


def _numbers(solution: Solution) -> tuple[int, int, int] | None:
    """a, b and what is added to both."""
    found = _EQUAL.fullmatch(solution.lines[0]) if solution.lines else None
    if found is None:
        return None
    a, b, first, second = map(int, found.groups())
    return (a, b, first - a) if first - a == second - b != 0 and a > b else None


def _lengths(a: int, b: int, shift: int, size: float, measures: Measures) -> tuple[float, float]:
    """How long the distance is drawn, and how far to the right its lower copy is shifted.

    True to each other where there is room for it; the larger of the two is always the longer.
    """
    s = measures.scale
    widest = text_width(str(a + max(shift, 0)), size)
    label = text_width(signed(shift), size)
    room = measures.width - 2 * (EDGE + max(widest / 2, label) + _BETWEEN * s)
    true = room * abs(shift) / (a - b + abs(shift))
    aside = min(max(true, _LEAST_SHIFT * s), _MOST_SHIFT * s)
    least = max(widest + 2 * _BETWEEN * s, label + 2 * _beside(aside, size, measures) + 8 * s)
    length = min(max(aside * (a - b) / abs(shift), least), room - aside)
    return length, aside if shift > 0 else -aside


def _bracketed(
    x: float, y: float, length: float, said: str, *, up: bool, answer: bool, measures: Measures
) -> list[Item]:
    """A bracket over the numbers at both ends of a distance, or under them, with its length."""
    s, thin = measures.scale, measures.thin
    level, tick = (y - 29 * s, y - 24 * s) if up else (y + 29 * s, y + 24 * s)
    label = Label(x + length / 2, level - 5 * s if up else level + 16 * s, said, measures.sizes[0])
    return [
        Line(x, level, x + length, level, thin),
        Line(x, level, x, tick, thin),
        Line(x + length, level, x + length, tick, thin),
        *([ring(label, measures)] if answer else []),
        label,
    ]


def _shift_items(
    x: float, aside: float, shift: int, upper: float, measures: Measures
) -> tuple[Arrow, Label]:
    """The arrow from an end of the upper distance to that of the lower, and what it adds."""
    s, size, deep = measures.scale, measures.sizes[0], _DEEP * measures.scale
    # The arrow stops at the edges of the two dots.
    part = 6 * s / (aside**2 + deep**2) ** 0.5
    arrow = Arrow(
        x + part * aside, upper + part * deep,
        x + (1 - part) * aside, upper + (1 - part) * deep,
        FORWARD, measures.line, 8 * s,
    )  # fmt: skip
    # Beside the middle of the arrow, below its slope.
    out = _beside(abs(aside), size, measures)
    to_the_right = aside < 0
    anchor = "start" if to_the_right else "end"
    middle = x + aside / 2 + (out if to_the_right else -out)
    return arrow, Label(
        middle, upper + deep / 2 + 0.36 * size, signed(shift), size, anchor, FORWARD
    )


def _beside(aside: float, size: float, measures: Measures) -> float:
    """How far from the middle of an arrow its label begins."""
    return aside / (_DEEP * measures.scale) * 0.5 * size + 4 * measures.scale


def _alt(a: int, b: int, shift: int, said: str) -> str:
    what = "the number to find" if said == "?" else said
    how = f"add {shift} to" if shift > 0 else f"take {-shift} from"
    text = (
        f"{TITLE}: on the upper line, from {b} to {a} it is {what}. Arrows {how} both numbers: "
        f"{b} becomes {b + shift}, {a} becomes {a + shift}. On the lower line, from {b + shift} "
        f"to {a + shift} it is just as far, {what}."
    )
    return text if said == "?" else f"{text} The answer is {said}."
