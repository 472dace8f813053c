"""A question ends with a question mark, every other sentence with a full stop; tidy marks."""

import re
from collections.abc import Iterator

from storybank.checks import _spoiling
from storybank.checks._context import Context
from storybank.checks._line import BLANK, Token
from storybank.checks._reading import EVERYWHERE, Reading
from storybank.checks._rules import Rules
from storybank.checks._shape import judged_lines
from storybank.model import Problem

TITLE = "Punctuation"
PARTS = EVERYWHERE
_BAD_COMMA = re.compile(r"\d[,.]\d")
_BAD_SPACE = re.compile(r"\s[\s,.?!]|^\s|\s$|[,.?!](?=\S)|[^\S ]")
_JOINED = re.compile(r"\d[^\W\d_]|[^\W\d_]\d")


def line_faults(read: Reading, rules: Rules) -> Iterator[str]:
    """A fault for each mark that is missing, wrong or badly spaced."""
    line = read.line
    end = "?" if line.asks else "."
    if not line.text.endswith(end):
        name = "a question mark" if line.asks else "a full stop"
        yield f"it must end with {name}."
    if _BAD_COMMA.search(line.text):
        yield "numbers are written in digits only, without commas or points in them."
    elif _BAD_SPACE.search(line.text):
        yield "one space stands between words and behind a comma, none before a mark."
    elif _JOINED.search(line.text):
        yield "one space stands between a number and a word."
    for token in line.tokens[:-1]:
        if token.has("mark") and token.low != ",":
            yield f'the mark "{token.text}" has no place inside a sentence of a story.'
        elif token.low == "," and not _comma_belongs(read, token):
            yield "a comma stands before and, but or or, or behind an opening such as In the end."
    if line.tokens and line.tokens[0].has("num") and line.tokens[0].text != BLANK:
        yield "no sentence begins with a digit. Put a word before it."
    if not line.tokens or line.tokens[0].has("mark"):
        yield "it must begin with a word."


def _comma_belongs(read: Reading, comma: Token) -> bool:
    """Whether a comma parts two clauses, or an opening from the clause behind it."""
    tokens = read.line.tokens
    at = next(place for place, token in enumerate(tokens) if token is comma)
    if read.line.can(at + 1, "c"):
        return any(verb.finite and verb.at < at for verb in read.verbs)
    return at > 0 and tokens[0].has("p", "r", "f") and tokens[0].low != "how"


def judge(problem: Problem, context: Context) -> list[str]:
    """Which marks of a problem are wrong."""
    return judged_lines(line_faults, PARTS, problem, context)


def spoil(problem: Problem) -> list[Problem]:
    """Samples with wrong end marks, commas in numerals, double spaces and a digit in front."""
    return [
        *_spoiling.reasked(problem, r"\?$", "."),
        *_spoiling.retold(problem, r"\.$", "!"),
        *_spoiling.retold(problem, r"\.$", ""),
        *_spoiling.retold(problem, r"(\d)(\d)", r"\1,\2"),
        *_spoiling.reasked(problem, " ", "  "),
        *_spoiling.reasked(problem, " ", " ; "),
        *_spoiling.reasked(problem, r" (does|did|is|are|were) ", r", \1 "),
        *_spoiling.retold(problem, r"(\d) ", r"\1"),
        *_spoiling.retold(problem, r"^.*?(\d+ )", r"\1"),
        *_spoiling.with_answer(problem, r"^.*?(\d+ )", r"\1"),
    ]
