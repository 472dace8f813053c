"""Writes a display list as PNG, for readers that do not show SVG.

Drawn by Pillow, since a general SVG renderer takes eight times as long for each picture.
"""

import io
import zlib
from collections.abc import Iterator
from functools import cache, lru_cache
from itertools import pairwise
from math import ceil

import font_roboto
from PIL import Image, ImageChops, ImageDraw, ImageFont

from storybank.drawings._display import (
    BLACK,
    Arc,
    Arrow,
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

DPI = 160
_SCALE = DPI / 72
_FINER = 2  # Shapes are drawn this many times larger and reduced, which smooths their edges.
_LEVELS = 10
_DASH, _GAP = 5.0, 3.0
_STEPS = 32
_ANCHORS = {"start": "ls", "middle": "ms", "end": "rs"}
_NO_CHARACTER = "\uffff"


@lru_cache(maxsize=4096)
def to_png(drawing: Drawing) -> bytes:
    """The drawing as PNG at 160 dots an inch; made once for each distinct drawing.

    The palette holds white and, for each ink, ten levels from pale to full. Raises ValueError
    for a label with a character that the font (Roboto) does not have.
    """
    size = round(drawing.width * _SCALE), round(drawing.height * _SCALE)
    picture = Image.new("L", size)
    palette = [255, 255, 255]
    inks = dict.fromkeys(_ink(item) for item in drawing.items)
    for index, ink in enumerate(inks):
        base = _LEVELS * index
        levels = [round(value * _LEVELS / 255) for value in range(256)]
        layer = _layer(drawing, ink, size).point([base + one if one else 0 for one in levels])
        picture = ImageChops.lighter(picture, layer)
        full = [int(ink[start : start + 2], 16) for start in (1, 3, 5)]
        for level in range(1, _LEVELS + 1):
            palette += [round(255 + (one - 255) * level / _LEVELS) for one in full]
    picture.putpalette(palette)
    target = io.BytesIO()
    picture.save(target, "PNG", dpi=(DPI, DPI), compress_type=zlib.Z_RLE)
    return target.getvalue()


def _layer(drawing: Drawing, ink: str, size: tuple[int, int]) -> Image.Image:
    """How much of each dot is covered by `ink`, 0 to 255; later items cover earlier ones."""
    layer = Image.new("L", (_FINER * size[0], _FINER * size[1]))
    draw = ImageDraw.Draw(layer)
    for item in drawing.items:
        fill = 255 if _ink(item) == ink else 0
        if fill or not isinstance(item, Label):  # A label covers nothing.
            _shape(draw, item, fill)
    return layer.reduce(_FINER)


def _shape(draw: ImageDraw.ImageDraw, item: Item, fill: int) -> None:
    s = _SCALE * _FINER
    match item:
        case Line():
            ends = s * item.x1, s * item.y1, s * item.x2, s * item.y2
            draw.line(ends, fill, round(s * item.width))
        case Arrow():
            draw.line([s * end for end in item.shaft()], fill, round(s * item.width))
            draw.polygon([(s * x, s * y) for x, y in item.head()], fill)
        case Cross():
            for stroke in item.strokes():
                draw.line([s * end for end in stroke], fill, round(s * item.width))
        case Arc():
            for points in _strokes(item):
                draw.line([(s * x, s * y) for x, y in points], fill, round(s * item.width))
            draw.polygon([(s * x, s * y) for x, y in item.head()], fill)
        case Dot():
            circle = _circle(item, item.radius + item.width / 2)
            draw.ellipse(circle, fill if item.filled else 0, fill, round(s * item.width))
            if item.core:
                draw.ellipse(_circle(item, item.core), fill)
        case Frame() | Ring() | Grid():
            box, half = item.box, item.width / 2
            outer = _box(box.left - half, box.top - half, box.right + half, box.bottom + half)
            radius = (box.bottom - box.top) / 2 + half if isinstance(item, Ring) else 0.0
            draw.rounded_rectangle(outer, s * radius, None, fill, round(s * item.width))
            if isinstance(item, Grid):
                for stroke in item.inner():
                    draw.line([s * end for end in stroke], fill, round(s * item.width))
        case Label():
            _check(item.text)
            font = _font(s * item.size)
            draw.text((s * item.x, s * item.y), item.text, fill, font, _ANCHORS[item.anchor])


def _circle(dot: Dot, radius: float) -> tuple[float, ...]:
    return _box(dot.x - radius, dot.y - radius, dot.x + radius, dot.y + radius)


def _box(left: float, top: float, right: float, bottom: float) -> tuple[float, ...]:
    s = _SCALE * _FINER
    # Pillow counts the last dot of a box as inside.
    return s * left, s * top, s * right - 1, s * bottom - 1


def _strokes(arc: Arc) -> Iterator[list[tuple[float, float]]]:
    """The points of a curve in order, as one stroke or as dashes."""
    control_x, control_y = arc.control
    steps = ceil(abs(arc.x2 - arc.x1)) if arc.dashed else _STEPS
    points = []
    for step in range(steps + 1):
        share = step / steps
        first, middle, last = (1 - share) ** 2, 2 * share * (1 - share), share**2
        x = first * arc.x1 + middle * control_x + last * arc.x2
        points.append((x, (first + last) * arc.y + middle * control_y))
    if not arc.dashed:
        yield points
        return
    stroke: list[tuple[float, float]] = []
    drawn = 0.0
    for before, after in pairwise(points):
        if drawn % (_DASH + _GAP) < _DASH:
            stroke = stroke or [before]
            stroke.append(after)
        elif stroke:
            yield stroke
            stroke = []
        drawn += ((after[0] - before[0]) ** 2 + (after[1] - before[1]) ** 2) ** 0.5
    if stroke:
        yield stroke


def _ink(item: Item) -> str:
    return BLACK if isinstance(item, Dot) else item.ink


@cache
def _font(size: float) -> ImageFont.FreeTypeFont:
    # The basic layout is the same on every machine; the other one is an optional library.
    return ImageFont.truetype(font_roboto.Roboto, size, layout_engine=ImageFont.Layout.BASIC)


def _check(text: str) -> None:
    missing = [one for one in text if not _has(one)]
    if missing:
        raise ValueError(
            f'The label "{text}" cannot be drawn: the font Roboto has no {missing}. '
            "Use letters of the Latin, Greek or Cyrillic alphabet, digits and signs."
        )


@cache
def _has(character: str) -> bool:
    font = _font(32.0)
    return bytes(font.getmask(character)) != bytes(font.getmask(_NO_CHARACTER))
