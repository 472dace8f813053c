"""What would spoil a drawing on paper: things that touch, stand outside, are thin or pale."""

from collections.abc import Iterator
from functools import cache
from itertools import combinations, pairwise
from math import hypot

from storybank.drawings import (
    Arc,
    Arrow,
    Box,
    Cross,
    Dot,
    Drawing,
    Frame,
    Grid,
    Item,
    Label,
    Line,
    Ring,
)

Stroke = tuple[float, float, float, float, float]
"""From x, y to x, y, and the width."""
Sides = tuple[float, float, float, float]
"""Left, top, right and bottom."""


def faults(drawing: Drawing) -> list[str]:
    """Every fault of the drawing that shows on paper, in words; none for a good one."""
    labels = [(one.text, sides(one.box)) for one in labels_of(drawing)]
    rings = [sides(one.box) for one in drawing.items if isinstance(one, Ring)]
    dots = [one for one in drawing.items if isinstance(one, Dot)]
    drawn = [(one, thick(one)) for item in drawing.items for one in strokes(item)]
    found = []
    for (first, first_box), (second, second_box) in combinations(labels, 2):
        if overlap(first_box, second_box):
            found.append(f"{first} touches {second}")
    for one, other in combinations(dots, 2):
        if hypot(one.x - other.x, one.y - other.y) < one.radius + other.radius + one.width:
            found.append(f"the dots at {one.x:g}, {one.y:g} and {other.x:g}, {other.y:g} touch")
    solid = [*(box for _, box in labels), *rings, *map(round_sides, dots)]
    for left, top, right, bottom in (*solid, *(box for _, box in drawn)):
        if left < 0 or top < 0 or right > drawing.width or bottom > drawing.height:
            found.append(
                f"what is drawn from {left:g}, {top:g} to {right:g}, {bottom:g} is outside"
            )
    for ring in rings:
        inside = [text for text, box in labels if overlap(box, ring)]
        if len(inside) != 1:
            found.append(f"the ring is around {inside}")
    for text, box in labels:
        on = [one for one, around in drawn if overlap(around, box) and passes(one, box)]
        found += [f"{text} lies on a line" for _ in on]
        found += [f"{text} lies on a dot" for one in dots if overlap(round_sides(one), box)]
    return found


def labels_of(drawing: Drawing) -> list[Label]:
    return [one for one in drawing.items if isinstance(one, Label)]


def strokes(item: Item) -> Iterator[Stroke]:
    """The straight strokes that an item is drawn of, with their width; a curve in sixteen."""
    match item:
        case Line():
            yield item.x1, item.y1, item.x2, item.y2, item.width
        case Frame() | Grid():
            box, width = item.box, item.width
            yield box.left, box.top, box.right, box.top, width
            yield box.left, box.bottom, box.right, box.bottom, width
            yield box.left, box.top, box.left, box.bottom, width
            yield box.right, box.top, box.right, box.bottom, width
            if isinstance(item, Grid):
                yield from ((*ends, width) for ends in item.inner())
        case Cross():
            yield from ((*ends, item.width) for ends in item.strokes())
        case Arrow():
            yield (*item.shaft(), item.width)
            yield from edges(item)
        case Arc():
            points = [along(item, step / 16) for step in range(17)]
            for (x1, y1), (x2, y2) in pairwise(points):
                yield x1, y1, x2, y2, item.width
            yield from edges(item)


def edges(item: Arc | Arrow) -> Iterator[Stroke]:
    """The edges of an arrowhead."""
    for (x1, y1), (x2, y2) in combinations(item.head(), 2):
        yield x1, y1, x2, y2, 0.0


def along(arc: Arc, share: float) -> tuple[float, float]:
    """The point of a quadratic curve at `share` of its way."""
    (x, y), first, middle, last = arc.control, (1 - share) ** 2, 2 * share * (1 - share), share**2
    return first * arc.x1 + middle * x + last * arc.x2, (first + last) * arc.y + middle * y


def thick(stroke: Stroke) -> Sides:
    """The rectangle around a stroke."""
    x1, y1, x2, y2, width = stroke
    half = width / 2
    left, right = (x1, x2) if x1 < x2 else (x2, x1)
    top, bottom = (y1, y2) if y1 < y2 else (y2, y1)
    return left - half, top - half, right + half, bottom + half


def sides(box: Box) -> Sides:
    return box.left, box.top, box.right, box.bottom


def round_sides(dot: Dot) -> Sides:
    reach = dot.radius + dot.width / 2
    return dot.x - reach, dot.y - reach, dot.x + reach, dot.y + reach


def overlap(one: Sides, other: Sides) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def passes(stroke: Stroke, box: Sides) -> bool:
    """Whether a stroke whose surroundings overlap a rectangle passes through it.

    Clipped at one pair of sides after the other (Liang, Barsky 1984).
    """
    x1, y1, x2, y2, width = stroke
    if x1 == x2 or y1 == y2:
        return True
    (left, top, right, bottom), half = box, width / 2
    start, end = 0.0, 1.0
    for step, low, high in (
        (x2 - x1, left - half - x1, right + half - x1),
        (y2 - y1, top - half - y1, bottom + half - y1),
    ):
        near, far = sorted((low / step, high / step))
        start, end = max(start, near), min(end, far)
    return start < end


def too_weak(drawing: Drawing) -> list[str]:
    """The items that are thinner than 1 point or paler than 4.5 to 1, also when printed in grey."""
    found = []
    for item in drawing.items:
        if not isinstance(item, Label) and item.width < 1:
            found.append(f"{item} is thin")
        if not isinstance(item, Dot):
            found += [
                f"{item} is pale"
                for ink in (item.ink, grey(item.ink))
                if contrast_with_white(ink) < 4.5
            ]
    return found


@cache
def grey(ink: str) -> str:
    """The ink as a printer without colors prints it (luma of ITU-R BT.601)."""
    red, green, blue = (int(ink[start : start + 2], 16) for start in (1, 3, 5))
    level = round(0.299 * red + 0.587 * green + 0.114 * blue)
    return "#" + 3 * f"{level:02x}"


@cache
def contrast_with_white(ink: str) -> float:
    """Contrast ratio of WCAG 2.2 (relative luminance)."""
    shares = [int(ink[start : start + 2], 16) / 255 for start in (1, 3, 5)]
    red, green, blue = (
        one / 12.92 if one <= 0.04045 else ((one + 0.055) / 1.055) ** 2.4 for one in shares
    )
    return 1.05 / (0.2126 * red + 0.7152 * green + 0.0722 * blue + 0.05)
