"""Chooses the numbers of two steps: the first weighted by how many second steps go with it."""

from bisect import bisect
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import accumulate

from storybank import situations
from storybank.luck import digest, ordered
from storybank.model import Triple
from storybank.number_choice._supply import supply
from storybank.number_choice._wish import Wish

SMALL = 9
"""The largest part told where single-digit numbers are wanted (2.OA.1 in North Carolina)."""
StepKey = tuple[tuple[int, int], tuple[int, int]]
_TRIES = 400


@dataclass(frozen=True, slots=True)
class TwoStepWish:
    """All wishes about the numbers of two steps; equal wishes share one supply.

    `hidden` is the role of the second situation that the first step's result takes. With `small`
    every part of both steps but that one is a single digit. `received` is the role of the second
    situation for what somebody has who was given the change of the first.
    """

    first: Wish
    then: Wish
    hidden: str
    small: bool
    received: str | None = None


class TwoStepSupply:
    """The pairs of triples that meet a wish; no number of a problem stands in it twice."""

    def __init__(self, wish: TwoStepWish) -> None:
        self.wish = wish
        first, then = situations.get(wish.first.situation), situations.get(wish.then.situation)
        self._first_unknown = first.roles.index(first.unknown)
        self._then_unknown = then.roles.index(then.unknown)
        self._hidden = then.roles.index(wish.hidden)
        self._received = then.roles.index(wish.received) if wish.received else None

    @cached_property
    def _firsts(self) -> list[Triple]:
        """The triples of the first step that have room."""
        parts_small = self.wish.small
        return [
            one for one in supply(self.wish.first) if not parts_small or max(one.a, one.b) <= SMALL
        ]

    @cached_property
    def _thens(self) -> dict[int, list[Triple]]:
        """The triples of the second step by the number that the first step gives."""
        found: dict[int, list[Triple]] = {}
        for two in supply(self.wish.then):
            parts = [two.a, two.b]
            if self._hidden < len(parts):
                parts.pop(self._hidden)
            if not self.wish.small or max(parts) <= SMALL:
                found.setdefault(_numbers(two)[self._hidden], []).append(two)
        return found

    @cached_property
    def _weights(self) -> tuple[list[Triple], list[int]]:
        """The first steps with any second step, and how many second steps there are up to each."""
        counts = [(one, sum(1 for _ in self.seconds(one))) for one in self._firsts]
        kept = [(one, count) for one, count in counts if count]
        return [one for one, _ in kept], list(accumulate(count for _, count in kept))

    def __len__(self) -> int:
        """How many pairs of triples there are."""
        return self._weights[1][-1] if self._weights[1] else 0

    def __iter__(self) -> Iterator[tuple[Triple, Triple]]:
        """Every pair of triples."""
        for one in self._weights[0]:
            for two in self.seconds(one):
                yield one, two

    def seconds(self, one: Triple) -> Iterator[Triple]:
        """The second steps that go with a first one: five different numbers in all."""
        told = _numbers(one)
        hidden = told[self._first_unknown]
        least = one.b if self._received is not None else 0
        for two in self._thens.get(hidden, ()):
            others = list(_numbers(two))
            others.pop(self._hidden)
            if len({*told, *others}) == 5 and _numbers(two)[self._received or 0] >= least:
                yield two

    def choose(self, key: str, used: Collection[StepKey]) -> tuple[Triple, Triple] | None:
        """A pair whose `key_of` is not in `used`, evenly over all pairs; None when none is left.

        The first step is drawn with the weight of its second steps, then one of them evenly,
        which draws every pair alike. Only after many draws of used pairs all are listed.
        """
        firsts, weights = self._weights
        if not firsts:
            return None
        for attempt in range(_TRIES):
            place = digest(f"{key}/{attempt}") % weights[-1]
            at = bisect(weights, place)
            one = firsts[at]
            seconds = list(self.seconds(one))
            two = seconds[place - (weights[at - 1] if at else 0)]
            if key_of(one, two) not in used:
                return one, two
        left = [pair for pair in self if key_of(*pair) not in used]
        return ordered(left, f"{key}/left", str)[0] if left else None


def key_of(one: Triple, two: Triple) -> StepKey:
    """Both triples whatever the order of their parts."""
    return one.key, two.key


def _numbers(triple: Triple) -> tuple[int, int, int]:
    return triple.a, triple.b, triple.c


@lru_cache(maxsize=512)
def two_step_supply(wish: TwoStepWish) -> TwoStepSupply:
    """The supply of that wish; the same object for equal wishes while it is remembered."""
    return TwoStepSupply(wish)
