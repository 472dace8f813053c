"""Chooses warm-ups: good counts that begin with the numbers of a story, or lead to them."""

from collections.abc import Iterable, Sequence

from storybank import luck
from storybank.counting._bounds import (
    LEAST_STEPS,
    SIZES,
    STEPS,
    check_by,
    check_steps,
    check_within,
    fitting,
    or_within_more,
    usual_steps,
)
from storybank.counting._count import count_from, crosses
from storybank.errors import RequestError
from storybank.model.counting import Count

MOST = 20
_LONG, _SHORT = 9, 6
_TRIED = 12
_Start = tuple[int, int, bool]
"""The first number, the size of a step, and whether the count goes back."""


def warm_ups(
    by: Sequence[int] | None,
    numbers: Sequence[int],
    within: int,
    key: str,
    count: int = 3,
    *,
    back: bool | None = None,
    steps: int | None = None,
) -> tuple[Count, ...]:
    """`count` counts that differ, forward and back in turn, each past a ten or hundred.

    `by` are the sizes of the steps, taken in turn; None takes all that have room `within`. A count
    begins with one of `numbers`, failing that it leads to one of them, failing that it begins
    anywhere. By tens it passes a hundred where any such count does. `key` is the luck that
    chooses. `back` makes all counts go back, or none; `steps` is how many numbers each says, where
    it is not to be as many as fit up to 11. Raises RequestError for a value that is out of
    range, and where no count that is left has enough numbers.
    """
    check_within(within)
    if steps is not None:
        check_steps(steps)
    if not 1 <= count <= MOST:
        raise RequestError(
            f"{count} warm-ups were asked for, and a page is made for a few. Choose a count from "
            f"1 to {MOST}."
        )
    strays = sorted({one for one in numbers if not 0 <= one <= within})
    if strays:
        raise RequestError(
            f"Warm-ups were to begin with {', '.join(map(str, strays))}, outside the numbers from "
            f"0 to {within} that they stay in. Leave them out{or_within_more(within)}."
        )
    sizes = _sizes(by, within, steps, key)
    found: list[_Start] = []
    for place in range(count):
        turned = sorted(sizes, key=lambda size: sum(size == other for _, other, _ in found))
        down = place % 2 == 1 if back is None else back
        ways = (down,) if back is not None else (down, not down)
        start = next(
            (
                one
                for way in ways
                for passing in (True, False)
                for one in _starts(turned, numbers, within, steps, found, key, way, passing)
            ),
            None,
        )
        if start is None:
            raise RequestError(
                f"{count} warm-ups were asked for, but by {_named(sizes)} within {within} only "
                f"{place} can differ. Ask for {place} or fewer, or for other "
                f"steps{or_within_more(within)}."
            )
        found.append(start)
    return tuple(_made(start, within, steps, key) for start in found)


def _sizes(by: Sequence[int] | None, within: int, steps: int | None, key: str) -> list[int]:
    """The sizes of steps: those asked for, or all with room for a long strip, in seeded order."""
    least = (LEAST_STEPS if steps is None else steps) - 1
    if by is None:
        room = [size for size in SIZES if size * max(least, _SHORT + 2) <= within] or [1]
        return luck.ordered(room, f"{key}/by", str)
    if not by:
        raise RequestError(
            f"No size of step was asked for. Choose from: {', '.join(map(str, SIZES))}."
        )
    for size in by:
        check_by(size)
        if size * least > within:
            fit = ", ".join(str(one) for one in SIZES if one * least <= within)
            raise RequestError(
                f"By {SIZES[size]} within {within} a count says {within // size + 1} numbers at "
                f"most, and {least + 1} are needed. Count within {size * least} or more"
                + (f", or by one of: {fit}." if fit else ".")
            )
    return list(dict.fromkeys(by))


def _starts(
    sizes: Sequence[int],
    numbers: Sequence[int],
    within: int,
    steps: int | None,
    found: Sequence[_Start],
    key: str,
    back: bool,
    passing: bool,
) -> Iterable[_Start]:
    """The best new start, if there is any, of each source in turn: given, leading there, any.

    Of some that are equally good the first is taken whose question has another answer.

    `passing` keeps to counts that pass a ten or hundred where a gap can stand just past it.
    """
    used = [first for first, _, _ in found]
    for source in ("given", "leading", "any"):
        for size in sizes:
            if source == "any":
                firsts = list(range(within + 1))
            elif source == "given":
                firsts = list(dict.fromkeys(numbers))
            else:
                firsts = [
                    _leading_to(one, size, back, within, steps) for one in dict.fromkeys(numbers)
                ]
            ranked: dict[int, list[int]] = {}
            for first in firsts:
                if not 0 <= first <= within or (first, size, back) in found:
                    continue
                length = _length(first, size, back, within, steps)
                if fitting(first, size, back=back, within=within) < length:
                    continue
                if passing and not _passes(first, size, back, length, within, steps):
                    continue
                rank = (length < _LONG) + (length < _SHORT) + 3 * (first in used)
                ranked.setdefault(rank, []).append(first)
            if ranked:
                best = ranked[min(ranked)]
                named = f"{key}/{len(found)}/{size}/{back}"
                made = {
                    first: _made((first, size, back), within, steps, key)
                    for first in luck.ordered(best, named, str)[:_TRIED]
                }
                asked = {_made(one, within, steps, key).next_answer for one in found}
                new = (first for first in made if made[first].next_answer not in asked)
                yield next(new, next(iter(made))), size, back


def _made(start: _Start, within: int, steps: int | None, key: str) -> Count:
    first, size, back = start
    length = _length(first, size, back, within, steps)
    return count_from(first, size, back=back, steps=length, within=within, key=key)


def _leading_to(number: int, size: int, back: bool, within: int, steps: int | None) -> int:
    """The first number of a count that leads to `number`, from as far as it can."""
    room = fitting(number, size, back=not back, within=within) - 1
    away = size * min(room, (STEPS if steps is None else steps) - 1)
    return number + away if back else number - away


def _length(first: int, size: int, back: bool, within: int, steps: int | None) -> int:
    """How many numbers a count says: those asked for, or as many as is usual."""
    return usual_steps(first, size, back=back, within=within) if steps is None else steps


def _passes(first: int, size: int, back: bool, length: int, within: int, steps: int | None) -> bool:
    """Whether a ten or hundred is passed after the two numbers that are always shown.

    A strip that is shorter than it was to be passes none. By tens within 100 every step passes a
    ten, and there is no hundred to be passed.
    """
    if length < _SHORT and steps is None and size * _SHORT <= within:
        return False
    if size == 100 or (size == 10 and within <= 100):
        return True
    step = -size if back else size
    said = [first + step * at for at in range(length)]
    return any(crosses(said[at - 1], said[at], size) for at in range(2, length))


def _named(sizes: Sequence[int]) -> str:
    return ", ".join(SIZES[size] for size in sizes)
