"""Room for a seven-year-old's hand: writing lines, and an equation with boxes to fill.

Writing lines have a base line, a dashed middle and a top line (common practice for ages 5 to 8, no
source); a box is at least 14 mm wide and high. Measures: our own design.
"""

from storybank.drawings._display import Box, Dot, Drawing, Frame, Item, Label, Line
from storybank.drawings._measures import NORMAL, Measures

LINES_TITLE = "Writing lines"
EQUATION_TITLE = "Equation boxes"
BOX_TITLE = "Box to draw in"
_MM = 72 / 25.4
_EDGE, _DASH, _GAP, _THIN = 2.0, 6.0, 4.0, 1.0
_HALF = 8.4 * _MM / 2
"""From the base line to the dashed middle: letters of 8.4 mm."""
_BOX_HIGH, _BOX_WIDE = 14.0 * _MM, 22.0 * _MM


def writing_lines(count: int, *, measures: Measures = NORMAL) -> Drawing:
    """`count` lines to write on, each with a dashed middle. Raises ValueError below 1."""
    if count < 1:
        raise ValueError(f"{count} writing lines were asked for; one is the least.")
    half = _HALF * measures.sizes[0] / NORMAL.sizes[0]
    right = measures.width - _EDGE
    items: list[Item] = []
    y = 4.0
    for _ in range(count):
        items.append(Line(_EDGE, y, right, y, _THIN))
        x = _EDGE
        while x < right:
            items.append(Line(x, y + half, min(x + _DASH, right), y + half, _THIN))
            x += _DASH + _GAP
        items.append(Line(_EDGE, y + 2 * half, right, y + 2 * half))
        y += 3.4 * half
    said = "A line" if count == 1 else f"{count} lines"
    height = y - 1.4 * half + 3
    return Drawing(measures.width, height, tuple(items), LINES_TITLE, f"{said} to write on.")


def equation_boxes(*, measures: Measures = NORMAL, addends: int = 2) -> Drawing:
    """A box, a circle for the sign, a box, an equal sign and a box; for `addends` so many boxes.

    It shows neither the operation nor which number is sought, so that it gives nothing away.
    """
    size = measures.sizes[0] * 1.4
    top, middle = 2.0, 2.0 + _BOX_HIGH / 2
    gap = 12.0
    circle = _BOX_HIGH / 2 - 4
    wide = _BOX_WIDE
    if addends > 2:
        # All boxes in one line; a sum of several addends needs no wider ones for small numbers.
        gap, circle, wide = 5.0, _BOX_HIGH / 4, _BOX_HIGH
    items: list[Item] = []
    x = _EDGE
    for part in ("box", *("circle", "box") * (addends - 1), "=", "box"):
        if part == "box":
            items.append(Frame(Box(x, top, x + wide, top + _BOX_HIGH)))
            x += wide + gap
        elif part == "circle":
            items.append(Dot(x + circle, middle, radius=circle, filled=False))
            x += 2 * circle + gap
        else:
            sign = Label(x, middle + 0.36 * size, part, size, "start")
            items.append(sign)
            x += sign.width + gap
    further = " a circle for the sign, a box," * (addends - 1)
    alt = (
        f"Room for an equation: a box,{further} an equal sign and a box. "
        "Each is empty but the equal sign."
    )
    return Drawing(x - gap + _EDGE, top + _BOX_HIGH + 2, tuple(items), EQUATION_TITLE, alt)


def box_to_draw_in(high: float, *, measures: Measures = NORMAL) -> Drawing:
    """An empty box for a child's own picture, over the whole width and `high` millimeters high."""
    bottom = _EDGE + high * _MM
    box = Box(_EDGE, _EDGE, measures.width - _EDGE, bottom)
    items = (Frame(box),)
    return Drawing(measures.width, bottom + _EDGE, items, BOX_TITLE, "An empty box to draw in.")
