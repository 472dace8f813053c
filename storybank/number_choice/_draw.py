"""Chooses one triple of a supply, evenly and repeatably."""

import struct
from collections.abc import Collection, Iterator
from functools import lru_cache
from hashlib import blake2b

from storybank.model import Triple
from storybank.number_choice._entries import EITHER, PART_FIRST, unpacked
from storybank.number_choice._supply import Supply

_EIGHT = struct.Struct("<8Q").unpack
_FIRST_THREE = struct.Struct("<3Q").unpack_from


def choose(
    supply: Supply, key: str, used: Collection[tuple[int, int]] | None = None
) -> Triple | None:
    """A triple of `supply` whose `Triple.key` is not in `used`; None when nothing is left.

    First a ten of the largest number, evenly among the tens that have entries, then evenly
    over its entries; both by a permutation that `key` alone decides, drawn only as far as it
    is needed. A ten that is used up yields to the next. Source: our own design.
    """
    tens = supply.preferred
    if tens:
        # What the permutations below give first, without the cost of setting them up.
        first, second, third = _FIRST_THREE(blake2b(f"{key}/0".encode()).digest())
        entries = supply.listed[tens[first % len(tens)]][0]
        triple, pair = _triple(entries[second % len(entries)], third & 1)
        if not used or pair not in used:
            return triple
        found = _next_unused(supply, 0, tens, _numbers(key), used)
        if found:
            return found
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
            if _triple(entries[place], 0)[1] not in used:
                return _triple(entries[place], next(numbers) & 1)[0]
    return None


@lru_cache(maxsize=1 << 15)
def _triple(entry: int, turn: int) -> tuple[Triple, tuple[int, int]]:
    """The triple of a packed entry, and its key.

    `turn` 1 turns the parts round where either order will do.
    """
    c, part, orders = unpacked(entry)
    if orders == EITHER:
        orders -= 1 + turn
    parts = (part, c - part) if orders == PART_FIRST else (c - part, part)
    triple = Triple(*parts, c)
    return triple, triple.key


def _numbers(key: str) -> Iterator[int]:
    """64-bit numbers without end that depend on `key` alone."""
    counter = 0
    while True:
        yield from _EIGHT(blake2b(f"{key}/{counter}".encode()).digest())
        counter += 1


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
