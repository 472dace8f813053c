"""Behind a number stands the thing in the right form: 1 apple, 46 apples, 1 more apple."""

from collections.abc import Iterator

from storybank.checks import _grammar, _spoiling
from storybank.checks._context import Context
from storybank.checks._reading import EVERYWHERE, Reading
from storybank.checks._rules import Rules
from storybank.checks._shape import judged_lines
from storybank.model import Problem

TITLE = "Number and noun"
PARTS = EVERYWHERE


def line_faults(read: Reading, rules: Rules) -> Iterator[str]:
    """A fault for each number without its noun, or with the wrong form of it."""
    line = read.line
    for place, token in enumerate(line.tokens):
        if not token.has("num"):
            continue
        part_of = line.low(place + 1) == "of" and line.can(place + 2, "d")
        head = _grammar.group_head(line, place + (3 if part_of else 1))
        if head is None:
            yield "a number stands without the thing that is counted. Name it behind it."
            continue
        noun = line.tokens[head]
        if not noun.has("n2" if part_of or not token.has("one") else "n1"):
            form = "plural" if part_of or not token.has("one") else "singular"
            yield f'"{noun.text}" must be in the {form} behind its number.'


def judge(problem: Problem, context: Context) -> list[str]:
    """Which numbers of a problem have no noun or the wrong form of it."""
    return judged_lines(line_faults, PARTS, problem, context)


def spoil(problem: Problem) -> list[Problem]:
    """Samples with a singular behind 2 or more, a plural behind 1, and a bare number."""
    return [
        *_spoiling.retold(problem, r"(\b(?:[2-9]|\d\d+) (?:more |fewer )?)(\w+)s\b", r"\1\2"),
        *_spoiling.retold(problem, r"(\b1 (?:more |fewer )?)(\w+)\b", r"\1\2s"),
        *_spoiling.retold(problem, r"(\d+) (?:more |fewer )?\w+\.$", r"\1."),
        *_spoiling.with_answer(problem, r"(\b(?:[2-9]|\d\d+) (?:more |fewer )?)(\w+)s\b", r"\1\2"),
    ]
