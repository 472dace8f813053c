"""Coverage as pictures: situations as a grid of cells, and counts as bars.

Rows are kinds of story and cells their unknowns, as in CCSS-M glossary, Table 1. Measures: our own
design. Each count stands as a number beside its bar; where there is none, the cell has no bar.
"""

from collections.abc import Sequence

from storybank.drawings._display import FORWARD, Box, Drawing, Frame, Item, Label, Line, text_width
from storybank.drawings._measures import NORMAL, Measures

GRID_TITLE = "Grid of situations"
_EDGE = 2.0
_PAD = 5.0
_SHORTEST = 1.5
_MOST_OF_WIDTH = 0.6
_CUT = "..."

Row = tuple[str, Sequence[tuple[str, int]]]
"""A kind of story, and its unknowns with their counts."""


def grid(rows: Sequence[Row], *, measures: Measures = NORMAL) -> Drawing:
    """A row for each kind, in it a cell for each unknown with its count and a bar as long.

    A comma in the name of a kind begins a second line. `measures` sets the width and the size of
    the type. Raises ValueError without a row or a cell.
    """
    if not rows or not all(cells for _, cells in rows):
        raise ValueError("A grid needs a row, and each row a cell.")
    size = next((one for one in measures.sizes if _fits(rows, one, measures)), measures.sizes[-1])
    s = measures.scale
    pad, high = _PAD * s, 2 * size + 5 * _PAD * s
    side = _side(rows, size, s)
    across = (measures.width - 2 * _EDGE - side) / max(len(cells) for _, cells in rows)
    most = max((count for _, cells in rows for _, count in cells), default=0)
    number = text_width(str(most), size)
    items: list[Item] = []
    for at, (kind, cells) in enumerate(rows):
        top = _EDGE + at * high
        lines = _lines(kind)
        first = top + pad + 0.8 * size + (0 if len(lines) > 1 else (size + pad) / 2)
        for index, line in enumerate(lines):
            y = first + index * (size + pad)
            items.append(Label(_EDGE, y, _cut(line, size, side - pad), size, "start"))
        for column, (unknown, count) in enumerate(cells):
            left = _EDGE + side + column * across
            items.append(Frame(Box(left, top, left + across, top + high), measures.thin))
            room = across - 2 * pad
            y = top + pad + 0.8 * size
            items.append(Label(left + pad, y, _cut(unknown, size, room), size, "start"))
            y += size + 2 * pad
            items.append(Label(left + pad + number, y, str(count), size, "end"))
            start = left + 2 * pad + number
            items += _bar(start, left + across - pad, y - 0.36 * size, count, most, 0.6 * size)
    said = "; ".join(
        f"{kind}: {', '.join(f'{unknown} {count}' for unknown, count in cells)}"
        for kind, cells in rows
    )
    alt = f"{GRID_TITLE}, each with how many problems it has. {said}."
    return Drawing(measures.width, 2 * _EDGE + high * len(rows), tuple(items), GRID_TITLE, alt)


def bars(title: str, entries: Sequence[tuple[str, int]], *, measures: Measures = NORMAL) -> Drawing:
    """A line for each entry: its name, its count and a bar as long as the count is large.

    `title` begins the alt text. `measures` sets the width and the size of the type. Raises
    ValueError without an entry.
    """
    if not entries:
        raise ValueError("Bars need at least one entry.")
    s, size = measures.scale, measures.sizes[0]
    pad, high = _PAD * s, size + 2 * _PAD * s
    right = measures.width - _EDGE - _PAD * s
    most = max(count for _, count in entries)
    number = text_width(str(most), size)
    widest = max(text_width(name, size) for name, _ in entries)
    side = min(widest, _MOST_OF_WIDTH * measures.width)
    start = _EDGE + side + 2 * pad
    items: list[Item] = [Line(start + number + pad, _EDGE, start + number + pad,
                              _EDGE + high * len(entries), measures.thin)]  # fmt: skip
    for at, (name, count) in enumerate(entries):
        y = _EDGE + at * high + pad + 0.8 * size
        items += [
            Label(_EDGE, y, _cut(name, size, side), size, "start"),
            Label(start + number, y, str(count), size, "end"),
            *_bar(start + number + pad, right, y - 0.36 * size, count, most, 0.7 * size),
        ]
    said = ", ".join(f"{name} {count}" for name, count in entries)
    height = 2 * _EDGE + high * len(entries)
    return Drawing(measures.width, height, tuple(items), title, f"{title}: {said}.")


def _fits(rows: Sequence[Row], size: float, measures: Measures) -> bool:
    """Whether the unknown of every cell fits into it at that type size."""
    pad = _PAD * measures.scale
    columns = max(len(cells) for _, cells in rows)
    across = (measures.width - 2 * _EDGE - _side(rows, size, measures.scale)) / columns
    widest = max(text_width(unknown, size) for _, cells in rows for unknown, _ in cells)
    return widest + 2 * pad <= across


def _side(rows: Sequence[Row], size: float, scale: float) -> float:
    """The room that the names of the kinds need."""
    widest = max(text_width(line, size) for kind, _ in rows for line in _lines(kind))
    return min(widest, 10 * size) + 2 * _PAD * scale


def _lines(kind: str) -> list[str]:
    first, comma, second = kind.partition(", ")
    return [f"{first},", second] if comma else [first]


def _bar(
    left: float, right: float, y: float, count: int, most: int, width: float
) -> tuple[Line, ...]:
    if not count:
        return ()
    length = max(_SHORTEST, (right - left) * count / most)
    return (Line(left, y, left + length, y, width, FORWARD),)


def _cut(text: str, size: float, room: float) -> str:
    """The text, cut so that it fits into the room."""
    if text_width(text, size) <= room:
        return text
    while text and text_width(text + _CUT, size) > room:
        text = text[:-1]
    return text + _CUT
