"""Passive, "if", negation and relative clauses only where the vocabulary pack allows them."""

from collections.abc import Iterator

from storybank.checks import _closed, _spoiling
from storybank.checks._context import Context
from storybank.checks._line import Line
from storybank.checks._reading import TOLD_AND_ANSWERED, Reading
from storybank.checks._rules import Rules
from storybank.checks._shape import judged_lines
from storybank.model import Problem

TITLE = "Plain sentence forms"
PARTS = TOLD_AND_ANSWERED


def line_faults(read: Reading, rules: Rules) -> Iterator[str]:
    """A fault for each form that the pack shuts out."""
    pack, line = rules.vocabulary, read.line
    for low in line.lows:
        if low in _closed.words("negations") and not pack.negation:
            yield f'"{low}" makes a negation. Say what is there instead.'
        if low in _closed.words("if_words") and not pack.if_clauses:
            yield f'"{low}" opens a condition. Say what happens as a fact.'
    if not pack.passive:
        for verb in read.verbs:
            if verb.passive:
                word = line.tokens[verb.at].text
                yield f'"{word}" behind "be" makes a passive. Say who does it.'
    clauses = _relatives(line)
    if clauses > pack.relative_clauses:
        yield (
            f"there are {clauses} relative clauses; this level allows "
            f"{pack.relative_clauses}. Write two sentences."
        )


def _relatives(line: Line) -> int:
    found = 0
    for at, token in enumerate(line.tokens):
        if token.has("rel") and at:
            before = line.tokens[at - 1]
            behind_noun = before.noun or before.has("name")
            found += behind_noun and (token.low != "that" or line.can(at + 1, "vs", "vb", "vd"))
    return found


def judge(problem: Problem, context: Context) -> list[str]:
    """Which sentences of a problem have a form that is too hard."""
    return judged_lines(line_faults, PARTS, problem, context)


def spoil(problem: Problem) -> list[Problem]:
    """Samples with a negation, a condition, a passive and a relative clause too many."""
    return [
        *_spoiling.retold(problem, r"\b(has|had|are|were) (?=\d)", r"\1 not "),
        *_spoiling.retold(problem, r"^Then ", "If "),
        *_spoiling.retold(problem, r"\bThere (are|were) (\d+ \w+)", r"\2 \1 picked"),
        *_spoiling.retold(problem, r"(\d+ \w+)\.$", r"\1 who have \1 which have \1."),
    ]
