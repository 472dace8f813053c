"""Finite verbs, modifiers and prepositional phrases a sentence stay within the pack's limits."""

from collections.abc import Iterator

from storybank.checks import _spoiling
from storybank.checks._context import Context
from storybank.checks._line import Line
from storybank.checks._reading import TOLD, Reading
from storybank.checks._rules import Rules
from storybank.checks._shape import judged_lines
from storybank.model import Problem

TITLE = "Density"
PARTS = TOLD


def line_faults(read: Reading, rules: Rules) -> Iterator[str]:
    """A fault for each sentence that carries too much at once."""
    pack = rules.vocabulary
    verbs = sum(verb.finite for verb in read.verbs)
    if verbs > pack.finite_verbs:
        yield f"it has {verbs} finite verbs; this level allows {pack.finite_verbs}."
    phrases = prepositional_phrases(read.line)
    if phrases > pack.prepositional_phrases:
        yield (
            f"it has {phrases} prepositional phrases; this level allows "
            f"{pack.prepositional_phrases}."
        )
    modifiers = most_modifiers(read.line)
    if modifiers > pack.modifiers:
        yield f"{modifiers} words describe one noun; this level allows {pack.modifiers}."


def prepositional_phrases(line: Line) -> int:
    """How many prepositions have a noun group behind them.

    A particle before a number (picks up 12) and a preposition at the end are none; neither is one
    behind "than" or "or", which says again in parallel where something is.
    """
    return sum(
        token.has("p")
        and not token.verb
        and line.low(at - 1) not in ("than", "or")
        and line.can(at + 1, "d", "d1", "name", "n1", "n2", "n", "adj", "x", "m", "pro", "q")
        for at, token in enumerate(line.tokens)
    )


def most_modifiers(line: Line) -> int:
    """The largest number of words between a number or article and its noun.

    More, fewer and other do not describe; the name of a thing of several words is one noun.
    """
    most = run = 0
    for at, token in enumerate(line.tokens):
        if token.has("n1", "n2", "n") and not line.can(at + 1, "n1", "n2", "n"):
            most = max(most, run)
            run = 0
        elif token.has("adj", "x", "m", "n1", "n") and not token.verb:
            run += 1
        else:
            run = 0
    return most


def judge(problem: Problem, context: Context) -> list[str]:
    """Which sentences of a problem carry too much at once."""
    return judged_lines(line_faults, PARTS, problem, context)


def spoil(problem: Problem) -> list[Problem]:
    """Samples with clause on clause, phrase on phrase, and modifier on modifier."""
    clause = problem.story.sentences[0].rstrip(".")
    return [
        *_spoiling.retold(problem, r"\.$", f" and {clause} and {clause}."),
        *_spoiling.retold(problem, r"\.$", " in the crate in the crate in the crate."),
        *_spoiling.retold(problem, r"(\d+ (?:more |fewer )?)", r"\1red green red "),
    ]
