"""Numbers, jumps and worked solutions: what the arithmetic stages hand on."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any


class Form(StrEnum):
    """How a pair of numbers is met: `ADD` a + b, `SUBTRACT` a - b, `SOUGHT` start + ? = landing.

    In the sought form `a` is the landing (C) and `b` the start (A), so the answer is a - b
    for both of the last two.
    """

    ADD = "add"
    SUBTRACT = "subtract"
    SOUGHT = "sought"


@dataclass(frozen=True, slots=True)
class Triple:
    """Three whole numbers with A + B = C, in the order of the situation's roles."""

    a: int
    b: int
    c: int

    @property
    def key(self) -> tuple[int, int]:
        """The triple whatever the order of its parts: the smaller part and the whole."""
        return (min(self.a, self.b), self.c)


@dataclass(frozen=True, slots=True)
class Jump:
    """One jump on the number line; `by` is signed, so `start + by == to`."""

    start: int
    to: int
    by: int
    why: str

    def to_json(self) -> dict[str, Any]:
        """The jump with the keys of the set format."""
        return {"from": self.start, "to": self.to, "by": self.by, "why": self.why}


@dataclass(frozen=True, slots=True)
class Solution:
    """A worked solution: where the pencil starts, jumps or lines, and what to say at each."""

    operation: str | None
    a: int | None
    b: int | None
    start: int | None
    jumps: tuple[Jump, ...]
    lines: tuple[str, ...]
    answer_is: str
    says: tuple[str, ...]

    def to_json(self) -> dict[str, Any]:
        """The solution with the keys of the set format; both-parts has only its list of lines."""
        if self.answer_is == "all lines":
            return {"lines": list(self.lines), "answer_is": self.answer_is}
        return {
            "operation": self.operation,
            "a": self.a,
            "b": self.b,
            "start": self.start,
            "jumps": [jump.to_json() for jump in self.jumps],
            "lines": list(self.lines),
            "answer_is": self.answer_is,
            "says": list(self.says),
        }


@dataclass(frozen=True, slots=True)
class SecondWay:
    """Another strategy for the same numbers, with its solution."""

    strategy: str
    solution: Solution

    def to_json(self) -> dict[str, Any]:
        """The second way with the keys of the set format."""
        return {"strategy": self.strategy, "solution": self.solution.to_json()}


@dataclass(frozen=True, slots=True)
class WatchFor:
    """A wrong answer to watch for, the known mistakes that give it, and a sentence about it."""

    answer: int
    mistakes: tuple[str, ...]
    says: str

    def to_json(self) -> dict[str, Any]:
        """The entry with the keys of the set format."""
        return {"answer": self.answer, "mistakes": list(self.mistakes), "says": self.says}


@dataclass(frozen=True, slots=True)
class Equations:
    """The equation that follows the story and the one that isolates the unknown."""

    situation: str
    solution: str

    def to_json(self) -> dict[str, Any]:
        """Both equations with the keys of the set format."""
        return {"situation": self.situation, "solution": self.solution}


@dataclass(frozen=True, slots=True)
class Situation:
    """One of the problem subtypes of CCSS-M Table 1, with no English about it.

    `roles` name A, B and C of A + B = C in this order; `unknown` is a role or `parts`.
    Equations are patterns over A, B, C, such as `A + ? = C`. `events` names what happens
    to the holder: `gain`, `lose`, `parts` or `compare`.
    """

    id: str
    title: str
    family: str
    roles: tuple[str, str, str]
    unknown: str
    situation_equation: str
    solution_equation: str
    operation: str
    grade: str
    sought: bool
    wording: str

    @property
    def both_parts(self) -> bool:
        """Whether the situation asks for all pairs of parts."""
        return self.unknown == "parts"

    def triple(self, numbers: Mapping[str, int]) -> Triple:
        """The triple of `numbers`, given by role."""
        return Triple(*(numbers[role] for role in self.roles))
