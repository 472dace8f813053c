"""Words stand in order: article or number, more or fewer, adjective, noun, preposition."""

from collections.abc import Iterator

from storybank.checks import _spoiling
from storybank.checks._context import Context
from storybank.checks._line import Line, Token
from storybank.checks._reading import EVERYWHERE, Reading
from storybank.checks._rules import Rules
from storybank.checks._shape import judged_lines
from storybank.model import Problem

TITLE = "Word order"
PARTS = EVERYWHERE
_ARTICLES = ("a", "an", "the", "some")
_COMPARING = ("more", "fewer")


def line_faults(read: Reading, rules: Rules) -> Iterator[str]:
    """A fault for each word that stands where it cannot."""
    for place in range(len(read.line.tokens)):
        yield from _misplaced(read.line, place)


def _misplaced(line: Line, place: int) -> Iterator[str]:
    token = line.tokens[place]
    before = line.tokens[place - 1] if place else None
    if token.low in _ARTICLES and not line.can(place + 1, "adj", "n1", "n2", "n", "x", "m", "q"):
        yield f'"{token.text}" has no noun behind it.'
    if token.low == "than" and not line.can(
        place + 1, "name", "adj", "n1", "n2", "n", "x", "m", "p", "d", "d1"
    ):
        yield 'behind "than" nobody and nothing is named.'
    if (
        token.low in _COMPARING
        and (before is None or not (before.has("num", "dm", "unit") or before.low == "many"))
        and not _without_a_number(line, place)
    ):
        yield f'"{token.text}" must stand right behind a number, "how many" or "some".'
    if before is None or not before.noun or before.has("adj", "q"):
        return
    if token.low in _ARTICLES or token.has("name"):
        if not before.verb:
            yield f'between "{before.text}" and "{token.text}" a word is missing, such as "in".'
    elif _describes(token) and before.has("n2"):
        yield f'"{token.text}" must stand before the noun it describes.'


def _without_a_number(line: Line, place: int) -> bool:
    """Whether the sentence compares without telling by how many: Ben had more apples than Ana."""
    return (
        line.tokens[place - 1].verb
        and "than" in line.lows[place:]
        and not any(token.has("num") for token in line.tokens)
    )


def _describes(token: Token) -> bool:
    """Whether a word can only describe a noun behind it; "long" may stand behind an amount."""
    return token.has("adj") and not (token.noun or token.verb or token.has("dim"))


def judge(problem: Problem, context: Context) -> list[str]:
    """Which words of a problem stand where they cannot."""
    return judged_lines(line_faults, PARTS, problem, context)


def spoil(problem: Problem) -> list[Problem]:
    """Samples with an article at the end, no preposition, "more" and an adjective misplaced."""
    return [
        *_spoiling.retold(problem, r"\b(a|the) \w+\.$", r"\1."),
        *_spoiling.retold(problem, r"(\d+ \w+) (in|on|from) (a|the)\b", r"\1 \3"),
        *_spoiling.retold(problem, r"(\d+) (more|fewer) ", r"\2 \1 "),
        *_spoiling.retold(problem, r"(\d+) (red|green) (\w+)", r"\1 \3 \2"),
        *_spoiling.retold(problem, r"than \w+", "than"),
    ]
