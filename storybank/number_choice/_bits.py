"""Sets of triples as the bits of one whole number: joined, counted and looked up at once.

The bit of a triple stands at its place: wholes in rising order, and of each whole the smaller
part from 0 on.
"""

from functools import lru_cache
from math import isqrt

from storybank.number_choice._entries import PART_FIRST, PART_SECOND, unpacked
from storybank.number_choice._supply import Supply
from storybank.number_choice._wish import Range

BothOrders = tuple[int, int]
"""Triples whose smaller part stands first, and those whose smaller part stands second."""


def place_of(small: int, whole: int) -> int:
    """The place of a triple: how many pairs of parts all smaller wholes have, and its own."""
    return (whole + 1) * (whole + 1) // 4 + small


def triple_at(place: int) -> tuple[int, int]:
    """The smaller part and the whole of the triple at a place."""
    root = isqrt(place)
    if place >= root * (root + 1):
        return place - root * (root + 1), 2 * root
    return place - root * root, 2 * root - 1


def nth(bits: int, n: int) -> int:
    """The place of the n-th triple of a set, counted from 0; by halving, so in no time."""
    at, width = 0, bits.bit_length()
    while width > 1:
        half = width // 2
        low = bits & (1 << half) - 1
        there = low.bit_count()
        if n < there:
            bits, width = low, half
        else:
            n -= there
            bits >>= half
            at += half
            width -= half
    return at


def bits_of(supply: Supply) -> tuple[BothOrders, BothOrders]:
    """The triples of a supply by tier, in both orders; equal parts stand in the first order."""
    found = [[bytearray(), bytearray()], [bytearray(), bytearray()]]
    size = (place_of(0, supply.wish.limit + 1) + 7) // 8
    for tier, tens in enumerate((supply.preferred, supply.second_best)):
        if tens:
            found[tier] = [bytearray(size), bytearray(size)]
        first, second = found[tier]
        for ten in tens:
            for entry in supply.listed[ten][tier]:
                whole, part, orders = unpacked(entry)
                small = min(part, whole - part)
                place = place_of(small, whole)
                if orders & (PART_FIRST if small == part else PART_SECOND):
                    first[place >> 3] |= 1 << (place & 7)
                if orders & (PART_SECOND if small == part else PART_FIRST) and 2 * small != whole:
                    second[place >> 3] |= 1 << (place & 7)
    preferred, others = ((_number(first), _number(second)) for first, second in found)
    return preferred, others


def _number(bits: bytearray) -> int:
    return int.from_bytes(bits, "little")


@lru_cache(maxsize=128)
def bits_within(room: tuple[Range, Range, Range], limit: int) -> BothOrders:
    """The triples within `limit` that have room for A, B and C, in both orders."""
    a, b, (low, high) = room
    low, high = max(low, 0), min(high, limit)
    if high < low:
        return 0, 0
    start, stop = place_of(0, low), place_of(0, high + 1)
    wholes = (1 << stop) - (1 << start)
    first = _smaller(a, limit) & _larger(b, limit) & wholes
    return first, _smaller(b, limit) & _larger(a, limit) & wholes


@lru_cache(maxsize=64)
def _smaller(bounds: Range, limit: int) -> int:
    """The triples whose smaller part lies within the bounds."""
    return _joined([(bounds[0], bounds[1]) for _ in range(limit + 1)])


@lru_cache(maxsize=64)
def _larger(bounds: Range, limit: int) -> int:
    """The triples whose larger part lies within the bounds."""
    return _joined([(whole - bounds[1], whole - bounds[0]) for whole in range(limit + 1)])


def _joined(smaller_parts: list[Range]) -> int:
    """The triples whose smaller part lies within the bounds given for each whole from 0 on."""
    runs = []
    for whole, (low, high) in enumerate(smaller_parts):
        low, high = max(low, 0), min(high, whole // 2)
        if low <= high:
            place = place_of(0, whole)
            runs.append((place + low, place + high + 1))
    text, at = [], 0
    for start, stop in runs:
        text.append("0" * (start - at) + "1" * (stop - start))
        at = stop
    return int("".join(text)[::-1] or "0", 2)
