"""A small picture of dots on which lines, curves and number characters are laid, smoothed."""

from collections.abc import Callable
from math import ceil, floor, sqrt

from storybank.drawings._glyphs import LEVELS, glyphs


class Canvas:
    """A white picture; each ink has a ramp of ten levels in the palette, from pale to full."""

    def __init__(self, width: int, height: int, inks: tuple[str, ...]) -> None:
        """A canvas of `width` x `height` dots for inks written as #rrggbb."""
        self.width, self.height = width, height
        self._stride = width + 1
        self.rows = bytearray(self._stride * height)
        self._inks = {ink: 1 + LEVELS * index for index, ink in enumerate(inks)}
        self._profiles: dict[tuple[int, int, int, float], tuple[int, bytes]] = {}

    def palette(self) -> bytes:
        """White, then each ink from pale to full."""
        colors = bytearray(b"\xff\xff\xff")
        for ink in self._inks:
            full = [int(ink[start : start + 2], 16) for start in (1, 3, 5)]
            for level in range(1, LEVELS + 1):
                colors += bytes(round(255 + (one - 255) * level / LEVELS) for one in full)
        return bytes(colors)

    def block(self, left: float, top: float, right: float, bottom: float, ink: str) -> None:
        """Fills an upright rectangle, its edges moved to whole dots."""
        value = bytes((self._inks[ink] + LEVELS - 1,)) * (round(right) - round(left))
        for row in range(round(top), round(bottom)):
            start = row * self._stride + 1 + round(left)
            self.rows[start : start + len(value)] = value

    def span(self, x: int, top: float, bottom: float, ink: str, *, hollow: bool = False) -> None:
        """Fills column `x` from `top` to `bottom`; with `hollow` it clears it of `ink` instead."""
        base = self._inks[ink]
        first, last = ceil(top), floor(bottom)
        rows, stride, place = self.rows, self._stride, 1 + x
        if last > first:
            value = 0 if hollow else base + LEVELS - 1
            start, stop = first * stride + place, last * stride + place
            rows[start:stop:stride] = bytes((value,)) * (last - first)
        edges = ((first - 1, first - top), (last, bottom - last))
        if first > last:
            edges = ((last, bottom - top), (last, 0.0))
        for row, share in edges:
            level = round(share * LEVELS)
            index = row * stride + place
            if level and hollow:
                rows[index] = base + LEVELS - level - 1 if level < LEVELS else 0
            elif level and not rows[index]:
                rows[index] = base + level - 1

    def shape(
        self, left: float, right: float, edges: Callable[[float], tuple[float, float]], ink: str,
        *, hollow: bool = False,
    ) -> None:  # fmt: skip
        """Fills between the two `edges` (top and bottom at x) from `left` to `right`."""
        for x in range(ceil(left - 0.5), floor(right + 0.5)):
            top, bottom = edges(x + 0.5)
            if bottom > top:
                self.span(x, top, bottom, ink, hollow=hollow)

    def jump(
        self, x1: float, x2: float, y: float, rise: float, width: float, ink: str,
        dashes: tuple[float, float] | None,
    ) -> None:  # fmt: skip
        """Draws the curve from (x1, y) to (x2, y) that rises by `rise`, drawn from x1."""
        left, right = sorted((x1, x2))
        length, drawn = right - left, 0.0
        columns = range(round(left), round(right))
        for x in columns if x1 < x2 else reversed(columns):
            share = (x + 0.5 - left) / length
            slope = 4 * rise * (2 * share - 1) / length
            stretch = sqrt(1 + slope * slope)
            drawn += stretch
            if dashes and drawn % sum(dashes) > dashes[0]:
                continue
            self._across(x, y - 4 * rise * share * (1 - share), stretch, width, self._inks[ink])

    def _across(self, x: int, y: float, stretch: float, width: float, base: int) -> None:
        row = floor(y)
        key = (round(8 * (y - row)), round(8 * stretch), base, width)
        if key not in self._profiles:
            self._profiles[key] = _profile(key[0] / 8, key[1] / 8, width, base)
        offset, column = self._profiles[key]
        start = (row + offset) * self._stride + 1 + x
        self.rows[start : start + self._stride * len(column) : self._stride] = column

    def text(self, x: float, y: float, text: str, size: float, anchor: str, ink: str) -> None:
        """Writes number characters with their baseline at `y`.

        Raises ValueError for any other character: a picture of it would miss a part.
        """
        known = glyphs(size)
        unknown = sorted({one for one in text if one not in known})
        if unknown:
            raise ValueError(f"A drawing's label may hold numbers and signs, not {unknown}.")
        whole = sum(known[one].advance for one in text)
        place = x - whole * {"start": 0.0, "middle": 0.5, "end": 1.0}[anchor]
        base = self._inks[ink] - 1
        table = bytes((0, *(base + level for level in range(1, LEVELS + 1)))) + bytes(245)
        for one in text:
            glyph = known[one]
            start = (round(y) - glyph.above) * self._stride + 1 + round(place) - glyph.before
            for row in glyph.rows:
                if any(row):
                    self.rows[start : start + len(row)] = row.translate(table)
                start += self._stride
            place += glyph.advance


def _profile(fraction: float, stretch: float, width: float, base: int) -> tuple[int, bytes]:
    """The dots of one column across a curve: how far above its row they begin, and their values."""
    half = (width / 2 + 0.5) * stretch
    first = ceil(fraction - half - 0.5)
    values = []
    for row in range(first, floor(fraction + half - 0.5) + 1):
        distance = abs(row + 0.5 - fraction) / stretch
        level = round(LEVELS * min(1.0, max(0.0, width / 2 + 0.5 - distance)))
        values.append(base + level - 1 if level else 0)
    while values and not values[0]:
        values.pop(0)
        first += 1
    while values and not values[-1]:
        values.pop()
    return first, bytes(values)
