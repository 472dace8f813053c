"""A story with its names and numbers masked: what the rules of language are judged on.

Whether a sentence is good English does not depend on which name or number stands in it, only
on whether the number is 1; so a verdict is worked out once for each masked text and kept.
"""

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from hashlib import blake2b

from storybank import situations
from storybank.checks._context import Context
from storybank.checks._grammar import Verb
from storybank.checks._lexicon import Lexicon
from storybank.checks._line import NAMES, Line
from storybank.checks._reading import (
    ANSWER,
    FRAME,
    QUESTION,
    STATEMENT,
    LineFinder,
    Reading,
    faults_in,
    reading,
)
from storybank.checks._rules import Fault, Rules
from storybank.model import Problem, Situation, Story
from storybank.vocabulary import Vocabulary
from storybank.vocabulary.names import marked

Finder = Callable[["Shape"], Iterable[Fault]]
_MANY = re.compile(r"\d\d+|[02-9]")
_PRONOUNS = (" she ", " he ", "She ", "He ", " her", " him", " his", "Her", "Him", "His")
_FOREIGN = "\u00a4"
_BREAK = "\u240a"
BankLine = tuple[str, str | None, bool]
Key = tuple[str, str, tuple[str | None, ...], int, float, tuple[BankLine, ...]]


@dataclass(frozen=True, eq=False)
class Shape:
    """A masked story: its sentences (questions last), answer sentence and frame, read.

    `pronouns` belong to the masks of the people and are left out where no pronoun stands in the
    text; `words`, `spache` and `bank` are what the
    problem claims about its text, with a meaning or not for each word of the bank.
    """

    readings: tuple[Reading, ...]
    sentences: tuple[Line, ...]
    answer: Line
    frame: Line
    verbs: tuple[tuple[Verb, ...], ...]
    questions: int
    situation: Situation
    pronouns: tuple[str | None, ...]
    words: int
    spache: float
    bank: tuple[BankLine, ...]
    rules: Rules
    further: int = 0
    """How many further steps, or parts, the story tells; `situation` is that of the last step."""

    @property
    def lexicon(self) -> Lexicon:
        """The words of the theme."""
        return self.rules.lexicon

    @property
    def vocabulary(self) -> Vocabulary:
        """The vocabulary pack."""
        return self.rules.vocabulary

    @property
    def told(self) -> tuple[Reading, ...]:
        """The readings of `sentences`."""
        return self.readings[:-2]

    @property
    def statements(self) -> tuple[Line, ...]:
        """The sentences before the question."""
        return self.sentences[: -self.questions]

    @property
    def asking(self) -> tuple[Line, ...]:
        """The one question, or the two of both-parts-unknown."""
        return self.sentences[-self.questions :]


def key_of(problem: Problem, context: Context) -> Key:
    """Everything that the verdict on the language of a problem depends on."""
    figures = problem.reading
    told = "/".join(one.situation for one in problem.steps) or problem.situation
    if "part3" in problem.numbers:
        told = "/".join([told] * (len(problem.numbers) - 2))
    return story_key(problem.story, told, figures.words, figures.spache, context)


def story_key(story: Story, situation_id: str, words: int, spache: float, context: Context) -> Key:
    """Everything that the verdict on the language of a story with these figures depends on.

    Of a story of two steps the situations of both are given, with a stroke between them; of a sum
    of three parts its situation is given twice, of four three times.
    """
    sentences = story.sentences
    whole = "\n".join((*sentences, story.answer_sentence, story.answer_frame))
    if whole.count("\n") != len(sentences) + 1:
        whole = "\n".join(
            text.replace("\n", _BREAK)
            for text in (*sentences, story.answer_sentence, story.answer_frame)
        )
    people = story.people
    for mask in NAMES:
        if mask in whole and not any(mask in name for name in people):
            whole = whole.replace(mask, _FOREIGN)
    masks = list(zip(people, NAMES, strict=False))
    if len(masks) > 1 and len(masks[1][0]) > len(masks[0][0]):
        masks.reverse()
    others = (*NAMES, *people)
    for name, mask in masks:
        whole = marked(whole, name, mask, others)
    return (
        _MANY.sub("9", whole),
        situation_id,
        tuple([context.pronoun(name) for name in people]) if _has_pronoun(whole) else (),
        words,
        spache,
        tuple([(word.word, word.picture, bool(word.meaning)) for word in story.word_bank]),
    )


def _has_pronoun(text: str) -> bool:
    for word in _PRONOUNS:  # noqa: SIM110 - a loop is three times as fast as any() here
        if word in text:
            return True
    return False


def shape_of(key: Key, context: Context) -> Shape:
    """The story behind `key`, read."""
    text, situation_id, pronouns, words, spache, bank = key
    *before, last = situation_id.split("/")
    situation = situations.get(last)
    rules = context.rules
    *told, answer, frame = text.split("\n")
    questions = min(2 if situation.both_parts else 1, max(len(told) - 1, 1))
    first = len(told) - questions
    readings = (
        *[reading(one, STATEMENT, rules) for one in told[:first]],
        *[reading(one, QUESTION, rules) for one in told[first:]],
        reading(answer, ANSWER, rules),
        reading(frame, FRAME, rules),
    )
    lines = [read.line for read in readings]
    return Shape(
        readings=readings,
        sentences=tuple(lines[:-2]),
        answer=lines[-2],
        frame=lines[-1],
        verbs=tuple([read.verbs for read in readings[:-1]]),
        questions=questions,
        situation=situation,
        pronouns=pronouns,
        words=words,
        spache=spache,
        bank=bank,
        rules=rules,
        further=len(before),
    )


def verdict(
    line_finders: Sequence[tuple[str, tuple[str, ...], LineFinder]],
    finders: Sequence[tuple[str, Finder]],
    problem: Problem,
    context: Context,
) -> tuple[tuple[str, Fault], ...]:
    """What all finders, each with its name, find in a problem's language; remembered."""
    key = key_of(problem, context)
    rules = context.rules
    short = _digest(key)
    known = rules.verdict(short)
    if known is not None:
        return known
    found = tuple(faults_of(shape_of(key, context), line_finders, finders))
    rules.remember(short, found)
    return found


def _digest(key: Key) -> int:
    """A number of 128 bits for a key: a bank of a million texts need not be kept to be known."""
    return int.from_bytes(blake2b(repr(key).encode(), digest_size=16).digest(), "big")


def faults_of(
    shape: Shape,
    line_finders: Sequence[tuple[str, tuple[str, ...], LineFinder]],
    finders: Sequence[tuple[str, Finder]],
) -> Iterator[tuple[str, Fault]]:
    """What all finders, each with its name, find in a story."""
    for at, read in enumerate(shape.readings):
        for name, message in faults_in(read, line_finders, shape.rules):
            yield name, (at, message)
    for name, finder in finders:
        for fault in finder(shape):
            yield name, fault


def judged(finder: Finder, problem: Problem, context: Context) -> list[str]:
    """The messages of one finder about a problem."""
    shape = shape_of(key_of(problem, context), context)
    return [said(fault, problem) for fault in finder(shape)]


def judged_lines(
    finder: LineFinder, parts: tuple[str, ...], problem: Problem, context: Context
) -> list[str]:
    """The messages of one finder of single sentences about those parts of a problem."""
    shape = shape_of(key_of(problem, context), context)
    return [
        said((at, fault), problem)
        for at, read in enumerate(shape.readings)
        if read.part in parts
        for fault in finder(read, context.rules)
    ]


def said(fault: Fault, problem: Problem) -> str:
    """A fault as a message: where it is, the words, and what to do, with the real names."""
    at, message = fault
    story = problem.story
    where = f'the story "{story.text}"'
    if 0 <= at < len(story.sentences):
        where = f'sentence {at + 1}, "{story.sentences[at]}"'
    elif at == len(story.sentences):
        where = f'the answer sentence "{story.answer_sentence}"'
    elif at > len(story.sentences):
        where = f'the answer frame "{story.answer_frame}"'
    return f"In {where}: {named(message, story.people)}"


def named(message: str, people: Sequence[str]) -> str:
    """A message with the names of the people where their masks stand."""
    for mask, name in zip(NAMES, people, strict=False):
        message = message.replace(mask, name)
    return message
