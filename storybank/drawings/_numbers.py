"""Numbers as they stand in every drawing: signed jumps, equations, the answer ringed."""

from collections.abc import Iterable

from storybank.drawings._display import Box, Item, Label, Ring, text_width
from storybank.drawings._measures import Measures

MINUS = "\N{MINUS SIGN}"
_BEFORE_ANSWER = 10.0


def signed(by: int) -> str:
    """`by` with its sign, as it stands at an arrow: +30 or a minus sign and 7."""
    return f"+{by}" if by > 0 else f"{MINUS}{-by}"


def terms(sizes: Iterable[int]) -> list[str]:
    """The terms of a sum, those after the first with their sign before them: 40, "- 2"."""
    first, *others = sizes
    return [str(first), *(f"{'+' if size > 0 else MINUS} {abs(size)}" for size in others)]


def ring(label: Label, measures: Measures) -> Ring:
    """The ring around a label, which must stand in the display list before it."""
    box, aside, above = label.box, 4 * measures.scale, 3 * measures.scale
    edge = Box(box.left - aside, box.top - above, box.right + aside, box.bottom + above)
    return Ring(edge, measures.line)


def equation_width(side: str, answer: int, size: float, measures: Measures) -> float:
    """The room in points that an equation needs, its ring not counted."""
    gap = _BEFORE_ANSWER * measures.scale
    return text_width(_equals(side), size) + gap + text_width(str(answer), size)


def equation(
    side: str, answer: int, left: float, y: float, size: float, measures: Measures
) -> list[Item]:
    """`side`, an equals sign and the answer ringed, from `left` on the baseline `y`.

    With an empty `side` it is the end of an equation.
    """
    equals, gap = _equals(side), _BEFORE_ANSWER * measures.scale
    answered = Label(left + text_width(equals, size) + gap, y, str(answer), size, "start")
    return [ring(answered, measures), answered, Label(answered.x - gap, y, equals, size, "end")]


def middle_equation(
    side: str, answer: int, y: float, size: float, measures: Measures
) -> list[Item]:
    """An equation as `equation` makes it, in the middle of the drawing."""
    gap = _BEFORE_ANSWER * measures.scale
    room = measures.width - text_width(_equals(side), size) - gap - text_width(str(answer), size)
    return equation(side, answer, room / 2, y, size, measures)


def _equals(side: str) -> str:
    return f"{side} =" if side else "="
