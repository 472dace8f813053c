"""A singular has an article before it; a, each go with a singular, some and other with a plural."""

from collections.abc import Iterator

from storybank.checks import _grammar, _spoiling
from storybank.checks._context import Context
from storybank.checks._line import Line
from storybank.checks._reading import TOLD_AND_ANSWERED, Reading
from storybank.checks._rules import Rules
from storybank.checks._shape import judged_lines
from storybank.model import Problem

TITLE = "Nouns and their articles"
PARTS = TOLD_AND_ANSWERED


def line_faults(read: Reading, rules: Rules) -> Iterator[str]:
    """A fault for each bare singular, and each determiner with the wrong form."""
    line = read.line
    for place, token in enumerate(line.tokens):
        if token.has("d1", "dm"):
            yield from _determiner(line, place)
        if _needs_article(read, place):
            start = _grammar.group_start(line, place)
            if line.low(start) != "many" and not line.can(start, "d", "d1", "dm", "num"):
                yield f'"{token.text}" needs an article or a number before it.'


def _needs_article(read: Reading, place: int) -> bool:
    """Whether a noun that is no plural, and describes no noun behind it, stands at `place`."""
    line = read.line
    token = line.tokens[place]
    if not token.has("n1", "n") or token.has("n2", "adj", "x"):
        return False
    if any(verb.at == place for verb in read.verbs):
        return False
    return not line.can(place + 1, "n1", "n2", "n", "x")


def _determiner(line: Line, place: int) -> Iterator[str]:
    token = line.tokens[place]
    head = _grammar.group_head(line, place + 1)
    if head is None:
        return
    noun = line.tokens[head]
    wanted = "n1" if token.has("d1") else "n2"
    if not noun.has(wanted, "n"):
        form = "singular" if token.has("d1") else "plural"
        yield f'"{token.text}" needs the {form}, and "{noun.text}" is none.'


def judge(problem: Problem, context: Context) -> list[str]:
    """Which nouns of a problem stand without what they need before them."""
    return judged_lines(line_faults, PARTS, problem, context)


def spoil(problem: Problem) -> list[Problem]:
    """Samples without an article, with "some" before a singular and "an" before a plural."""
    return [
        *_spoiling.retold(problem, r" (?:a|the) (\w+)", r" \1"),
        *_spoiling.retold(problem, r"\bsome (more )?(\w+)s\b", r"some \1\2"),
        *_spoiling.retold(problem, r"\bsome (more )?(\w+)s\b", r"a \2s"),
        *_spoiling.retold(problem, r"Each (\w+)", r"Each \1s"),
    ]
