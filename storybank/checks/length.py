"""Words a sentence, sentences, and words in all stay within the limits of the pack."""

from collections.abc import Iterator

from storybank.checks import _spoiling
from storybank.checks._context import Context
from storybank.checks._reading import Reading, once
from storybank.checks._rules import Fault, Rules
from storybank.checks._shape import Shape, judged
from storybank.model import Problem
from storybank.vocabulary.measures import words_of

TITLE = "Length"


def faults(shape: Shape) -> Iterator[Fault]:
    """A fault for each limit of length that is passed; a name counts as one word.

    A story with a further step may be as much longer as the pack says.
    """
    pack = shape.vocabulary
    counts = [once(_words, read, shape.rules) for read in shape.told]
    for at, count in enumerate(counts):
        most = pack.question_words if shape.sentences[at].asks else pack.statement_words
        if count > most:
            yield at, f"it has {count} words; this level allows {most}. Shorten or split it."
    sentences = pack.sentences + shape.further * pack.further_sentences
    words = pack.words + shape.further * pack.further_words
    if len(counts) > sentences:
        yield -1, f"it has {len(counts)} sentences; this level allows {sentences}."
    if sum(counts) > words:
        yield -1, f"it has {sum(counts)} words in all; this level allows {words}."
    if len(counts) <= shape.questions:
        yield -1, "it asks without telling anything first. Write at least one statement."


def _words(read: Reading, rules: Rules) -> int:
    """How many words a sentence has."""
    return len(words_of(read.line.text))


def judge(problem: Problem, context: Context) -> list[str]:
    """Which limits of length a problem passes."""
    return judged(faults, problem, context)


def spoil(problem: Problem) -> list[Problem]:
    """Samples with a long statement, a long question, and too many sentences."""
    story = problem.story
    return [
        *_spoiling.retold(problem, r"\.$", " and more and more and more and more and more and so."),
        *_spoiling.reasked(problem, r"\?$", " then and now and then and now and then and now?"),
        _spoiling.with_sentences(problem, story.sentences[:1] * 6 + story.sentences[1:]),
        _spoiling.with_sentences(problem, story.sentences[-1:]),
    ]
