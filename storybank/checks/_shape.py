"""A story with its names and numbers masked: what the rules of language are judged on.

Whether a sentence is good English does not depend on which name or number stands in it, only
on whether the number is 1; so a verdict is worked out once for each masked text and kept.
"""

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache

from storybank import situations
from storybank.checks import _grammar
from storybank.checks._context import Context
from storybank.checks._grammar import Verb
from storybank.checks._lexicon import Lexicon
from storybank.checks._line import NAMES, Line, read_line
from storybank.checks._rules import Fault, Rules
from storybank.model import Problem, Situation
from storybank.vocabulary import Vocabulary

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

    sentences: tuple[Line, ...]
    answer: Line
    frame: Line
    questions: int
    situation: Situation
    pronouns: tuple[str | None, ...]
    words: int
    spache: float
    bank: tuple[BankLine, ...]
    rules: Rules

    @property
    def lexicon(self) -> Lexicon:
        """The words of the theme."""
        return self.rules.lexicon

    @property
    def vocabulary(self) -> Vocabulary:
        """The vocabulary pack."""
        return self.rules.vocabulary

    @property
    def lines(self) -> tuple[Line, ...]:
        """The sentences and then the answer sentence."""
        return (*self.sentences, self.answer)

    @property
    def statements(self) -> tuple[Line, ...]:
        """The sentences before the question."""
        return self.sentences[: -self.questions]

    @property
    def asking(self) -> tuple[Line, ...]:
        """The one question, or the two of both-parts-unknown."""
        return self.sentences[-self.questions :]

    @cached_property
    def verbs(self) -> tuple[tuple[Verb, ...], ...]:
        """The verbs of each of `lines`."""
        return tuple(_grammar.verbs(line) for line in self.lines)


def key_of(problem: Problem, context: Context) -> Key:
    """Everything that the verdict on the language of a problem depends on."""
    story = problem.story
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
    for name, mask in masks:
        whole = _name(name).sub(mask, whole)
    return (
        _MANY.sub("9", whole),
        problem.situation,
        tuple([context.pronoun(name) for name in people]) if _has_pronoun(whole) else (),
        problem.reading.words,
        problem.reading.spache,
        tuple([(word.word, word.picture, bool(word.meaning)) for word in story.word_bank]),
    )


def _has_pronoun(text: str) -> bool:
    for word in _PRONOUNS:  # noqa: SIM110 - a loop is three times as fast as any() here
        if word in text:
            return True
    return False


@lru_cache(maxsize=8192)
def _name(name: str) -> re.Pattern[str]:
    """A pattern for a name that stands by itself; a name of nothing is found nowhere."""
    return re.compile(rf"(?<![\w'\u2019-]){re.escape(name)}(?![\w])" if name else r"(?!)")


def shape_of(key: Key, context: Context) -> Shape:
    """The story behind `key`, read."""
    text, situation_id, pronouns, words, spache, bank = key
    situation = situations.get(situation_id)
    lexicon = context.rules.lexicon
    *told, answer, frame = text.split("\n")
    questions = min(2 if situation.both_parts else 1, max(len(told) - 1, 1))
    first = len(told) - questions
    return Shape(
        sentences=tuple(read_line(one, at >= first, lexicon) for at, one in enumerate(told)),
        answer=read_line(answer, False, lexicon),
        frame=read_line(frame, False, lexicon),
        questions=questions,
        situation=situation,
        pronouns=pronouns,
        words=words,
        spache=spache,
        bank=bank,
        rules=context.rules,
    )


def verdict(
    finders: Sequence[tuple[str, Finder]], problem: Problem, context: Context
) -> tuple[tuple[str, Fault], ...]:
    """What the finders, each with its name, find in a problem's language; remembered."""
    key = key_of(problem, context)
    rules = context.rules
    known = rules.verdicts.get((key, len(finders), finders[0][0]))
    if known is not None:
        return known
    shape = shape_of(key, context)
    found = tuple((name, fault) for name, finder in finders for fault in finder(shape))
    rules.remember((key, len(finders), finders[0][0]), found)
    return found


def judged(name: str, finder: Finder, problem: Problem, context: Context) -> list[str]:
    """The messages of one finder about a problem."""
    return [said(fault, problem) for _, fault in verdict(((name, finder),), problem, context)]


def said(fault: Fault, problem: Problem) -> str:
    """A fault as a message: where it is, the words, and what to do, with the real names."""
    at, message = fault
    story = problem.story
    for mask, name in zip(NAMES, story.people, strict=False):
        message = message.replace(mask, name)
    where = f'the story "{story.text}"'
    if 0 <= at < len(story.sentences):
        where = f'sentence {at + 1}, "{story.sentences[at]}"'
    elif at == len(story.sentences):
        where = f'the answer sentence "{story.answer_sentence}"'
    elif at > len(story.sentences):
        where = f'the answer frame "{story.answer_frame}"'
    return f"In {where}: {message}"
