"""Keywords of a set: none of them may tell a child which operation to use."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from storybank import situations
from storybank.model import Situation
from storybank.tellings import KEYWORDS

_FEW = 4  # A word that stands in fewer problems than this shows no child a habit.
_MOST = 0.75
_NONE: frozenset[str] = frozenset()


@dataclass
class Keywords:
    """How often each of more, fewer, left ... has stood in additions and in subtractions.

    `wish` is `none` (comparisons apart, no story uses one) or `mixed`: in a set that mixes
    operations, a word that stands in 4 problems or more has at most 75% of them with one
    operation (our own design, against solving by keyword: Clement & Bernhard 2005, from memory).
    """

    wish: str
    mixes: bool
    told: Counter[tuple[str, str]] = field(default_factory=Counter)
    because: str = "the situations asked for leave no better balance"
    """Why a word may lean; after the changes of a teacher there are other reasons."""

    @classmethod
    def of(cls, wish: str, situation_ids: Sequence[str]) -> "Keywords":
        """Nothing told yet, for a set of these situations."""
        asked = [situations.get(name) for name in situation_ids]
        return cls(wish, len({one.operation for one in asked if not one.both_parts}) > 1)

    def note(self, words: Sequence[str], situation: Situation) -> None:
        """Remembers the keywords of a finished problem."""
        if not situation.both_parts:
            self.told.update((word, situation.operation) for word in words)

    def shut(self, situation: Situation, *, balancing: bool, stories: int = 1) -> frozenset[str]:
        """The words that the next `stories` may not use; comparisons always use their word."""
        if situation.family == "compare":
            return _NONE
        if self.wish == "none":
            return frozenset(KEYWORDS)
        if situation.both_parts or not (balancing and self.mixes):
            return _NONE
        operation = situation.operation
        return frozenset(word for word in KEYWORDS if self._leans(word, operation, stories))

    def leaning(self) -> Iterator[str]:
        """What is to be said where the situations asked for left no balance."""
        if not self.mixes:
            return
        for word in KEYWORDS:
            for operation, name in (("+", "addition"), ("-", "subtraction")):
                if self._leans(word, operation, 0):
                    here, all_ = self.told[word, operation], self._all(word)
                    yield (
                        f'The word "{word}" stands in {all_} problems, {here} of them {name}: '
                        f"{self.because}."
                    )

    def _all(self, word: str) -> int:
        return self.told[word, "+"] + self.told[word, "-"]

    def _leans(self, word: str, operation: str, added: int) -> bool:
        here, all_ = self.told[word, operation] + added, self._all(word) + added
        return all_ >= _FEW and here > _MOST * all_
