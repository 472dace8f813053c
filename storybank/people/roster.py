"""The people of a set: persons, and the roster they are dealt from."""

import unicodedata
from dataclasses import dataclass, field, replace
from functools import lru_cache

from storybank.luck import ordered

PRONOUNS = ("he", "she")


@dataclass(frozen=True, slots=True)
class Person:
    """A child in a story; with no `pronoun` (they, or none stored) the name is said again."""

    name: str
    pronoun: str | None = None

    @property
    def initial(self) -> str:
        """The first letter without accent and case, `a` for Ángel; an okina is skipped."""
        return _initial(self.name)


@lru_cache(maxsize=10_000)
def _initial(name: str) -> str:
    for char in unicodedata.normalize("NFKD", name):
        if char.isalpha() and unicodedata.category(char) != "Lm":
            return char.casefold()
    return name[:1]


@dataclass(frozen=True, slots=True)
class Roster:
    """Persons to deal from, and what was changed while reading them.

    `id` is `own`, another list's id, or the base name of a file. In a class list each child
    appears before one appears twice, and no name is too long; other rosters keep to the
    letters that the vocabulary allows.
    """

    id: str
    title: str
    people: tuple[Person, ...]
    class_list: bool = False
    notes: tuple[str, ...] = field(default=())


def cast(roster: Roster, size: int, letters: int, key: str) -> Roster:
    """The roster of `size` of its people with names of at most `letters`, drawn by `key`.

    Their initials differ while there are enough; a roster that has fewer people gives all.
    """
    drawn = ordered(
        (one for one in roster.people if len(one.name) <= letters), key, lambda one: one.name
    )
    first: dict[str, Person] = {}
    for person in drawn:
        first.setdefault(person.initial, person)
    chosen = [*first.values(), *(one for one in drawn if one not in first.values())][:size]
    return replace(roster, people=tuple(chosen))
