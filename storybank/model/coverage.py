"""Coverage: what a set of problems covers, and what it does not."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True, slots=True)
class CoveredStep:
    """What coverage needs of a story, or of one step of a story in two steps.

    `operation` is `+`, `-`, or `list` where all pairs of parts are asked for; then there are no
    `parts`. `whole` is the largest number.
    """

    situation: str
    operation: str
    parts: tuple[int, ...]
    whole: int


@dataclass(frozen=True, slots=True)
class Covered:
    """What coverage needs of a problem; a finished problem and its JSON give the same.

    `levels` are the vocabularies at which it is told, several where they stand side by side.
    `further` is the same story with each of its further sets of numbers.
    """

    text: str
    standards: tuple[str, ...]
    strategies: tuple[str, ...]
    levels: tuple[str, ...]
    steps: tuple[CoveredStep, ...]
    unit: str | None = None
    further: tuple[CoveredStep, ...] = ()


@dataclass(frozen=True, slots=True)
class Cell:
    """A situation in the table of kinds and unknowns, and how many steps are told as it.

    `grade` is that of expected mastery (CCSS-M glossary, Table 1), None where it is not known.
    """

    situation: str
    kind: str
    unknown: str
    grade: str | None
    count: int


@dataclass(frozen=True, slots=True)
class StandardUse:
    """A code and how many problems practise it; the text only where the code is ours.

    `grade` is None for a state's code where its own mapping is not at hand.
    """

    code: str
    grade: str | None
    text: str
    count: int


@dataclass(frozen=True, slots=True)
class KeywordUse:
    """In how many stories a keyword stands, and of these with which operation.

    `both` are stories in two steps with an operation each, `neither` those that ask for all pairs.
    """

    word: str
    stories: int
    adding: int
    taking_away: int
    both: int
    neither: int


@dataclass(frozen=True, slots=True)
class Coverage:
    """What a set of problems, or several sets together, covers.

    Counted by step (a story in two steps counts twice): `cells`, `operations` and `regrouping`, of
    those `with_ones` that add or take away. Counted by problem: all else. A story with several sets
    of numbers counts with each of them in `sizes` and `regrouping`; `further_numbers` are those
    sets beside the first of each story. What nothing covers stands with 0 in `cells`, `strategies`,
    `operations`, `sizes` and `keywords`. `grades` are those of expected mastery.
    """

    problems: int
    steps: int
    cells: tuple[Cell, ...]
    grades: Mapping[str, int]
    operations: Mapping[str, int]
    regrouping: int
    with_ones: int
    sizes: Mapping[str, int]
    strategies: Mapping[str, int]
    without_strategy: int
    levels: Mapping[str, int]
    standards: tuple[StandardUse, ...]
    without_standard: int
    keywords: tuple[KeywordUse, ...]
    without_keyword: int
    two_steps: int
    three_addends: int
    units: Mapping[str, int]
    further_numbers: int = 0

    def beyond(self, grade: str) -> int:
        """How many steps are of situations whose mastery is expected only after `grade`."""
        order = list(self.grades)
        later = order[order.index(grade) + 1 :] if grade in order else []
        return sum(self.grades[one] for one in later)

    def to_json(self) -> dict[str, Any]:
        """The counts as JSON."""
        return {
            "format": "storybank-coverage/1",
            "problems": self.problems,
            "steps": self.steps,
            "situations": [
                {
                    "id": one.situation,
                    "kind": one.kind,
                    "unknown": one.unknown,
                    "grade": one.grade,
                    "count": one.count,
                }
                for one in self.cells
            ],
            "grades": dict(self.grades),
            "operations": dict(self.operations),
            "regroup": {"count": self.regrouping, "of": self.with_ones},
            "sizes": dict(self.sizes),
            "strategies": dict(self.strategies),
            "without_strategy": self.without_strategy,
            "levels": dict(self.levels),
            "standards": [
                {"code": one.code, "grade": one.grade, "text": one.text, "count": one.count}
                for one in self.standards
            ],
            "without_standard": self.without_standard,
            "keywords": [
                {
                    "word": one.word,
                    "count": one.stories,
                    "+": one.adding,
                    "-": one.taking_away,
                    "both": one.both,
                    "list": one.neither,
                }
                for one in self.keywords
            ],
            "without_keyword": self.without_keyword,
            "two_steps": self.two_steps,
            "three_addends": self.three_addends,
            "units": dict(self.units),
            "further_numbers": self.further_numbers,
        }
