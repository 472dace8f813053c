"""Seeded luck: the same key gives the same choice under any hash seed, version by version."""

import hashlib
from collections.abc import Callable, Iterable, Sequence
from typing import TypeVar

T = TypeVar("T")


def weight(key: str) -> bytes:
    """Eight bytes that depend on `key` alone, spread evenly."""
    return hashlib.blake2b(key.encode(), digest_size=8).digest()


def highest(options: Sequence[T], key: str, name: Callable[[T], str]) -> T:
    """The option whose `name` weighs most under `key`.

    Adding an option changes the choice only where the new one is now chosen.
    """
    if len(options) == 1:
        return options[0]
    return max(options, key=lambda option: weight(f"{key}/{name(option)}"))


def ordered(options: Iterable[T], key: str, name: Callable[[T], str]) -> list[T]:
    """All options, the one that `highest` gives first, then the runners-up in turn."""
    found = list(options)
    if len(found) > 1:
        found.sort(key=lambda option: weight(f"{key}/{name(option)}"), reverse=True)
    return found


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
