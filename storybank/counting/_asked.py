"""Warm-ups as a teacher asks for them: with a first number one from there, and more like it."""

from collections.abc import Sequence
from dataclasses import dataclass

from storybank.counting._bounds import MOST_WITHIN, SIZES, usual_steps
from storybank.counting._choice import warm_ups
from storybank.counting._count import count_from
from storybank.errors import RequestError
from storybank.model.counting import Count

USUAL_COUNT = 3
"""How many warm-ups there are where no first number is asked for."""


@dataclass(frozen=True, slots=True)
class Wish:
    """What is to be counted; None and nothing leave it to luck, or to what is usual."""

    by: Sequence[int] = ()
    start: int | None = None
    back: bool = False
    steps: int | None = None
    within: int = MOST_WITHIN
    count: int | None = None


def asked_for(wish: Wish, seed: int) -> tuple[Count, ...]:
    """The warm-ups of a wish; the same seed gives the same ones.

    Raises RequestError where the wish cannot be met.
    """
    key = f"{seed}/count"
    back = True if wish.back else None
    if wish.start is None:
        count = USUAL_COUNT if wish.count is None else wish.count
        return warm_ups(wish.by or None, (), wish.within, key, count, back=back, steps=wish.steps)
    if not wish.by:
        raise RequestError(
            f"--from {wish.start} was asked for without --by. Add what to count by: --by "
            f"with one or more of {', '.join(map(str, SIZES))}."
        )
    sizes = list(dict.fromkeys(wish.by))
    found = [
        count_from(
            wish.start, by, back=wish.back, within=wish.within, key=key,
            steps=_steps(wish, wish.start, by),
        )
        for by in sizes
    ]  # fmt: skip
    if wish.count is None or wish.count == len(found):
        return tuple(found)
    more = warm_ups(sizes, [wish.start], wish.within, key, wish.count, back=back, steps=wish.steps)
    found += [one for one in more if all(one.numbers != other.numbers for other in found)]
    return tuple(found[: wish.count])


def _steps(wish: Wish, start: int, by: int) -> int:
    """How many numbers the count from `start` says."""
    if wish.steps is not None:
        return wish.steps
    return usual_steps(start, by, back=wish.back, within=wish.within)
