"""Capitals stand at the start of a sentence and on names, and nowhere else."""

from collections.abc import Iterator

from storybank.checks import _spoiling
from storybank.checks._context import Context
from storybank.checks._line import Token
from storybank.checks._reading import EVERYWHERE, Reading
from storybank.checks._rules import Rules
from storybank.checks._shape import judged_lines
from storybank.model import Problem

TITLE = "Capital letters"
PARTS = EVERYWHERE


def line_faults(read: Reading, rules: Rules) -> Iterator[str]:
    """A fault for each capital too many or too few."""
    proper, lowered = rules.lexicon.proper, rules.lexicon.lowered
    for place, token in enumerate(read.line.tokens):
        if token.has("name", "num", "mark"):
            continue
        if place == 0 and not token.text[0].isupper():
            yield f'"{token.text}" opens the sentence and needs a capital.'
        for word in token.text.split():
            if place and word.lower() != word and word not in proper:
                yield f'"{word}" has a capital in the middle of the sentence.'
            elif place and word in lowered:
                yield f'"{word}" is written with a capital.'
        if place == 0 and not _first_ok(token, proper):
            yield f'"{token.text}" has a capital beyond its first letter.'


def _first_ok(token: Token, proper: frozenset[str]) -> bool:
    return token.text in proper or token.text[1:] == token.text[1:].lower()


def judge(problem: Problem, context: Context) -> list[str]:
    """Which words of a problem have a capital too many or too few."""
    return judged_lines(line_faults, PARTS, problem, context)


def spoil(problem: Problem) -> list[Problem]:
    """Samples with a small first letter, a capital inside, and a word in capitals."""
    return [
        *_spoiling.reasked(problem, "^How", "how"),
        *_spoiling.reasked(problem, "many", "Many"),
        *_spoiling.reasked(problem, "^How", "HOW"),
        *_spoiling.with_answer(problem, r"(\d+ )(\w)", r"\1X\2"),
    ]
