"""The number of words and the revised Spache grade are those of the text."""

from collections.abc import Iterator
from dataclasses import replace

from storybank.checks._context import Context
from storybank.checks._line import NAMES
from storybank.checks._rules import Fault
from storybank.checks._shape import Shape, judged
from storybank.model import Problem, Reading
from storybank.vocabulary.measures import spache_grade, words_of

TITLE = "Reading figures"


def faults(shape: Shape) -> Iterator[Fault]:
    """A fault for each figure that is not that of the text; a name counts as one word."""
    texts = [line.text for line in shape.sentences]
    words = len(words_of("\n".join(texts)))
    if shape.words != words:
        yield -1, f"it has {words} words, and {shape.words} are claimed."
    if not words:
        return
    spache = spache_grade(texts, NAMES, shape.lexicon.bases)
    if abs(shape.spache - spache) > 0.05:
        yield -1, f"its Spache grade is {spache}, and {shape.spache} is claimed."


def judge(problem: Problem, context: Context) -> list[str]:
    """Which reading figures of a problem are wrong."""
    return judged(faults, problem, context)


def spoil(problem: Problem) -> list[Problem]:
    """Samples with a word too many and a grade too high."""
    reading = problem.reading
    return [
        replace(problem, reading=Reading(reading.words + 1, reading.spache)),
        replace(problem, reading=Reading(reading.words, round(reading.spache + 0.1, 1))),
    ]
