"""What a check knows besides the problem: limits, pack, people and what the teacher asked for."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Protocol

from storybank.checks._rules import Rules, rules_for
from storybank.model.words import Theme
from storybank.vocabulary import Vocabulary


class Somebody(Protocol):
    """Anybody with a name, and the pronoun `he` or `she` or none."""

    @property
    def name(self) -> str:
        """The name as it stands in the text."""

    @property
    def pronoun(self) -> str | None:
        """The pronoun, or None."""


@dataclass(frozen=True, slots=True)
class Context:
    """The wishes and words that a problem is judged by.

    `limit` bounds the largest number. `asked_pair` says that the teacher named the numbers: then
    fit, multiples of ten and equal parts are no faults. `names_are_listed` says that the names
    are from our own list, so that its length limit and its different initials hold. `people`
    give the pronouns; a name that is not among them has none. A `measured` problem tells of
    amounts with a unit: their words are known too.
    """

    limit: int
    vocabulary: Vocabulary
    theme: Theme
    asked_pair: bool = False
    names_are_listed: bool = True
    people: Sequence[Somebody] = ()
    measured: bool = False
    rules: Rules = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "rules", rules_for(self.theme, self.vocabulary, self.measured))

    def pronoun(self, name: str) -> str | None:
        """The pronoun of the person of that name, or None."""
        for person in self.people:
            if person.name == name:
                return person.pronoun
        return None
