"""Counted nouns go with many and fewer, never with much and less; "how many" has a plural."""

from collections.abc import Iterator

from storybank.checks import _closed, _grammar, _spoiling
from storybank.checks._context import Context
from storybank.checks._rules import Fault
from storybank.checks._shape import Shape, judged
from storybank.model import Problem

TITLE = "Many and fewer"


def faults(shape: Shape) -> Iterator[Fault]:
    """A fault for each word of amount, and each "many" without a plural."""
    amounts = _closed.lists()["amount_words"]
    for at, line in enumerate((*shape.lines, shape.frame)):
        for place, token in enumerate(line.tokens):
            if token.low in amounts:
                yield (
                    at,
                    f'"{token.low}" is for amounts; with things to count write '
                    + (f'"{amounts[token.low]}".'),
                )
            if token.low == "many":
                head = _grammar.group_head(line, place + 1)
                if head is None or not line.tokens[head].has("n2"):
                    yield at, '"many" needs the plural of a thing behind it, as in "many apples".'


def judge(problem: Problem, context: Context) -> list[str]:
    """Where much, less or a singular stand for many and fewer."""
    return judged(TITLE, faults, problem, context)


def spoil(problem: Problem) -> list[Problem]:
    """Samples with much, with less, and with a singular behind "how many"."""
    return [
        *_spoiling.retold(problem, r"\bmany\b", "much"),
        *_spoiling.retold(problem, r"\bfewer\b", "less"),
        *_spoiling.reasked(problem, r"(How many (?:more |fewer |red )?\w+)s\b", r"\1"),
    ]
