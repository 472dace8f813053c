"""A stands before a consonant sound, an before a vowel sound."""

import itertools
from collections.abc import Iterator

from storybank.checks import _closed, _spoiling
from storybank.checks._context import Context
from storybank.checks._rules import Fault
from storybank.checks._shape import Shape, judged
from storybank.model import Problem

TITLE = "A and an"


def faults(shape: Shape) -> Iterator[Fault]:
    """A fault for each article that does not go with the sound behind it."""
    for at, line in enumerate(shape.lines):
        words = " ".join(line.lows).split()
        for article, word in itertools.pairwise(words):
            if article in ("a", "an") and article != article_for(word):
                yield at, f'"{article} {word}" must be "{article_for(word)} {word}".'


def article_for(word: str) -> str:
    """The article that stands before `word`, by its first sound."""
    if word in _closed.words("vowel_sound"):
        return "an"
    if word in _closed.words("consonant_sound"):
        return "a"
    return "an" if word[0] in "aeiou" else "a"


def judge(problem: Problem, context: Context) -> list[str]:
    """Which articles of a problem are wrong."""
    return judged(TITLE, faults, problem, context)


def spoil(problem: Problem) -> list[Problem]:
    """Samples with the other article."""
    return [
        *_spoiling.retold(problem, r"\ba (?=[^aeiou])", "an "),
        *_spoiling.retold(problem, r"\b(a|an) (?=[aeiou])", "a "),
        *_spoiling.retold(problem, r"\bthe (?=\w+\.)", "an "),
    ]
