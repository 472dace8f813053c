"""Every sentence has a verb, and every verb agrees with who does it; there is, there are."""

from collections.abc import Iterator

from storybank.checks import _spoiling
from storybank.checks._context import Context
from storybank.checks._grammar import Verb
from storybank.checks._line import Token
from storybank.checks._reading import TOLD_AND_ANSWERED, Reading
from storybank.checks._rules import Rules
from storybank.checks._shape import judged_lines
from storybank.model import Problem

TITLE = "Verbs agree"
PARTS = TOLD_AND_ANSWERED
_BE = {"is": "one", "was": "one", "are": "many", "were": "many"}


def line_faults(read: Reading, rules: Rules) -> Iterator[str]:
    """A fault for each verb that does not go with its subject, or has none."""
    if not any(verb.finite for verb in read.verbs):
        yield "there is no verb. Write a whole sentence."
    for verb in read.verbs:
        if verb.finite:
            yield from _disagrees(verb, read.line.tokens[verb.at])


def _disagrees(verb: Verb, token: Token) -> Iterator[str]:
    if not verb.subject:
        yield f'"{token.text}" has nobody or nothing before it that does it. Name it.'
    elif token.has("modal") or verb.subject in ("any", "there"):
        return
    elif token.has("be") or token.low in ("do", "does", "did"):
        wanted = {"do": "many", "does": "one"}.get(token.low, _BE.get(token.low, verb.subject))
        if wanted != verb.subject:
            yield _message(token.text, verb.subject)
    elif token.has("vp") and not token.has("vb", "vs", "vd"):
        yield f'"{token.text}" cannot stand without "have". Write the past form.'
    elif not token.has("vd", "vs" if verb.subject == "one" else "vb"):
        yield _message(token.text, verb.subject)


def _message(word: str, number: str) -> str:
    other = "one person or thing" if number == "one" else "more than one"
    return f'"{word}" does not go with its subject, which is {other}. Change the form.'


def judge(problem: Problem, context: Context) -> list[str]:
    """Which verbs of a problem do not agree."""
    return judged_lines(line_faults, PARTS, problem, context)


def spoil(problem: Problem) -> list[Problem]:
    """Samples with is for are, have for has, a bare base form, and no verb at all."""
    return [
        *_spoiling.retold(problem, r"\b([Tt]here) are\b", r"\1 is"),
        *_spoiling.retold(problem, r"\b([Tt]here) were\b", r"\1 was"),
        *_spoiling.retold(problem, r"\bare\b", "is"),
        *_spoiling.retold(problem, r"\bhas\b", "have"),
        *_spoiling.reasked(problem, r"\bdoes\b", "do"),
        *_spoiling.reasked(problem, r"\bdo\b", "does"),
        *_spoiling.retold(problem, r" (has|had|have) ", " "),
        *_spoiling.with_answer(problem, r"\bhas\b", "have"),
        *_spoiling.with_answer(problem, r"^There (are|were)", "There was 1 pear and there is"),
    ]
