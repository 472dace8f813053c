"""Entries: a pair and the orders of its parts as one whole number, kept ten by ten."""

from array import array
from collections.abc import Callable, Iterator
from functools import lru_cache

from storybank.model import Triple

PART_FIRST, PART_SECOND, EITHER = 1, 2, 3
"""Where the given or smaller part may stand: as A, as B, or as either."""
Row = tuple[int, int, int, int, int]
"""An entry without its orders, the orders, the whole, the part and the other part."""

Place = tuple[Triple, tuple[int, int]]
"""A triple, and the key that it shares with its other order."""


def packed(c: int, part: int, orders: int) -> int:
    """One number for a pair: the whole, a part, and where that part may stand."""
    return c << 12 | part << 2 | orders


def unpacked(entry: int) -> tuple[int, int, int]:
    """The whole, the part and the orders of a packed entry."""
    return entry >> 12, entry >> 2 & 1023, entry & 3


@lru_cache(maxsize=1 << 15)
def triple_of(entry: int, turn: int) -> Place:
    """The triple of a packed entry, and its key.

    `turn` 1 turns the parts round where either order will do.
    """
    c, part, orders = unpacked(entry)
    if orders == EITHER:
        orders -= 1 + turn
    parts = (part, c - part) if orders == PART_FIRST else (c - part, part)
    triple = Triple(*parts, c)
    return triple, triple.key


class Tens(dict[int, tuple["array[int]", "array[int]"]]):
    """The packed entries of each ten in rising order, by tier; listed when first asked for."""

    def __init__(self, found: Callable[[int], Iterator[tuple[int, int]]]) -> None:
        """Tens whose entries, each with its tier, `found` gives."""
        super().__init__()
        self._found = found
        self._rows: dict[int, tuple[list[Row], list[Row]]] = {}

    def __missing__(self, ten: int) -> tuple["array[int]", "array[int]"]:
        tiers = array("I"), array("I")
        for entry, place in self._found(ten):
            tiers[place].append(entry)
        self[ten] = tiers
        return tiers

    def rows(self, ten: int) -> tuple[list[Row], list[Row]]:
        """The entries of a ten by tier, taken apart once for all who look through them."""
        known = self._rows.get(ten)
        if known is None:
            preferred, second = ([_row(entry) for entry in entries] for entries in self[ten])
            known = self._rows[ten] = (preferred, second)
        return known


def _row(entry: int) -> Row:
    c, part, orders = unpacked(entry)
    return entry - orders, orders, c, part, c - part
