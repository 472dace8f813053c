"""A stands before a consonant sound, an before a vowel sound."""

import itertools
from collections.abc import Iterator

from storybank.checks import _spoiling
from storybank.checks._closed import article_for as article_for
from storybank.checks._context import Context
from storybank.checks._reading import TOLD_AND_ANSWERED, Reading
from storybank.checks._rules import Rules
from storybank.checks._shape import judged_lines
from storybank.model import Problem

TITLE = "A and an"
PARTS = TOLD_AND_ANSWERED


def line_faults(read: Reading, rules: Rules) -> Iterator[str]:
    """A fault for each article that does not go with the sound behind it."""
    words = " ".join(read.line.lows).split()
    for article, word in itertools.pairwise(words):
        if article in ("a", "an") and article != article_for(word):
            yield f'"{article} {word}" must be "{article_for(word)} {word}".'


def judge(problem: Problem, context: Context) -> list[str]:
    """Which articles of a problem are wrong."""
    return judged_lines(line_faults, PARTS, problem, context)


def spoil(problem: Problem) -> list[Problem]:
    """Samples with the other article."""
    return [
        *_spoiling.retold(problem, r"\ba (?=[^aeiou])", "an "),
        *_spoiling.retold(problem, r"\b(a|an) (?=[aeiou])", "a "),
        *_spoiling.retold(problem, r"\bthe (?=\w+\.)", "an "),
    ]
