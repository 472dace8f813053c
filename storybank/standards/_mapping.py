"""A state's own mapping: a YAML file that says which problems practise which of its codes."""

import re
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from storybank import catalog, situations
from storybank.cleaning import clean_text
from storybank.errors import PackError, RequestError, unknown_value
from storybank.located import At, Faults, ListAt, MappingAt
from storybank.model import Problem

NEEDED = ("code", "grade", "situations", "within")
KEYS = (*NEEDED, "steps", "units")
GRADES = ("K", *map(str, range(1, 9)))
LARGEST = 1000
_CODE = re.compile(r"[A-Za-z0-9](?:[A-Za-z0-9 .()/:_-]{0,38}[A-Za-z0-9)])?")
_UNIT = re.compile(r"[a-z]{1,20}")
_EXAMPLE = "- {code: 2.OA.1, grade: 2, situations: [join, compare], within: 100}"


@dataclass(frozen=True, slots=True)
class Entry:
    """A code with its grade and what practises it.

    `situations` are ids; every step of a problem must be one of them. The largest number of the
    problem lies from `low` to `high`. `steps` is the number of steps, None for any; `units` are
    the units one of which the story must have, `()` that it has none, None that either will do.
    """

    code: str
    grade: str
    situations: frozenset[str]
    low: int
    high: int
    steps: int | None = None
    units: tuple[str, ...] | None = None

    def covers(self, told: tuple[str, ...], largest: int, unit: str | None) -> bool:
        """Whether a problem of the situations `told`, one for each step, practises the code."""
        return (
            self.situations.issuperset(told)
            and self.low <= largest <= self.high
            and self.steps in (None, len(told))
            and (self.units is None or (unit in self.units if unit else not self.units))
        )


@dataclass(frozen=True, slots=True)
class Mapping:
    """A state's mapping: the name of its file without folders, and its entries in order."""

    name: str
    entries: tuple[Entry, ...]

    def codes(self, problem: Problem) -> tuple[str, ...]:
        """The codes that a problem practises, each once, in the order of the file."""
        told = self.situations_of(problem)
        parts = getattr(problem, "steps", ()) or (problem,)
        largest = max(number for part in parts for number in part.numbers.values())
        unit = getattr(getattr(problem, "story", None), "unit", getattr(problem, "unit", None))
        covering = (one for one in self.entries if one.covers(told, largest, unit))
        return tuple(dict.fromkeys(one.code for one in covering))

    @staticmethod
    def situations_of(problem: Problem) -> tuple[str, ...]:
        """The situation of each step of a problem; most problems have one step."""
        return tuple(one.situation for one in getattr(problem, "steps", ()) or (problem,))


def read(path: Path) -> Mapping:
    """The mapping in a file: a YAML list of entries with the keys `KEYS`.

    `situations` holds ids or families (join, separate, parts, compare), `within` a largest number
    or the smallest and the largest. Raises RequestError where there is no such file, and
    PackError with every fault by file and line.
    """
    shown = clean_text(path.name, 100)[0]
    if not path.is_file():
        raise RequestError(
            f'The file of standards "{shown}" is not there or no file. Check its name and folder, '
            "or leave --standards out for the codes of the Common Core."
        )
    documents = catalog.read_documents(path)
    node = documents[0] if len(documents) == 1 else None
    if not isinstance(node, ListAt) or not node:
        raise PackError(
            f"{shown}, line {getattr(node, 'line', 1)}: standards are a list of entries, and here "
            f"is none. Write one a line, for example: {_EXAMPLE}"
        )
    reader = _Reader(Faults(shown))
    entries = [reader.entry(one) for one in node]
    reader.faults.stop()
    return Mapping(shown, tuple(one for one in entries if one is not None))


class _Reader:
    """Reads the entries of one file and collects its faults."""

    def __init__(self, faults: Faults) -> None:
        self.faults = faults
        self.grades: dict[str, str] = {}
        every = [situations.get(name) for name in situations.ids()]
        self.families: dict[str, list[str]] = {}
        for one in every:
            self.families.setdefault(one.family, []).append(one.id)

    def entry(self, node: Any) -> Entry | None:
        if not isinstance(node, MappingAt):
            self.faults.add(node, f"an entry has keys with values, for example: {_EXAMPLE}")
            return None
        for key in node:
            if key not in KEYS:
                self.faults.add(key, unknown_value("key", clean_text(key, 60)[0], KEYS))
        missing = [key for key in NEEDED if key not in node]
        if missing:
            self.faults.add(
                node, f"the entry lacks {', '.join(missing)}. It needs {', '.join(NEEDED)}."
            )
            return None
        code, grade = self.code(node["code"]), self.grade(node["grade"])
        told, within = self.situations(node["situations"]), self.within(node["within"])
        steps = self.steps(node["steps"]) if "steps" in node else None
        units = self.units(node["units"]) if "units" in node else None
        if code and grade and self.grades.setdefault(code, grade) != grade:
            self.faults.add(
                node["grade"],
                f"{code} is of grade {grade} here and of grade {self.grades[code]} above. A code "
                "has one grade; correct one of them.",
            )
        if not (code and grade and told and within):
            return None
        return Entry(code, grade, told, *within, steps, units)

    def code(self, node: Any) -> str | None:
        if isinstance(node, At) and _CODE.fullmatch(node):
            return str(node)
        self.faults.add(
            node,
            f"{_shown('code', node)}. Write 1 to 40 letters, digits, full stops, hyphens, colons, "
            "slashes or brackets, such as 2.OA.1.",
        )
        return None

    def grade(self, node: Any) -> str | None:
        if isinstance(node, At) and node in GRADES:
            return str(node)
        self.faults.add(node, f"{_shown('grade', node)}. Write K or a number from 1 to 8.")
        return None

    def situations(self, node: Any) -> frozenset[str]:
        named = node if isinstance(node, ListAt) else [node]
        if not named or not all(isinstance(one, At) for one in named):
            self.faults.add(
                node, f"{_shown('situations', node)}. Write a list such as [join, part-unknown]."
            )
            return frozenset()
        found: set[str] = set()
        for one in named:
            if one in self.families:
                found.update(self.families[one])
            elif one in situations.ids():
                found.add(str(one))
            else:
                valid = (*self.families, *situations.ids())
                said = unknown_value("situation or family", clean_text(one, 60)[0], valid)
                self.faults.add(one, said)
        return frozenset(found)

    def within(self, node: Any) -> tuple[int, int] | None:
        texts = node if isinstance(node, ListAt) else ["1", node]
        numbers = [
            int(one)
            for one in texts
            if isinstance(one, str) and one.isascii() and one.isdigit() and len(one) <= 4
        ]
        if len(texts) == len(numbers) == 2 and 1 <= numbers[0] <= numbers[1] <= LARGEST:
            return numbers[0], numbers[1]
        self.faults.add(
            node,
            f"{_shown('within', node)}. Write the largest number, or the smallest and the largest: "
            f"100, or [21, 100]; whole numbers from 1 to {LARGEST}.",
        )
        return None

    def steps(self, node: Any) -> int | None:
        if isinstance(node, At) and node in ("1", "2"):
            return int(node)
        self.faults.add(node, f"{_shown('steps', node)}. Write 1 or 2, or leave the key out.")
        return None

    def units(self, node: Any) -> tuple[str, ...] | None:
        if isinstance(node, At) and node == "no":
            return ()
        if isinstance(node, ListAt) and node:
            texts = [str(one) for one in node if isinstance(one, At) and _UNIT.fullmatch(one)]
            if len(texts) == len(node):
                return tuple(texts)
        self.faults.add(
            node,
            f"{_shown('units', node)}. Write a list such as [cm, dollars], no for stories without "
            "a unit, or leave the key out.",
        )
        return None


def _shown(key: str, node: Any) -> str:
    """The key with its value as a person reads it."""
    if isinstance(node, At):
        return f'{key} is "{clean_text(node, 60)[0]}"'
    if isinstance(node, ListAt) and all(isinstance(one, At) for one in node):
        return f"{key} is [{clean_text(', '.join(node), 60)[0]}]"
    return f"{key} is no plain value"
