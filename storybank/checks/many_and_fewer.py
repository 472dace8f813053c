"""Counted nouns go with many and fewer, never with much and less; "how many" has a plural."""

from collections.abc import Iterator

from storybank.checks import _closed, _grammar, _spoiling
from storybank.checks._context import Context
from storybank.checks._reading import EVERYWHERE, Reading
from storybank.checks._rules import Rules
from storybank.checks._shape import judged_lines
from storybank.model import Problem

TITLE = "Many and fewer"
PARTS = EVERYWHERE


def line_faults(read: Reading, rules: Rules) -> Iterator[str]:
    """A fault for each word of amount, and each "many" without a plural."""
    amounts = _closed.lists()["amount_words"]
    line = read.line
    for place, token in enumerate(line.tokens):
        if token.low in amounts and not token.has("dim"):
            yield (
                f'"{token.low}" is for amounts; with things to count write "{amounts[token.low]}".'
            )
        if token.low == "many":
            head = _grammar.group_head(line, place + 1)
            if head is None or not line.tokens[head].has("n2"):
                yield '"many" needs the plural of a thing behind it, as in "many apples".'


def judge(problem: Problem, context: Context) -> list[str]:
    """Where much, less or a singular stand for many and fewer."""
    return judged_lines(line_faults, PARTS, problem, context)


def spoil(problem: Problem) -> list[Problem]:
    """Samples with much, with less, and with a singular behind "how many"."""
    return [
        *_spoiling.retold(problem, r"\bmany\b", "much"),
        *_spoiling.retold(problem, r"\bfewer\b", "less"),
        *_spoiling.reasked(problem, r"(How many (?:more |fewer |red )?\w+)s\b", r"\1"),
    ]
