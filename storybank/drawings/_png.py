"""Writes a display list as PNG, for readers that do not show SVG.

Drawn here dot by dot, since a general renderer takes five times as long for each picture; only
the number characters come from one.
"""

from functools import lru_cache
from math import sqrt

from storybank.drawings import _png_file
from storybank.drawings._canvas import Canvas
from storybank.drawings._display import BLACK, Arc, Dot, Drawing, Item, Label, Line, Ring

DPI = 220
_SCALE = DPI / 72
_DASHES = (5 * _SCALE, 3 * _SCALE)


@lru_cache(maxsize=4096)
def to_png(drawing: Drawing) -> bytes:
    """The drawing as PNG at 220 dots an inch; made once for each distinct drawing."""
    inks = dict.fromkeys(
        (BLACK, *(item.ink for item in drawing.items if not isinstance(item, Dot)))
    )
    canvas = Canvas(round(drawing.width * _SCALE), round(drawing.height * _SCALE), tuple(inks))
    for item in drawing.items:
        _draw(canvas, item)
    return _png_file.write(canvas.width, canvas.height, canvas.rows, canvas.palette(), DPI)


def _draw(canvas: Canvas, item: Item) -> None:
    s = _SCALE
    match item:
        case Line():
            half = item.width / 2 if item.y1 == item.y2 else 0.0
            side = 0.0 if half else item.width / 2
            canvas.block(
                s * (item.x1 - side), s * (item.y1 - half),
                s * (item.x2 + side), s * (item.y2 + half), item.ink,
            )  # fmt: skip
        case Arc():
            _arc(canvas, item)
        case Dot():
            _circle(canvas, s * item.x, s * item.y, s * (item.radius + 0.75), hollow=False)
            if not item.filled:
                _circle(canvas, s * item.x, s * item.y, s * (item.radius - 0.75), hollow=True)
        case Label():
            canvas.text(s * item.x, s * item.y, item.text, s * item.size, item.anchor, item.ink)
        case Ring():
            _capsule(canvas, item, s * item.width / 2, hollow=False)
            _capsule(canvas, item, -s * item.width / 2, hollow=True)


def _arc(canvas: Canvas, arc: Arc) -> None:
    s = _SCALE
    canvas.jump(
        s * arc.x1, s * arc.x2, s * arc.y, s * arc.rise, s * arc.width, arc.ink,
        _DASHES if arc.dashed else None,
    )  # fmt: skip
    corners = sorted((s * x, s * y) for x, y in arc.head())
    (left, left_y), (middle, middle_y), (right, right_y) = corners

    def edges(x: float) -> tuple[float, float]:
        long = left_y + (right_y - left_y) * (x - left) / (right - left)
        if x < middle:
            short = left_y + (middle_y - left_y) * (x - left) / (middle - left)
        else:
            short = middle_y + (right_y - middle_y) * (x - middle) / (right - middle)
        return (long, short) if long < short else (short, long)

    canvas.shape(left + 0.5, right - 0.5, edges, arc.ink)


def _circle(canvas: Canvas, x: float, y: float, radius: float, *, hollow: bool) -> None:
    def edges(at: float) -> tuple[float, float]:
        half = sqrt(max(0.0, radius * radius - (at - x) ** 2))
        return y - half, y + half

    canvas.shape(x - radius, x + radius, edges, BLACK, hollow=hollow)


def _capsule(canvas: Canvas, ring: Ring, out: float, *, hollow: bool) -> None:
    s, box = _SCALE, ring.box
    middle, radius = s * (box.top + box.bottom) / 2, s * (box.bottom - box.top) / 2 + out
    left, right = s * box.left - out + radius, s * box.right + out - radius

    def edges(at: float) -> tuple[float, float]:
        beyond = max(left - at, at - right, 0.0)
        half = sqrt(max(0.0, radius * radius - beyond * beyond))
        return middle - half, middle + half

    canvas.shape(left - radius, right + radius, edges, ring.ink, hollow=hollow)
