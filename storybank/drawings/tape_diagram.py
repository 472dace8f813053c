"""The tape diagram of a story: two parts of a whole, or two bars to compare.

Form: bars as they are drawn in grade 2 (CCSS-M glossary, "tape diagram"): the parts side by side
with the whole above, and for a comparison two bars one above the other, left ends lined up, the
difference bracketed. Measures: our own design. The bars show which number is larger, not how
large it is: with true lengths the answer could be read off.
"""

from storybank.drawings._display import Box, Drawing, Frame, Item, Label, Line

TITLE = "Bar diagram"
WIDTH = 460.0
_LEFT, _BAR, _HEIGHT, _SIZE = 70.0, 320.0, 28.0, 13.0
_LARGER = 0.6
_TICK = 5.0


def parts(part1: int | None, part2: int | None, whole: int | None) -> Drawing:
    """One bar in two parts with the whole bracketed above; None is the number asked for.

    Raises ValueError unless exactly one of the three is None.
    """
    known1, known2 = _pieces(part1, part2, whole, "part", "part", "whole")
    share = _share(known1, known2, asked=whole is not None)
    top = 30.0
    middle = _LEFT + share * _BAR
    bottom = top + _HEIGHT
    items: list[Item] = [
        *_bracket(_LEFT, _LEFT + _BAR, top - 9, up=True),
        _label(_LEFT + _BAR / 2, top - 16, whole),
        Frame(Box(_LEFT, top, _LEFT + _BAR, bottom)),
        Line(middle, top, middle, bottom),
        _label((_LEFT + middle) / 2, top + 19, part1),
        _label((middle + _LEFT + _BAR) / 2, top + 19, part2),
    ]
    alt = (
        f"{TITLE}: one bar in two parts. The first part is {_said(part1)}, the second part is "
        f"{_said(part2)}, the whole bar is {_said(whole)}."
    )
    return Drawing(WIDTH, bottom + 8, tuple(items), TITLE, alt)


def compare(smaller: int | None, difference: int | None, bigger: int | None) -> Drawing:
    """Two bars with their left ends lined up, the difference bracketed; None is asked for.

    A line stands before each bar, to write on who or what it is for. Raises ValueError unless
    exactly one of the three is None.
    """
    known1, known2 = _pieces(smaller, difference, bigger, "smaller", "difference", "bigger")
    end = _LEFT + _share(known1, known2, asked=bigger is not None) * _BAR
    top, below = 4.0, 40.0
    items: list[Item] = []
    for row, right, number in ((top, _LEFT + _BAR, bigger), (below, end, smaller)):
        items += [
            Line(2, row + 21, _LEFT - 10, row + 21, 1.0),
            Frame(Box(_LEFT, row, right, row + _HEIGHT)),
            _label((_LEFT + right) / 2, row + 19, number),
        ]
    place = (end + _LEFT + _BAR) / 2
    items += [
        *_bracket(end + 3, _LEFT + _BAR, below + 6, up=False),
        _label(place, below + 27, difference),
    ]
    alt = (
        f"{TITLE}: two bars with their left ends lined up. The longer bar is {_said(bigger)}, the "
        f"shorter bar is {_said(smaller)}, the difference is {_said(difference)}. A line before "
        "each bar is there to write on."
    )
    return Drawing(WIDTH, below + _HEIGHT + 6, tuple(items), TITLE, alt)


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


def _bracket(left: float, right: float, y: float, *, up: bool) -> tuple[Line, ...]:
    tick = _TICK if up else -_TICK
    return (
        Line(left, y, right, y, 1.0),
        Line(left, y, left, y + tick, 1.0),
        Line(right, y, right, y + tick, 1.0),
    )


def _label(x: float, y: float, number: int | None) -> Label:
    return Label(x, y, "?" if number is None else str(number), _SIZE)


def _said(number: int | None) -> str:
    return "the number to find" if number is None else str(number)
