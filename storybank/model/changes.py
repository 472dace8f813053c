"""What may be changed about a one-step story: number sets, a number too many, one too few."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from storybank.model.arithmetic import Equations, Solution, WatchFor


@dataclass(frozen=True, slots=True)
class NumberSet:
    """One of several sets of numbers for the same story, worked out by itself.

    `limit` bounds its largest number; `given` stand in the order in which the story tells them.
    """

    limit: int
    numbers: Mapping[str, int]
    given: tuple[int, ...]
    answer: int
    answer_sentence: str
    strategy: str
    equations: Equations
    related_facts: tuple[str, ...]
    solution: Solution
    watch_for: tuple[WatchFor, ...]

    def to_json(self) -> dict[str, Any]:
        """The set with the keys of the set format."""
        return {
            "limit": self.limit,
            "numbers": dict(self.numbers),
            "given": list(self.given),
            "answer": self.answer,
            "answer_sentence": self.answer_sentence,
            "strategy": self.strategy,
            "equations": self.equations.to_json(),
            "related_facts": list(self.related_facts),
            "solution": self.solution.to_json(),
            "watch_for": [entry.to_json() for entry in self.watch_for],
        }


@dataclass(frozen=True, slots=True)
class Extra:
    """A number of the story that is not needed, with what it counts ("pears")."""

    number: int
    things: str

    @property
    def told(self) -> str:
        """The number with what it counts: "7 pears"."""
        return f"{self.number} {self.things}"


@dataclass(frozen=True, slots=True)
class Missing:
    """A number that the story leaves out: its role, the number, and the question to ask for it."""

    role: str
    number: int
    ask: str

    def to_json(self) -> dict[str, Any]:
        """The missing number with the keys of the set format."""
        return {"role": self.role, "number": self.number, "ask": self.ask}
