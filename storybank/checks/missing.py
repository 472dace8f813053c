"""A number left out: it is needed, it is not told, and its question asks for it and tells none."""

import re
from collections.abc import Iterator
from dataclasses import replace

from storybank.checks._context import Context
from storybank.model import Missing, Problem

TITLE = "Missing number"
_NUMERAL = re.compile(r"\d+")
_UNTOLD = re.compile(r"\b[Ss]ome\b|\b(?:more|fewer)\b")


def judge(problem: Problem, context: Context) -> list[str]:
    """What is wrong with the number that a problem leaves out; nothing where it leaves out none."""
    return [] if problem.missing is None else list(_faults(problem.missing, problem))


def _faults(missing: Missing, problem: Problem) -> Iterator[str]:
    story = problem.story
    if missing.role == problem.unknown or missing.role not in problem.numbers:
        yield f'"{missing.role}" is no number that the story could leave out.'
        return
    number = problem.numbers[missing.role]
    if missing.number != number or number < 2:
        yield f"The {missing.role} is {number}, and {missing.number} is said; it must be above 1."
    if len(story.given) != 1:
        yield f"One number is left out, so one is told, not {story.given}."
    if not any(_UNTOLD.search(one) for one in story.sentences[:-1]):
        yield f'Nothing in "{story.text}" stands in the place of the number left out.'
    if not missing.ask.startswith("How many ") or not missing.ask.endswith("?"):
        yield f'"{missing.ask}" does not ask how many.'
    if _NUMERAL.search(missing.ask):
        yield f'"{missing.ask}" tells a number.'
    if missing.ask == story.question:
        yield f'"{missing.ask}" is what the story asks for already.'


def spoil(problem: Problem) -> list[Problem]:
    """Samples that leave out what they tell, ask for the answer, or tell a number in asking."""
    missing = problem.missing or Missing(problem.unknown, 2, "How many apples were there?")
    samples = [replace(missing, role=problem.unknown)]
    if problem.missing is not None:
        samples += [
            replace(missing, number=missing.number + 1),
            replace(missing, ask=problem.story.question),
            replace(missing, ask="What now?"),
            replace(missing, ask=missing.ask.replace("?", " of the 7?")),
        ]
    return [replace(problem, missing=one) for one in samples]
