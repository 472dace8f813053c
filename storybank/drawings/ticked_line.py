"""A number line with ticks at equal spacing, some of its numbers left out to be written in."""

from collections.abc import Collection
from itertools import groupby, pairwise

from storybank.drawings._display import Drawing, Item, Label, Line, text_width
from storybank.drawings._measures import EDGE, NORMAL, Measures

TITLE = "Number line"
_BETWEEN = 6.0
_TO_WRITE_ON = 30.0
_LONG, _SHORT = 9.0, 5.0


def line(
    low: int,
    high: int,
    step: int,
    *,
    labels_every: int = 1,
    blanks: Collection[int] = (),
    measures: Measures = NORMAL,
) -> Drawing:
    """A number line from `low` to `high` with a tick at every `step`, numbers under the ticks.

    `labels_every` puts a number only under every so many ticks, counted from `low`, whose ticks
    are longer. The numbers in `blanks` are left out, with a short line under the tick to write on.
    `measures` sets the width in points and the type. Raises ValueError, saying what is possible,
    where `high` is not whole steps above `low`, where a blank has no tick, and where ticks or
    numbers would touch. Form: equally spaced numbers on a line (CCSS-M 2.MD.6); measures: our own
    design.
    """
    ticks = _ticks(low, high, step)
    if labels_every < 1:
        raise ValueError(f"A number under every {labels_every} ticks; choose 1 or more.")
    strays = sorted(set(blanks) - set(ticks))
    if strays:
        raise ValueError(
            f"{strays} cannot be left out: no tick stands there. Choose from {low} to {high} in "
            f"steps of {step}."
        )
    _, spacing = _spread(ticks, measures.sizes[-1], blanks, measures)
    if spacing < 2 * measures.line:
        most = int(spacing * (len(ticks) - 1) / (2 * measures.line)) + 1
        raise ValueError(
            f"{len(ticks)} ticks would touch on a line {measures.width:g} points wide; take at "
            f"most {most} by a larger step or a shorter line."
        )
    shown = _shown(ticks, labels_every, blanks)
    size = _size(ticks, shown, blanks, measures)
    if size is None:
        raise ValueError(_too_dense(ticks, labels_every, blanks, measures))
    s, y = measures.scale, 16 * measures.scale
    items: list[Item] = [Line(EDGE, y, measures.width - EDGE, y, measures.line)]
    left, spacing = _spread(ticks, size, blanks, measures)
    for place, number in enumerate(ticks):
        x = left + spacing * place
        long = number in shown
        reach = (_LONG if long else _SHORT) * s
        items.append(Line(x, y - reach, x, y + reach, measures.line if long else measures.thin))
        if number in blanks:
            half, under = _room(number, size, blanks, s) / 2, y + 34 * s
            items.append(Line(x - half, under, x + half, under, measures.thin))
        elif number in shown:
            items.append(Label(x, y + 25 * s, str(number), size))
    height = y + (40 if blanks else 32) * s
    return Drawing(measures.width, height, tuple(items), TITLE, _alt(ticks, step, shown, blanks))


def _ticks(low: int, high: int, step: int) -> range:
    if low < 0:
        raise ValueError(f"The line begins at {low}; choose 0 or more.")
    if step < 1:
        raise ValueError(f"The step is {step}; choose 1 or more.")
    if high <= low or (high - low) % step:
        below = low + max(1, (high - low) // step) * step
        raise ValueError(
            f"From {low} to {high} there are no whole steps of {step}; end at "
            f"{below} or {below + step}."
        )
    return range(low, high + 1, step)


def _shown(ticks: range, every: int, blanks: Collection[int]) -> set[int]:
    """The numbers with something under their ticks: a label or a line to write on."""
    return {*ticks[::every], *blanks}


def _room(number: int, size: float, blanks: Collection[int], scale: float) -> float:
    """How wide what stands under the tick of `number` is."""
    width = text_width(str(number), size)
    return max(_TO_WRITE_ON * scale, width + 10 * scale) if number in blanks else width


def _spread(
    ticks: range, size: float, blanks: Collection[int], measures: Measures
) -> tuple[float, float]:
    """Where the first tick stands and how far it is from tick to tick."""
    aside = max(_room(one, size, blanks, measures.scale) for one in (ticks[0], ticks[-1])) / 2
    left = EDGE + max(aside, 8 * measures.scale)
    return left, (measures.width - 2 * left) / (len(ticks) - 1)


def _size(
    ticks: range, shown: set[int], blanks: Collection[int], measures: Measures
) -> float | None:
    """The largest type size at which nothing under the ticks touches, None if there is none."""
    s = measures.scale
    for size in measures.sizes:
        _, spacing = _spread(ticks, size, blanks, measures)
        ends = [
            (place * spacing, _room(number, size, blanks, s) / 2)
            for place, number in enumerate(ticks)
            if number in shown
        ]
        if all(
            x + half + _BETWEEN * s <= next_x - next_half
            for (x, half), (next_x, next_half) in pairwise(ends)
        ):
            return size
    return None


def _too_dense(ticks: range, every: int, blanks: Collection[int], measures: Measures) -> str:
    said = (
        f"With labels_every={every} the numbers from {ticks[0]} to {ticks[-1]} in steps of "
        f"{ticks.step} would touch"
    )
    said += f" where {sorted(blanks)} are left out" if blanks else ""
    for wider in range(every + 1, len(ticks)):
        if _size(ticks, _shown(ticks, wider, blanks), blanks, measures) is not None:
            return f"{said}; labels_every={wider} fits."
    return f"{said}; take fewer ticks or leave fewer numbers out."


def _alt(ticks: range, step: int, shown: set[int], blanks: Collection[int]) -> str:
    words: list[str] = []
    for is_shown, group in groupby(ticks, key=shown.__contains__):
        numbers = list(group)
        if is_shown:
            words += ["a line to write on" if one in blanks else str(one) for one in numbers]
        else:
            words.append(f"{len(numbers)} tick{'s' if len(numbers) > 1 else ''} without a number")
    return f"{TITLE} with {len(ticks)} ticks, {step} apart. From the left: {', '.join(words)}."
