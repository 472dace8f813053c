"""Numbers are digits: no number words, and none of both, pair, dozen, half."""

from collections.abc import Iterator

from storybank.checks import _closed, _spoiling
from storybank.checks._context import Context
from storybank.checks._reading import EVERYWHERE, Reading
from storybank.checks._rules import Rules
from storybank.checks._shape import judged_lines
from storybank.model import Problem

TITLE = "No number words"
PARTS = EVERYWHERE


def line_faults(read: Reading, rules: Rules) -> Iterator[str]:
    """A fault for each word that says a number."""
    words = _closed.words("number_words")
    for token in read.line.tokens:
        for part in token.low.split():
            if part in words:
                yield (
                    f'"{part}" says a number in words, which a child may take for a number '
                    "to work with. Write digits, or leave the word out."
                )


def judge(problem: Problem, context: Context) -> list[str]:
    """Which number words stand in a problem."""
    return judged_lines(line_faults, PARTS, problem, context)


def spoil(problem: Problem) -> list[Problem]:
    """A sample with a number word for a numeral, and one with "both"."""
    return [
        *_spoiling.retold(problem, r"\d+", "seven"),
        *_spoiling.reasked(problem, r"\?", " both?"),
    ]
