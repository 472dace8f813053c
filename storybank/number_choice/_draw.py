"""Chooses one triple of a supply, evenly and repeatably."""

import struct
from collections.abc import Collection, Iterator
from hashlib import blake2b
from itertools import count

from storybank.model import Triple
from storybank.number_choice._entries import Place, triple_of
from storybank.number_choice._supply import Supply

_EIGHT = struct.Struct("<8Q").unpack
_FIRST_TWO = struct.Struct("<2Q").unpack_from


def choose(
    supply: Supply,
    key: str,
    used: Collection[tuple[int, int]] | None = None,
    *,
    preferred_only: bool = False,
) -> Triple | None:
    """A triple of `supply` whose `Triple.key` is not in `used`; None when nothing is left.

    First a ten of the largest number, evenly among the tens that have entries, then evenly
    over its entries; both by a permutation that `key` alone decides, drawn only as far as it
    is needed. A ten that is used up yields to the next. With `preferred_only` nothing of the
    second tier is taken. Source: our own design.
    """
    tens = supply.preferred
    if tens:
        # What the permutations below give first, without the cost of setting them up.
        first, second = _FIRST_TWO(blake2b(key.encode()).digest())
        at = first % len(tens)
        places = supply.places[at] or supply.take_apart(at)
        place: Place = places[second % len(places)]
        if not used or place[1] not in used:
            return place[0]
        found = _next_unused(supply, 0, tens, _numbers(key), used)
        if found:
            return found
    if preferred_only:
        return None
    tens = supply.second_best
    return _next_unused(supply, 1, tens, _numbers(f"{key}/second"), used or ())


def _next_unused(
    supply: Supply,
    tier: int,
    tens: tuple[int, ...],
    numbers: Iterator[int],
    used: Collection[tuple[int, int]],
) -> Triple | None:
    for at in _permutation(len(tens), numbers):
        entries = supply.listed[tens[at]][tier]
        for place in _permutation(len(entries), numbers):
            if triple_of(entries[place], 0)[1] not in used:
                return triple_of(entries[place], next(numbers) & 1)[0]
    return None


def _numbers(key: str) -> Iterator[int]:
    """64-bit numbers without end that depend on `key` alone."""
    block = key
    for counter in count(1):
        yield from _EIGHT(blake2b(block.encode()).digest())
        block = f"{key}/{counter}"


def _permutation(size: int, numbers: Iterator[int]) -> Iterator[int]:
    """The numbers below `size`, each once, in an order that `numbers` decide.

    Fisher & Yates' shuffle, holding only the places that were swapped (Durstenfeld 1964). The
    remainder of a 64-bit number favors no place by more than one part in 10 ** 13.
    """
    swapped: dict[int, int] = {}
    for at in range(size):
        place = at + next(numbers) % (size - at)
        yield swapped.get(place, place)
        swapped[place] = swapped.get(at, at)
