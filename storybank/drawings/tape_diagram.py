"""The tape diagram of a story: two parts of a whole, or two bars to compare.

Form: bars as they are drawn in grade 2 (CCSS-M glossary, "tape diagram"): the parts side by side
with the whole above, and for a comparison two bars one above the other, left ends lined up, the
difference bracketed. Measures: our own design. The bars show which number is larger, not how
large it is: with true lengths the answer could be read off.
"""

from dataclasses import replace

from storybank.drawings._display import Box, Drawing, Frame, Item, Label, Line
from storybank.drawings._measures import NORMAL, Measures

TITLE = "Bar diagram"
_LEFT, _HEIGHT = 70.0, 28.0
_LARGER = 0.6
_TICK = 5.0


def parts(
    part1: int | None, part2: int | None, whole: int | None, *, measures: Measures = NORMAL
) -> Drawing:
    """One bar in two parts with the whole bracketed above; None is the number asked for.

    `measures` sets its width in points and how large everything else is. Raises ValueError unless
    exactly one of the three is None.
    """
    known1, known2 = _pieces(part1, part2, whole, "part", "part", "whole")
    share = _share(known1, known2, asked=whole is not None)
    s, right = measures.scale, measures.width - _LEFT
    top = 30 * s
    middle = _LEFT + share * (right - _LEFT)
    bottom = top + _HEIGHT * s
    items: list[Item] = [
        *_bracket(_LEFT, right, top - 9 * s, _TICK * s, measures),
        _label((_LEFT + right) / 2, top - 16 * s, whole, measures),
        Frame(Box(_LEFT, top, right, bottom), measures.line),
        Line(middle, top, middle, bottom, measures.line),
        _label((_LEFT + middle) / 2, top + 19 * s, part1, measures),
        _label((middle + right) / 2, top + 19 * s, part2, measures),
    ]
    alt = (
        f"{TITLE}: one bar in two parts. The first part is {_said(part1)}, the second part is "
        f"{_said(part2)}, the whole bar is {_said(whole)}."
    )
    return Drawing(measures.width, bottom + 8 * s, tuple(items), TITLE, alt)


def compare(
    smaller: int | None,
    difference: int | None,
    bigger: int | None,
    *,
    measures: Measures = NORMAL,
) -> Drawing:
    """Two bars with their left ends lined up, the difference bracketed; None is asked for.

    A line stands before each bar, to write on who or what it is for. `measures` sets the width in
    points and how large everything else is. Raises ValueError unless exactly one of the three
    is None.
    """
    known1, known2 = _pieces(smaller, difference, bigger, "smaller", "difference", "bigger")
    s, right = measures.scale, measures.width - _LEFT
    end = _LEFT + _share(known1, known2, asked=bigger is not None) * (right - _LEFT)
    top, below = 4 * s, 40 * s
    items: list[Item] = []
    for row, edge, number in ((top, right, bigger), (below, end, smaller)):
        items += [
            Line(2, row + 21 * s, _LEFT - 10, row + 21 * s, measures.thin),
            Frame(Box(_LEFT, row, edge, row + _HEIGHT * s), measures.line),
            _label((_LEFT + edge) / 2, row + 19 * s, number, measures),
        ]
    items += [
        *_bracket(end + 3 * s, right, below + 6 * s, -_TICK * s, measures),
        _label((end + right) / 2, below + 27 * s, difference, measures),
    ]
    alt = (
        f"{TITLE}: two bars with their left ends lined up. The longer bar is {_said(bigger)}, the "
        f"shorter bar is {_said(smaller)}, the difference is {_said(difference)}. A line before "
        "each bar is there to write on."
    )
    height = below + (_HEIGHT + 6) * s
    return Drawing(measures.width, height, tuple(items), TITLE, alt)


def without_numbers(drawing: Drawing) -> Drawing:
    """A bar diagram as a frame to write numbers into, which are not told yet."""
    items = tuple(one for one in drawing.items if not isinstance(one, Label))
    alt = f"{TITLE} without numbers, to write them into."
    return replace(drawing, items=items, alt=alt)


def _pieces(
    first: int | None, second: int | None, total: int | None, *names: str
) -> tuple[int, int]:
    """The sizes of the two pieces, the one asked for worked out from the others."""
    if first is not None and second is not None and total is None:
        return first, second
    if first is not None and total is not None and second is None:
        return first, total - first
    if second is not None and total is not None and first is None:
        return total - second, second
    raise ValueError(
        f"A bar diagram shows two of {', '.join(names)} and asks for the third, "
        f"not {(first, second, total)}."
    )


def _share(first: int, second: int, *, asked: bool) -> float:
    """How much of the bar the first piece takes.

    Equal pieces are drawn alike only when both are told: else the picture would tell the answer.
    """
    if first == second and not asked:
        return 0.5
    return _LARGER if first >= second else 1 - _LARGER


def _bracket(
    left: float, right: float, y: float, tick: float, measures: Measures
) -> tuple[Line, ...]:
    """A level line with a tick at each end: downwards, or upwards where `tick` is negative."""
    thin = measures.thin
    return (
        Line(left, y, right, y, thin),
        Line(left, y, left, y + tick, thin),
        Line(right, y, right, y + tick, thin),
    )


def _label(x: float, y: float, number: int | None, measures: Measures) -> Label:
    return Label(x, y, "?" if number is None else str(number), measures.sizes[0])


def _said(number: int | None) -> str:
    return "the number to find" if number is None else str(number)
