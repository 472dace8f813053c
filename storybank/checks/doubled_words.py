"""No word stands twice in a row."""

import itertools
from collections.abc import Iterator

from storybank.checks import _spoiling
from storybank.checks._context import Context
from storybank.checks._rules import Fault
from storybank.checks._shape import Shape, judged
from storybank.model import Problem

TITLE = "No doubled words"


def faults(shape: Shape) -> Iterator[Fault]:
    """A fault for each word that is said twice in a row."""
    for at, line in enumerate((*shape.lines, shape.frame)):
        words = " ".join(line.lows).split()
        for one, other in itertools.pairwise(words):
            if one == other:
                yield at, f'"{one}" stands twice in a row. Leave one out.'


def judge(problem: Problem, context: Context) -> list[str]:
    """Which words of a problem are doubled."""
    return judged(TITLE, faults, problem, context)


def spoil(problem: Problem) -> list[Problem]:
    """Samples with a verb and an article said twice."""
    return [
        *_spoiling.reasked(problem, r"\bmany\b", "many many"),
        *_spoiling.retold(problem, r"\b(has|had|are|were|the)\b", r"\1 \1"),
        *_spoiling.with_answer(problem, r"\b(\w+)\.$", r"\1 \1."),
    ]
