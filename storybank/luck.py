"""Seeded luck: the same key gives the same choice under any hash seed, version by version."""

from collections.abc import Callable, Iterable, Sequence
from functools import lru_cache
from hashlib import blake2b
from math import isqrt
from typing import TypeVar

from storybank.errors import RequestError

T = TypeVar("T")
LARGEST_SEED = (1 << 63) - 1
_WIDTH = (1 << 64) - 1
_ROUNDS = 4


def checked_seed(seed: int) -> int:
    """The seed that was asked for. Raises RequestError for one that is out of range."""
    if not 0 <= seed <= LARGEST_SEED:
        raise RequestError(
            f"--seed is {seed}, which is out of range. Choose a whole number from 0 to "
            f"{LARGEST_SEED}."
        )
    return seed


def highest(options: Sequence[T], key: str, name: Callable[[T], str]) -> T:
    """The option whose `name` weighs most under `key`.

    Adding an option changes the choice only where the new one is now chosen.
    """
    if len(options) == 1:
        return options[0]
    drawn = digest(key)
    return max(options, key=lambda option: _weight(drawn ^ _named(name(option))))


def ordered(options: Iterable[T], key: str, name: Callable[[T], str]) -> list[T]:
    """All options, the one that `highest` gives first, then the runners-up in turn."""
    found = list(options)
    if len(found) > 1:
        drawn = digest(key)
        found.sort(key=lambda option: _weight(drawn ^ _named(name(option))), reverse=True)
    return found


def digest(text: str) -> int:
    """A number of 64 bits that depends on `text` alone, on every machine; spread evenly."""
    return int.from_bytes(blake2b(text.encode(), digest_size=8).digest(), "big")


_named = lru_cache(maxsize=1 << 15)(digest)
"""The same for names of options, of which there are few."""


def _weight(mixed: int) -> int:
    """A number of 64 bits in which every bit of `mixed` counts; different for different ones.

    Source: variant 13 of Stafford's mixers, as in Steele, Lea & Flood (2014), SplittableRandom.
    """
    mixed = (mixed ^ mixed >> 30) * 0xBF58476D1CE4E5B9 & _WIDTH
    mixed = (mixed ^ mixed >> 27) * 0x94D049BB133111EB & _WIDTH
    return mixed ^ mixed >> 31


class Deck:
    """Deals options in seeded rounds: each is dealt once before one returns."""

    def __init__(self, options: Sequence[str], key: str) -> None:
        self._options = options
        self._key = key
        self._round = 0
        self._left: list[str] = []

    def deal(self, usable: Callable[[str], T | None]) -> T | None:
        """What `usable` makes of the first option left that it accepts, which is then dealt.

        Options that it refuses stay for later; when it refuses all that are left a new round
        begins. None if it refuses every option there is.
        """
        found = self._try(usable, self._left)
        if found is None:
            fresh = self._shuffled()
            found = self._try(usable, fresh)
            if found is not None:
                self._round += 1
                self._left = fresh
        return found

    def _shuffled(self) -> list[str]:
        return ordered(self._options, f"{self._key}/{self._round}", str)

    def _try(self, usable: Callable[[str], T | None], options: list[str]) -> T | None:
        for at, option in enumerate(options):
            found = usable(option)
            if found is not None:
                del options[at]
                return found
        return None


class Permutation:
    """The numbers below `size`, each once, in an order that `key` decides.

    The number at a place is found alone, and nothing is stored: a place is written with two
    digits, to two bases whose product is hardly larger than `size`, and each digit in turn is
    moved by what the other mixes to; a result that is not below `size` goes round again. Source:
    the generalized Feistel cipher of Black & Rogaway (2002), "Ciphers with arbitrary finite
    domains", from memory; the mixer and the eight half rounds are our own choice.
    """

    def __init__(self, size: int, key: str) -> None:
        """The order of `range(size)` under `key`."""
        self._size = size
        self._first = isqrt(max(size, 1) - 1) + 1
        self._second = -(-size // self._first)
        self._keys = [(digest(f"{key}/{at}/0"), digest(f"{key}/{at}/1")) for at in range(_ROUNDS)]

    def __len__(self) -> int:
        """How many numbers there are."""
        return self._size

    def __getitem__(self, place: int) -> int:
        """The number at a place. Raises IndexError where there is no such place."""
        if not 0 <= place < self._size:
            raise IndexError(f"place {place} of a permutation of {self._size}")
        first, second = self._first, self._second
        while True:
            left, right = divmod(place, second)
            for one, other in self._keys:
                left = (left + _weight(one ^ right)) % first
                right = (right + _weight(other ^ left)) % second
            place = left * second + right
            if place < self._size:
                return place
