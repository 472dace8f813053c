"""No word stands twice in a row."""

import itertools
from collections.abc import Iterator

from storybank.checks import _spoiling
from storybank.checks._context import Context
from storybank.checks._reading import EVERYWHERE, Reading
from storybank.checks._rules import Rules
from storybank.checks._shape import judged_lines
from storybank.model import Problem

TITLE = "No doubled words"
PARTS = EVERYWHERE


def line_faults(read: Reading, rules: Rules) -> Iterator[str]:
    """A fault for each word that is said twice in a row."""
    for one, other in itertools.pairwise(" ".join(read.line.lows).split()):
        if one == other:
            yield f'"{one}" stands twice in a row. Leave one out.'


def judge(problem: Problem, context: Context) -> list[str]:
    """Which words of a problem are doubled."""
    return judged_lines(line_faults, PARTS, problem, context)


def spoil(problem: Problem) -> list[Problem]:
    """Samples with a verb and an article said twice."""
    return [
        *_spoiling.reasked(problem, r"\bmany\b", "many many"),
        *_spoiling.retold(problem, r"\b(has|had|are|were|the)\b", r"\1 \1"),
        *_spoiling.with_answer(problem, r"\b(\w+)\.$", r"\1 \1."),
    ]
