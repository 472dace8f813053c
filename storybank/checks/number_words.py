"""Numbers are digits: no number words, and none of both, pair, dozen, half."""

from collections.abc import Iterator

from storybank.checks import _closed, _spoiling
from storybank.checks._context import Context
from storybank.checks._rules import Fault
from storybank.checks._shape import Shape, judged
from storybank.model import Problem

TITLE = "No number words"


def faults(shape: Shape) -> Iterator[Fault]:
    """A fault for each word that says a number."""
    words = _closed.words("number_words")
    for at, line in enumerate((*shape.lines, shape.frame)):
        for token in line.tokens:
            for part in token.low.split():
                if part in words:
                    yield (
                        at,
                        (
                            f'"{part}" says a number in words, which a child may take for a number '
                            "to work with. Write digits, or leave the word out."
                        ),
                    )


def judge(problem: Problem, context: Context) -> list[str]:
    """Which number words stand in a problem."""
    return judged(TITLE, faults, problem, context)


def spoil(problem: Problem) -> list[Problem]:
    """A sample with a number word for a numeral, and one with "both"."""
    return [
        *_spoiling.retold(problem, r"\d+", "seven"),
        *_spoiling.reasked(problem, r"\?", " both?"),
    ]
