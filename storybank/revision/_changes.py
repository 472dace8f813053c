"""The changes that a teacher makes to a set, written as short texts: `swap-3`, `down-1`."""

import re
from collections.abc import Iterable
from dataclasses import dataclass

from storybank import vocabulary
from storybank.cleaning import clean_text
from storybank.errors import RequestError, unknown_value

MOST_CHANGES = 300
_PLACE = re.compile(r"[1-9][0-9]{0,3}")
_EXAMPLES = {
    "swap": "swap-3",
    "numbers": "numbers-3",
    "renew": "renew-1-4-6",
    "level": "level-3-level-2",
    "words": "words-3-1",
    "plain": "plain-3",
    "up": "up-3",
    "down": "down-3",
    "remove": "remove-3",
    "more": "more",
}
KINDS = tuple(_EXAMPLES)
"""What may be done: another story for the same wishes, other numbers for the same story, other
stories for several places, the same story at another level of English, words of the teacher's own,
our words again, moved up or down, removed; and one story more."""


@dataclass(frozen=True, slots=True)
class Change:
    """One change: its `kind`, the places it is about, counted from 1 as they are at that time.

    `level` is the vocabulary of a `level`; `words` says which of the texts of her own it is that a
    `words` puts in, counted from 1.
    """

    kind: str
    places: tuple[int, ...] = ()
    level: str | None = None
    words: int = 0

    def __str__(self) -> str:
        parts = [self.kind, *map(str, self.places)]
        if self.level is not None:
            parts.append(self.level)
        if self.words:
            parts.append(str(self.words))
        return "-".join(parts)


def changes_of(texts: Iterable[str]) -> tuple[Change, ...]:
    """The changes that the texts say, in order. Raises RequestError for any other text."""
    found = tuple(change_of(one) for one in texts)
    if len(found) > MOST_CHANGES:
        raise RequestError(
            f"{len(found)} changes were asked for, and at most {MOST_CHANGES} can be made to one "
            "set. Begin with a new set."
        )
    return found


def change_of(text: str) -> Change:
    """The change that `text` says, such as `swap-3`. Raises RequestError for any other text."""
    kind, *rest = text.split("-")
    if kind not in KINDS:
        raise RequestError(unknown_value("change", clean_text(text, 40)[0], _EXAMPLES.values()))
    level = None
    if kind == "level":
        level, rest = "-".join(rest[1:]), rest[:1]
        if level not in vocabulary.ids():
            raise _misspelt(kind, text)
    if not all(_PLACE.fullmatch(one) for one in rest):
        raise _misspelt(kind, text)
    numbers = tuple(map(int, rest))
    counted = {"more": 0, "words": 2, "renew": max(1, len(set(numbers)))}
    if len(numbers) != counted.get(kind, 1):
        raise _misspelt(kind, text)
    if kind == "words":
        return Change(kind, numbers[:1], words=numbers[1])
    return Change(kind, numbers, level)


def _misspelt(kind: str, text: str) -> RequestError:
    return RequestError(
        f'The change "{clean_text(text, 40)[0]}" cannot be read. Write it like '
        f"{_EXAMPLES[kind]}, with the places of the stories counted from 1."
    )
