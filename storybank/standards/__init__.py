"""Standards: the codes of the Common Core with their text, and a state's own mapping of codes."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from storybank import catalog
from storybank.later import later
from storybank.model import Problem

if TYPE_CHECKING:
    from storybank.standards._mapping import Entry, Mapping, read

__all__ = ["SOURCE", "Entry", "Mapping", "Standard", "common_core", "mapped", "read", "uncovered"]

SOURCE = "Common Core State Standards for Mathematics (2010); the texts are our own words"
_FILE = Path(__file__).parent / "_ccss.yaml"


@dataclass(frozen=True, slots=True)
class Standard:
    """A standard: its code, its grade, and what it asks for in our own words."""

    code: str
    grade: str
    text: str


@cache
def common_core() -> tuple[Standard, ...]:
    """The codes of the Common Core (CCSS-M) that problems can practise, by grade."""
    (entries,) = catalog.read_documents(_FILE)
    return tuple(Standard(str(one["code"]), str(one["grade"]), str(one["text"])) for one in entries)


def mapped(problems: Iterable[Problem], mapping: "Mapping | None") -> tuple[Problem, ...]:
    """The problems with the codes of a state's mapping in place of ours; with None as they are."""
    if mapping is None:
        return tuple(problems)
    return tuple(
        replace(
            problem,
            standards=codes,
            levels=tuple(replace(one, standards=codes) for one in problem.levels),
        )
        for problem in problems
        for codes in (mapping.codes(problem),)
    )


def uncovered(problems: Sequence[Problem], mapping: "Mapping | None") -> tuple[str, ...]:
    """A note of how many problems no entry of the mapping covers, and of which situations."""
    if mapping is None:
        return ()
    left = [one for one in problems if not one.standards]
    if not left:
        return ()
    of = Counter(" + ".join(mapping.situations_of(one)) for one in left)
    named = ", ".join(f"{name} ({count})" for name, count in sorted(of.items()))
    return (
        f"{mapping.name} has no entry for {len(left)} of {len(problems)} problems: {named}. They "
        "name no standard. Add entries for them, or choose situations and numbers that it has.",
    )


__getattr__ = later(__name__, dict.fromkeys(("Entry", "Mapping", "read"), "_mapping"))
