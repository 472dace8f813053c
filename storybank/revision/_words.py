"""A story told in the teacher's own words: the problem with them, and what no longer holds."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from storybank import finished, generate, themes
from storybank.cleaning import clean_text
from storybank.errors import RequestError, StorybankError
from storybank.model import NumberSet, Problem, Reading, Story
from storybank.revision._hints import hints
from storybank.revision._laws import NUMERAL, laws, questions_of
from storybank.themes import selection
from storybank.vocabulary.measures import is_familiar
from storybank.vocabulary.names import replacing

MOST_LETTERS = 1200
_END = re.compile(r"[.?!]+[\"')\N{RIGHT DOUBLE QUOTATION MARK}\N{RIGHT SINGLE QUOTATION MARK}]*\s+")
_SHORT = re.compile(r"\b(?:Mr|Mrs|Ms|Dr|St)\.\s+$")
"""What ends with a point and no sentence."""
_CAPITAL = re.compile(r"\b[^\W\d_a-z][^\W\d_]+\b")
_HYPHENED = re.compile(r"\d+-(?=[a-z])")
_SOME = re.compile(r"(\d+)(?: (\w+))?")
_LAWS = frozenset({"question", "number-words"})
"""The checks whose word is a law of the problem; the others speak of plain and good English."""
_ASKING = frozenset({"question", "answer-sentence", "people"})
"""The checks that only repeat what `laws` says, where that finds something."""


@dataclass(frozen=True, slots=True)
class Words:
    """The teacher's own words: the story with its question last, and the answer sentence."""

    text: str
    answer_sentence: str = ""

    def check(self) -> None:
        """Nothing, if a story can be told in them. Raises RequestError else."""
        for name, text in (("story", self.text), ("answer sentence", self.answer_sentence)):
            if len(text) > MOST_LETTERS:
                raise RequestError(
                    f"the {name} has {len(text):,} letters, and at most {MOST_LETTERS:,} are "
                    "taken. Write a shorter one."
                )
        if not clean_text(self.text, MOST_LETTERS)[0]:
            raise RequestError(
                "the story is empty. Write it with its question last, or take ours back."
            )


@dataclass(frozen=True, slots=True)
class Fault:
    """Something that no longer holds; with `law` it spoils the problem, else it is a hint."""

    text: str
    law: bool


def reworded(
    problem: Problem, words: Words, request: Mapping[str, Any]
) -> tuple[Problem, tuple[Fault, ...]]:
    """The problem told in other words, and what the checks say of it, laws first.

    `request` is that of its set. Raises RequestError for words that are empty or too long.
    """
    words.check()
    told = _told(problem, words)
    faults = [Fault(one, True) for one in laws(problem, told)]
    broken = bool(faults)
    try:
        found = finished.findings(told, request)
    except StorybankError as error:
        found = [("theme", f"Its English was not checked: {str(error).rstrip('.')}.")]
    for check, message in hints(found):
        if not (check in _ASKING and broken):
            faults.append(Fault(message, check in _LAWS))
    faults.sort(key=lambda one: not one.law)
    return told, tuple(dict.fromkeys(faults))


def _told(problem: Problem, words: Words) -> Problem:
    story = problem.story
    sentences = tuple(_sentences(clean_text(words.text, MOST_LETTERS)[0]))
    answer = clean_text(words.answer_sentence, MOST_LETTERS)[0] or story.answer_sentence
    questions = questions_of(problem, len(sentences))
    told, asked = sentences[:-questions], sentences[-questions:]
    mark = "\n" if "\n" in story.text else " "
    text = mark.join(part for part in (" ".join(told), " ".join(asked)) if part)
    given = _given(problem, text)
    names = _names(story, text, answer)
    say = replacing({old: new for old, new in names.items() if new})
    new = replace(
        story,
        people=tuple(one for one in names.values() if one),
        sentences=sentences,
        text=text,
        given=given or story.given,
        answer_sentence=answer,
        answer_frame=_frame(story, answer),
        without_numbers=tuple(_without_numbers(problem, told)),
    )
    missing = problem.missing
    return replace(
        problem,
        story=new,
        number_sets=tuple(_sets(problem, given, answer)),
        missing=missing and replace(missing, ask=say(missing.ask)),
        reading=_reading(problem, new),
    )


def _sentences(text: str) -> Iterator[str]:
    """The sentences of a text that is clean and on one line."""
    begin = 0
    for found in _END.finditer(text):
        if not _SHORT.search(text[: found.end()]):
            yield text[begin : found.end()].strip()
            begin = found.end()
    if text[begin:]:
        yield text[begin:].strip()


def _given(problem: Problem, text: str) -> tuple[int, ...]:
    """The numbers of the problem in the order of the text; nothing where it has others."""
    unneeded = {one.number for one in problem.extra}
    found = [int(one) for one in NUMERAL.findall(text) if len(one) < 10]
    given = tuple([one for one in found if one not in unneeded])
    return given if sorted(given) == sorted(problem.story.given) else ()


def _names(story: Story, text: str, answer: str) -> dict[str, str]:
    """Whom the text names for each of the people: the same, a new name, or nobody any more."""
    gone = [one for one in story.people if one not in text]
    ours = set(_CAPITAL.findall(story.text))
    new = [
        one
        for one in dict.fromkeys(_CAPITAL.findall(text))
        if one not in ours and not is_familiar(one)
    ]
    names = {one: one if one in text or one in answer else "" for one in story.people}
    if len(new) == len(gone):
        names.update(
            (old, other) for old, other in zip(gone, new, strict=True) if old not in answer
        )
    return names


def _frame(story: Story, answer: str) -> str:
    """The frame of an answer sentence: a blank in place of its number; ours where it has none."""
    if answer == story.answer_sentence or not NUMERAL.search(answer):
        return story.answer_frame
    return NUMERAL.sub("___", answer)


def _sets(problem: Problem, given: tuple[int, ...], answer: str) -> Iterator[NumberSet]:
    """The number sets in the order in which the text tells numbers; none where it has others."""
    own = problem.story.given
    if not given:
        return
    order = [own.index(one) for one in given] if len(set(own)) == len(own) else range(len(own))
    for one in problem.number_sets:
        said = one.answer_sentence
        if answer != problem.story.answer_sentence:
            said = NUMERAL.sub(str(one.answer), answer)
        yield replace(one, given=tuple(one.given[at] for at in order), answer_sentence=said)


def _without_numbers(problem: Problem, told: Sequence[str]) -> Iterator[str]:
    """The sentences without their numbers: as they were where they are ours, else with "some"."""
    story = problem.story
    ours = dict(zip(story.sentences, story.without_numbers, strict=False))
    difference = str(problem.numbers.get("difference", ""))

    def some(found: re.Match[str]) -> str:
        word = found[2] or ""
        if found[1] == difference and word in ("more", "fewer"):
            return word
        begin = "Some" if found.start() == 0 else "some"
        return f"{begin} {word}".rstrip()

    for sentence in told:
        yield ours.get(sentence) or _SOME.sub(some, _HYPHENED.sub("", sentence))


def _reading(problem: Problem, story: Story) -> Reading:
    """The figures of the new text; those of ours where the theme is not on this machine."""
    try:
        theme = selection.without(themes.get(problem.theme), frozenset())
    except StorybankError:
        return problem.reading
    return generate.reading_of(story, theme)
