"""The checks: each judges a finished problem afresh; no stage and no pack is trusted.

A check is a module with `TITLE`, `judge(problem, context)` and `spoil(problem)`, which gives
samples that it must catch. A check of language also has `faults(shape)`: its verdict holds for
every text that differs only in names and numbers, so it is worked out once for each. A check of
single sentences has `line_faults(read, rules)` instead, and `PARTS`, which it looks at.
"""

from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path
from typing import Protocol, cast

from storybank import catalog
from storybank.checks import _shape
from storybank.checks._context import Context, Somebody
from storybank.checks._reading import LineFinder, Reading
from storybank.checks._rules import Fault, Rules
from storybank.checks._shape import Finder
from storybank.errors import RequestError, unknown_value
from storybank.model import Problem, Story

__all__ = [
    "Check",
    "Context",
    "Somebody",
    "findings",
    "get",
    "ids",
    "judge",
    "keeps_limits",
    "language_faults",
]

FOLDER = Path(__file__).parent
_OF_FIGURES = ("reading-figures",)
"""Judged on problems only: a story by itself claims no figures."""
_LIMITING = (
    "density",
    "length",
    "plain-forms",
    "pronouns",
    "question",
    "tense",
    "unfamiliar-words",
    "word-bank",
)
"""The checks whose verdict hangs on the settings of the vocabulary pack."""


class Check(Protocol):
    """What each module of this folder offers."""

    TITLE: str

    @staticmethod
    def judge(problem: Problem, context: Context) -> list[str]:
        """What is wrong with a problem; nothing for a good one."""

    @staticmethod
    def spoil(problem: Problem) -> list[Problem]:
        """Samples made from a good problem that the check must catch; none where it cannot."""


class LineCheck(Check, Protocol):
    """A check that judges each sentence by itself."""

    PARTS: tuple[str, ...]

    @staticmethod
    def line_faults(read: Reading, rules: Rules) -> Iterable[str]:
        """What is wrong with a masked sentence."""


class LanguageCheck(Check, Protocol):
    """A check whose verdict depends on the masked text only."""

    @staticmethod
    def faults(shape: _shape.Shape) -> Iterable[Fault]:
        """What is wrong with a masked text."""


@cache
def ids() -> tuple[str, ...]:
    """The ids of all checks, sorted by name."""
    return catalog.entry_names(FOLDER, ".py")


@cache
def get(check_id: str) -> Check:
    """The check of that id. Raises RequestError, naming the valid ids, for any other."""
    if check_id not in ids():
        raise RequestError(unknown_value("check", check_id, ids()))
    return cast(Check, catalog.module_entries(__name__, FOLDER)[check_id])


def judge(problem: Problem, context: Context) -> tuple[str, ...]:
    """The messages of all checks about a problem, in the order of their names; none is best."""
    return tuple([message for _, message in findings(problem, context)])


def findings(problem: Problem, context: Context) -> list[tuple[str, str]]:
    """The same, each message behind the id of the check that says it."""
    found: list[tuple[str, str]] = [
        (name, _shape.said(fault, problem))
        for name, fault in _shape.verdict(_line_finders(), _finders(), problem, context)
    ]
    for name, check in _others():
        messages = check.judge(problem, context)
        if messages:
            found += [(name, message) for message in messages]
    found.sort(key=lambda one: one[0])
    return found


def language_faults(
    story: Story, situation_id: str, context: Context
) -> Iterator[tuple[str, int, str]]:
    """Each law of language that a told story breaks: the check, the sentence, the message.

    Sentences are counted from 0, with the answer sentence and its frame behind those of the
    story; -1 is the whole story. For finished problems there is `judge`.
    """
    shape = _shape.shape_of(_shape.story_key(story, situation_id, 0, 0.0, context), context)
    finders = [one for one in _finders() if one[0] not in _OF_FIGURES]
    for name, (at, message) in _shape.faults_of(shape, _line_finders(), finders):
        yield name, at, _shape.named(message, story.people)


def keeps_limits(story: Story, situation_id: str, context: Context) -> bool:
    """Whether a story of a situation stays within the limits of the context's vocabulary pack.

    To be asked where a pack is not one of ours as it stands, whose plans all are tested to.
    """
    return all(name not in _LIMITING for name, *_ in language_faults(story, situation_id, context))


@cache
def _line_finders() -> tuple[tuple[str, tuple[str, ...], LineFinder], ...]:
    checks = [(name, cast(LineCheck, get(name))) for name in _having("line_faults")]
    return tuple((name, one.PARTS, one.line_faults) for name, one in checks)


@cache
def _finders() -> tuple[tuple[str, Finder], ...]:
    return tuple((name, cast(LanguageCheck, get(name)).faults) for name in _having("faults"))


@cache
def _others() -> tuple[tuple[str, Check], ...]:
    language = (*_having("line_faults"), *_having("faults"))
    return tuple((name, get(name)) for name in ids() if name not in language)


def _having(function: str) -> tuple[str, ...]:
    return tuple(name for name in ids() if hasattr(get(name), function))
