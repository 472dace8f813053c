"""Reads JSON from outside value by value: what it holds is as it should be, or a PackError."""

import re
from collections.abc import Collection, Sequence
from typing import Any

from storybank.cleaning import BREAK, CONTROL, ILLEGAL, clean_text
from storybank.errors import PackError, unknown_value
from storybank.set_file import MAKE_AGAIN

LARGEST = 999_999
"""No number of a problem is larger; a wrong answer may be beyond the limit of the numbers."""
LONGEST = 2**63
"""No number of a request is larger: a seed has 63 bits."""
LINE, STORY = 1_000, 8_000
"""Characters of one text, and of a whole story."""
MOST = 400
"""Entries of one list."""
_REFUSED = frozenset({BREAK, CONTROL, ILLEGAL})
_TURNED = re.compile("[\u202a-\u202e\u2066-\u2069]")
_SHOWN = 60
_SAID_DIGITS = 10**12
ID = re.compile(r"[a-z0-9][a-z0-9-]{0,59}")
NAMED = re.compile(r"\w[\w -]{0,59}")
"""The name of a vocabulary, which may be a teacher's own."""


class Node:
    """An object of the JSON of a set, and the place where it stands for the messages."""

    __slots__ = ("_value", "_where")

    def __init__(self, value: Any, where: str) -> None:
        """The object `value` that stands at `where`. Raises PackError if it is no object."""
        if not isinstance(value, dict):
            place = where or "The problem"
            raise PackError(f"{place} is {shown(value)}, and an object is wanted. {MAKE_AGAIN}")
        self._value = value
        self._where = where

    def fault(self, key: str, wanted: str) -> PackError:
        """The error that what stands under `key` is not what is `wanted`."""
        return self._fault_in(key, self._value.get(key), wanted)

    def wrong(self, what: str) -> PackError:
        """The error that something is wrong with the object."""
        return PackError(f"{self._where}{': ' if self._where else ''}{what} {MAKE_AGAIN}")

    def has(self, key: str) -> bool:
        """Whether something other than null stands under `key`."""
        return self._value.get(key) is not None

    def text(self, key: str, limit: int = LINE, *, lines: bool = False, empty: bool = False) -> str:
        """The text under `key`, of at most `limit` characters and fit for every document.

        With `lines` it may hold line breaks, with `empty` be empty.
        """
        return self._text(key, self._value.get(key), limit, lines, empty)

    def text_or_none(self, key: str) -> str | None:
        """The text under `key`, or None where there is null or no such key."""
        return self.text(key) if self.has(key) else None

    def texts(self, key: str) -> tuple[str, ...]:
        """The texts of the list under `key`."""
        return tuple([self._text(key, one, LINE, False, False) for one in self._list(key)])

    def word(self, key: str, pattern: re.Pattern[str], kind: str) -> str:
        """The text under `key`, which has the form of a `kind`."""
        value = self._value.get(key)
        if isinstance(value, str) and pattern.fullmatch(value):
            return value
        raise self.fault(key, kind)

    def choice(self, key: str, kind: str, choices: Collection[str]) -> str:
        """The text under `key`, one of the `choices`, which are of that `kind`."""
        value = self.word(key, ID, f"the id of a {kind}")
        return self._known(value, kind, choices)

    def choices(self, key: str, kind: str, choices: Collection[str]) -> tuple[str, ...]:
        """The texts of the list under `key`, each one of the `choices`."""
        return tuple([self._known(one, kind, choices) for one in self.texts(key)])

    def number(self, key: str, low: int = 0, high: int = LARGEST) -> int:
        """The whole number under `key`, from `low` to `high`."""
        return self._number(key, self._value.get(key), low, high)

    def number_or_none(self, key: str) -> int | None:
        """The whole number under `key`, or None where there is null or no such key."""
        return self.number(key) if self.has(key) else None

    def numbers(self, key: str) -> tuple[int, ...]:
        """The whole numbers of the list under `key`."""
        return tuple([self._number(key, one, 0, LARGEST) for one in self._list(key)])

    def pairs(self, key: str) -> tuple[tuple[int, int], ...]:
        """The pairs of whole numbers of the list under `key`."""
        found = []
        for one in self._list(key):
            if not isinstance(one, list) or len(one) != 2:
                raise self.fault(key, "a list of pairs of numbers")
            first, second = (self._number(key, number, 0, LARGEST) for number in one)
            found.append((first, second))
        return tuple(found)

    def figure(self, key: str, high: float) -> float:
        """The number under `key`, whole or not, from -`high` to `high`."""
        value = self._value.get(key)
        if (
            isinstance(value, int | float)
            and not isinstance(value, bool)
            and -high <= value <= high
        ):
            return float(value)
        raise self.fault(key, f"a number from -{high:g} to {high:g}")

    def by_role(self, key: str, roles: Sequence[str]) -> dict[str, int]:
        """The whole numbers by the `roles`, in their order; no other key is there."""
        inner = self.node(key)
        if set(inner._value) != set(roles):
            raise self.fault(key, f"an object with {', '.join(roles)}")
        return {role: inner.number(role) for role in roles}

    def names(self) -> tuple[str, ...]:
        """The keys of the object, of which there are at most `MOST`."""
        if len(self._value) > MOST:
            raise self.wrong(f"There are {len(self._value):,} keys, and {MOST} are the most.")
        return tuple(self._value)

    def plain(self, key: str) -> Any:
        """What stands under `key`: null, yes or no, a whole number, a text, or a list of these."""
        value = self._value.get(key)
        if isinstance(value, list):
            return [self._plain(key, one) for one in self._list(key)]
        return self._plain(key, value)

    def values(self, key: str, most: int) -> list[Any]:
        """What stands in the list under `key`, which has at most `most` entries."""
        return self._list(key, most)

    def node(self, key: str) -> "Node":
        """The object under `key`."""
        value = self._value.get(key)
        if not isinstance(value, dict):
            raise self.fault(key, "an object")
        return Node(value, self._at(key))

    def nodes(self, key: str) -> tuple["Node", ...]:
        """The objects of the list under `key`."""
        found = self._list(key)
        return tuple([Node(one, self._at(f"{key}, {at}")) for at, one in enumerate(found, start=1)])

    def _at(self, key: str) -> str:
        return f"{self._where}, {key}" if self._where else key

    def _list(self, key: str, most: int = MOST) -> list[Any]:
        value = self._value.get(key)
        if not isinstance(value, list) or len(value) > most:
            raise self.fault(key, f"a list of at most {most:,}")
        return value

    def _plain(self, key: str, value: Any) -> Any:
        if value is None or isinstance(value, bool):
            return value
        if isinstance(value, int):
            return self._number(key, value, -LONGEST, LONGEST)
        return self._text(key, value, LINE, False, True)

    def _text(self, key: str, value: Any, limit: int, lines: bool, empty: bool) -> str:
        if isinstance(value, str) and len(value) <= limit and (value or empty):
            parts = value.split("\n") if lines else [value]
            if all(_is_clean(part, limit) for part in parts):
                return value
        wanted = f"a text of at most {limit:,} characters without control characters"
        raise self._fault_in(key, value, wanted)

    def _number(self, key: str, value: Any, low: int, high: int) -> int:
        if isinstance(value, int) and not isinstance(value, bool) and low <= value <= high:
            return value
        raise self._fault_in(key, value, f"a whole number from {low:,} to {high:,}")

    def _fault_in(self, key: str, value: Any, wanted: str) -> PackError:
        if key not in self._value:
            return self.wrong(f'"{key}" is missing, and {wanted} is wanted.')
        is_it = "is" if value is self._value[key] else "holds"
        return self.wrong(f'"{key}" {is_it} {shown(value)}, and {wanted} is wanted.')

    def _known(self, value: str, kind: str, choices: Collection[str]) -> str:
        if value in choices:
            return value
        raise self.wrong(unknown_value(kind, clean_text(value, _SHOWN)[0], choices))


def shown(value: object) -> str:
    """A value as it stands in a message: short, whatever it is."""
    if value is None:
        return "null"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int):
        return f"{value}" if abs(value) < _SAID_DIGITS else "a number that is far too large"
    if isinstance(value, float):
        return repr(value)
    if isinstance(value, str):
        return f'"{clean_text(value[: 2 * _SHOWN], _SHOWN)[0]}"'
    return f"a list of {len(value):,}" if isinstance(value, list) else "an object"


def _is_clean(text: str, limit: int) -> bool:
    """Whether every document may hold the text, and it stands there in the direction it has."""
    if text.isascii() and text.isprintable():
        return True
    return not (_REFUSED.intersection(clean_text(text, limit)[1]) or _TURNED.search(text))
