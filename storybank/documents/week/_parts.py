"""What the pages of a week have in common: names of parts, and numbers of problems."""

from collections.abc import Iterable, Iterator

from storybank.model import Problem
from storybank.model.week import Day

NAMES = {
    "review": "Look Back",
    "model": "Worked Aloud",
    "together": "Together",
    "alone": "On Your Own",
    "home": "At Home",
    "exit": "Exit Ticket",
}
ALOUD = "model"
"""The part that the teacher works; its problems stand on no sheet for children."""


def numbered(day: Day) -> Iterator[tuple[str, int | None, Problem]]:
    """Each problem with its part and the number that it has on the sheets; none if worked aloud."""
    number = 0
    for part, made in day.parts.items():
        for problem in made.problems:
            if part != ALOUD:
                number += 1
            yield part, None if part == ALOUD else number, problem


def standards_of(problems: Iterable[Problem]) -> str:
    """The standards of problems, each once, kindergarten first."""
    codes = {code for one in problems for code in one.standards}
    return ", ".join(sorted(codes, key=lambda code: (not code.startswith("K"), code)))


def first_number(day: Day, part: str) -> int:
    """The number of the first problem of a part on the sheets."""
    return next(number for name, number, _ in numbered(day) if name == part and number is not None)
