"""Capitals stand at the start of a sentence and on names, and nowhere else."""

from collections.abc import Iterator

from storybank.checks import _spoiling
from storybank.checks._context import Context
from storybank.checks._line import Token
from storybank.checks._rules import Fault
from storybank.checks._shape import Shape, judged
from storybank.model import Problem

TITLE = "Capital letters"


def faults(shape: Shape) -> Iterator[Fault]:
    """A fault for each capital too many or too few."""
    proper = shape.lexicon.proper
    lowered = {word.lower() for word in proper}
    for at, line in enumerate((*shape.lines, shape.frame)):
        for place, token in enumerate(line.tokens):
            if token.has("name", "num", "mark"):
                continue
            if place == 0 and not token.text[0].isupper():
                yield at, f'"{token.text}" opens the sentence and needs a capital.'
            for word in token.text.split():
                if place and word.lower() != word and word not in proper:
                    yield at, f'"{word}" has a capital in the middle of the sentence.'
                elif place and word in lowered:
                    yield at, f'"{word}" is written with a capital.'
            if place == 0 and not _first_ok(token, proper):
                yield at, f'"{token.text}" has a capital beyond its first letter.'


def _first_ok(token: Token, proper: frozenset[str]) -> bool:
    return token.text in proper or token.text[1:] == token.text[1:].lower()


def judge(problem: Problem, context: Context) -> list[str]:
    """Which words of a problem have a capital too many or too few."""
    return judged(TITLE, faults, problem, context)


def spoil(problem: Problem) -> list[Problem]:
    """Samples with a small first letter, a capital inside, and a word in capitals."""
    return [
        *_spoiling.reasked(problem, "^How", "how"),
        *_spoiling.reasked(problem, "many", "Many"),
        *_spoiling.reasked(problem, "^How", "HOW"),
        *_spoiling.with_answer(problem, r"(\d+ )(\w)", r"\1X\2"),
    ]
