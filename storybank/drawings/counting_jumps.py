"""A count as equal jumps on a line: the first jumps drawn, the others to be drawn by the child.

Equal jumps are drawn equally long, since the points stand at equal spacing (CCSS-M 2.MD.6).
Measures: our own design.
"""

from collections.abc import Sequence
from itertools import pairwise

from storybank.drawings._display import (
    BACK,
    FORWARD,
    Arc,
    Dot,
    Drawing,
    Item,
    Label,
    Line,
    text_width,
)
from storybank.drawings._measures import EDGE, NORMAL, Measures
from storybank.drawings._numbers import signed

TITLE = "Jumps on a number line"
_RISE, _TICK, _BETWEEN, _TO_WRITE_ON = 20.0, 7.0, 8.0, 36.0


def jumps(
    numbers: Sequence[int],
    *,
    drawn: int | None = None,
    ticked: bool = True,
    measures: Measures = NORMAL,
) -> Drawing:
    """The count `numbers` as jumps from each to the next, the first `drawn` of them drawn.

    A count that goes back runs from right to left. Of jumps that are not drawn a `ticked` line
    shows where they land, by ticks with a line under each to write on; an open one shows nothing
    but has the same room. None draws all. `measures` sets the width in points and the type. Raises
    ValueError, saying what is possible, for fewer than two numbers, for jumps that are not
    equal or too many to fit, and for more drawn ones than there are.
    """
    _check(numbers, drawn)
    by, count = numbers[1] - numbers[0], len(numbers) - 1
    shown = count if drawn is None else drawn
    s = measures.scale
    longest = str(max(numbers))
    size, spacing, left = _spread(longest, by, count, measures)
    if spacing < 0:
        most = next(
            (
                less
                for less in range(count - 1, 0, -1)
                if _spread(longest, by, less, measures)[1] > 0
            ),
            0,
        )
        raise ValueError(
            f"{count} jumps of {abs(by)} are too many for a line {measures.width:g} points wide; "
            f"take at most {most}."
        )
    y = size + (_RISE + 8) * s
    places = [left + spacing * (at if by > 0 else count - at) for at in range(count + 1)]
    items: list[Item] = [Line(EDGE, y, measures.width - EDGE, y, measures.line)]
    ink = FORWARD if by > 0 else BACK
    for start, end in pairwise(places[: shown + 1]):
        rise = min(_RISE * s, spacing / 2)
        items += [
            Arc(start, end, y, rise, ink, width=measures.line, head_length=8 * s),
            Label((start + end) / 2, y - rise - 5 * s, signed(by), size, ink=ink),
        ]
    for at, (number, x) in enumerate(zip(numbers, places, strict=True)):
        if at <= shown:
            items += [
                Dot(x, y, 3.5 * s, filled=at == 0, width=measures.line),
                Label(x, y + 22 * s, str(number), size),
            ]
        elif ticked:
            half, under = _room(longest, size, s) / 2, y + 32 * s
            items += [
                Line(x, y - _TICK * s, x, y + _TICK * s, measures.line),
                Line(x - half, under, x + half, under, measures.thin),
            ]
    height = y + (38 if shown < count else 28) * s
    alt = _alt(numbers, shown, ticked=ticked)
    return Drawing(measures.width, height, tuple(items), TITLE, alt)


def _check(numbers: Sequence[int], drawn: int | None) -> None:
    if len(numbers) < 2 or min(numbers) < 0:
        raise ValueError(f"Jumps need two numbers or more, none below 0; not {list(numbers)}.")
    sizes = {following - number for number, following in pairwise(numbers)}
    if len(sizes) > 1 or 0 in sizes:
        raise ValueError(
            f"The jumps of a count are all equal, and these are {sorted(sizes)}; choose numbers "
            "with the same step between them."
        )
    if drawn is not None and not 0 <= drawn < len(numbers):
        raise ValueError(
            f"{drawn} jumps were to be drawn of {len(numbers) - 1}; choose 0 to {len(numbers) - 1}."
        )


def _spread(longest: str, by: int, count: int, measures: Measures) -> tuple[float, float, float]:
    """The type size, the length of a jump and where the leftmost number stands.

    The length is below 0 where nothing fits.
    """
    s = measures.scale
    for size in measures.sizes:
        room = _room(longest, size, s)
        left = EDGE + room / 2 + 2 * s
        spacing = (measures.width - 2 * left) / count
        if spacing >= max(room, text_width(signed(by), size)) + _BETWEEN * s:
            return size, spacing, left
    return measures.sizes[-1], -1.0, 0.0


def _room(longest: str, size: float, scale: float) -> float:
    """The room to write a number with as many digits as `longest`."""
    return max(_TO_WRITE_ON * scale, text_width(longest, size) + 10 * scale)


def _alt(numbers: Sequence[int], shown: int, *, ticked: bool) -> str:
    by = numbers[1] - numbers[0]
    way = "forward" if by > 0 else "back"
    steps = [f"start at {numbers[0]}"]
    steps += [f"jump {way} {abs(by)} to {number}" for number in numbers[1 : shown + 1]]
    text = f"{TITLE}: {', '.join(steps)}."
    left = len(numbers) - 1 - shown
    if left:
        more = f"{left} more jump{'s' if left > 1 else ''}"
        where = (
            f"{left} tick{'s' if left > 1 else ''}, each with a line to write on"
            if ticked
            else "an open line"
        )
        text += f" There is room for {more} to draw: {where}."
    return text
