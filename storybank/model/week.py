"""A finished week: its days with their parts, and what each day is about."""

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from storybank.model.counting import Count
from storybank.model.coverage import Coverage
from storybank.model.problem import BankWord, Problem, ProblemSet

WEEK_FORMAT = "storybank-week/1"
PARTS = ("review", "model", "together", "alone", "exit", "home")
"""What the problems of a day are for, in the order of the lesson."""


@dataclass(frozen=True, slots=True)
class Way:
    """A strategy as a week tells of it, in words for the teacher, a child and a family."""

    id: str
    title: str
    in_short: str
    teacher: str
    i_can: str
    at_home: str


@dataclass(frozen=True, slots=True)
class Chosen:
    """A problem of the day on which the child chooses: the way its numbers call for, and why.

    `beside` is the code of the problem that it stands beside, of the same kind of story, whose
    numbers do not call for that way; None for one by itself.
    """

    code: str
    way: Way
    why: str
    beside: str | None


@dataclass(frozen=True, slots=True)
class Day:
    """One day: `name` as a weekday, what is learned, and its problems by part.

    `way` is None on a day without a strategy of its own, and on the day on which the child
    chooses; that day has `choices`. `words` are those of the day, `pages` further kinds of page to
    be made of its problems.
    """

    name: str
    number: int
    way: Way | None
    goal: str
    words: tuple[BankWord, ...]
    counts: tuple[Count, ...]
    parts: Mapping[str, ProblemSet]
    choices: tuple[Chosen, ...]
    pages: tuple[str, ...] = ()

    @property
    def id(self) -> str:
        """The day as the beginning of a file's name: `1-monday`."""
        return f"{self.number}-{self.name.lower().replace(' ', '-')}"

    @property
    def problems(self) -> tuple[Problem, ...]:
        """All problems of the day in the order of the lesson."""
        return tuple(one for part in self.parts.values() for one in part.problems)

    def as_set(self) -> ProblemSet:
        """The day as one set, with the wishes of its first part."""
        first = next(iter(self.parts.values()))
        problems = self.problems
        return replace(first, request={**first.request, "count": len(problems)}, problems=problems)


@dataclass(frozen=True, slots=True)
class Kept:
    """A wish of the plan, what was asked and what the week holds, counted afresh."""

    day: str
    wish: str
    asked: str
    given: str
    met: bool

    def to_json(self) -> dict[str, Any]:
        """The row with its keys."""
        return {
            "day": self.day,
            "wish": self.wish,
            "asked": self.asked,
            "given": self.given,
            "met": self.met,
        }


@dataclass(frozen=True, slots=True)
class Week:
    """A finished week; `groups` are the vocabularies of its groups, the plainest first.

    `cast` are the names of the children in the stories, `ways` the strategies that the week
    teaches, in the order of the days; `plan` is the plan as it was read, every default filled in.
    """

    title: str
    themes: tuple[str, ...]
    seed: int
    groups: tuple[str, ...]
    days: tuple[Day, ...]
    cast: tuple[str, ...]
    ways: tuple[Way, ...]
    kept: tuple[Kept, ...]
    coverage: Coverage
    plan: Mapping[str, Any]
    version: str
    notes: tuple[str, ...] = ()

    @property
    def problems(self) -> tuple[Problem, ...]:
        """All problems of the week, day by day."""
        return tuple(one for day in self.days for one in day.problems)

    def at(self, problem_set: ProblemSet, group: str) -> ProblemSet:
        """A part told at the level of a group."""
        return problem_set.at_level(group) if problem_set.levels else problem_set

    def to_json(self) -> dict[str, Any]:
        """The week with its keys; problems stand in the sets of the days and here by their code."""
        return {
            "format": WEEK_FORMAT,
            "version": self.version,
            "plan": dict(self.plan),
            "groups": list(self.groups),
            "cast": list(self.cast),
            "days": [_day(one) for one in self.days],
            "asked_and_given": [one.to_json() for one in self.kept],
            "coverage": self.coverage.to_json(),
        }

    def to_text(self) -> str:
        """The week as JSON text, without a line feed at its end."""
        return json.dumps(self.to_json(), ensure_ascii=False, indent=1)


def _day(day: Day) -> dict[str, Any]:
    return {
        "id": day.id,
        "strategy": day.way.id if day.way else None,
        "goal": day.goal,
        "words": [{"word": one.word, "meaning": one.meaning} for one in day.words],
        "warm_up": [
            {"by": one.by, "back": one.back, "numbers": list(one.numbers)} for one in day.counts
        ],
        "parts": {name: _codes(made.problems) for name, made in day.parts.items()},
        "choices": [
            {"code": one.code, "strategy": one.way.id, "why": one.why, "beside": one.beside}
            for one in day.choices
        ],
    }


def _codes(problems: Sequence[Problem]) -> list[str]:
    return [one.code for one in problems]
