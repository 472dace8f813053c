"""A story told in the teacher's own words: the problem with them, and what no longer holds."""

import re
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from storybank import finished, generate, themes
from storybank.cleaning import clean_text
from storybank.errors import RequestError, StorybankError
from storybank.model import Problem
from storybank.themes import selection

MOST_LETTERS = 1200
_NUMERAL = re.compile(r"\d+")
_SENTENCE = re.compile(r"[^.?!]*[.?!]+[\"'\N{RIGHT DOUBLE QUOTATION MARK}]*|[^.?!]+$")
_SOME = re.compile(r"\b(\d+) (?=(\w+))")
_LAWS = frozenset(
    {"given", "text", "question", "answer-sentence", "answer-frame", "number-words", "people"}
)
"""The checks whose word is a law of the problem; the others speak of plain and good English."""
_NOT_HERS = frozenset({"reading-figures", "word-bank", "labels"})
"""The checks of what a teacher's words cannot change."""


@dataclass(frozen=True, slots=True)
class Words:
    """The teacher's own words: the story with its question last, and the answer sentence."""

    text: str
    answer_sentence: str = ""


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
    told = _told(problem, words)
    faults = [Fault(one, True) for one in _laws(problem, told)]
    try:
        found = finished.findings(told, request)
    except StorybankError as error:
        found = [("theme", f"The other checks were not made: {error}")]
    said = bool(faults)
    for check, message in found:
        if check in _NOT_HERS or (said and check in ("given", "text")):
            continue
        faults.append(Fault(message, check in _LAWS))
    faults.sort(key=lambda one: not one.law)
    return told, tuple(dict.fromkeys(faults))


def _told(problem: Problem, words: Words) -> Problem:
    story = problem.story
    sentences = tuple(_sentences(words.text))
    if not sentences:
        raise RequestError(
            "The story is empty. Write it with its question last, or take ours back."
        )
    answer, _ = clean_text(words.answer_sentence or story.answer_sentence, MOST_LETTERS)
    questions = 2 if problem.unknown == "parts" and len(sentences) > 2 else 1
    told, asked = sentences[:-questions], sentences[-questions:]
    mark = "\n" if "\n" in story.text else " "
    text = mark.join(part for part in (" ".join(told), " ".join(asked)) if part)
    numerals = [int(one) for one in _NUMERAL.findall(text) if len(one) < 10]
    unneeded = {one.number for one in problem.extra}
    given = tuple(one for one in numerals if one not in unneeded)
    new = replace(
        story,
        sentences=sentences,
        text=text,
        given=given if sorted(given) == sorted(story.given) else story.given,
        answer_sentence=answer,
        answer_frame=_frame(problem, answer),
        without_numbers=tuple(_without_numbers(problem, told)),
    )
    reading = problem.reading
    try:
        theme = selection.without(themes.get(problem.theme), frozenset())
        reading = generate.reading_of(new, theme)
    except StorybankError:
        pass
    return replace(problem, story=new, reading=reading)


def _sentences(text: str) -> Iterator[str]:
    """The sentences of a text, each clean and on one line."""
    if len(text) > MOST_LETTERS:
        raise RequestError(
            f"The story has {len(text):,} letters, and at most {MOST_LETTERS:,} are taken. Write a "
            "shorter one."
        )
    for found in _SENTENCE.finditer(text.replace("\r", "\n")):
        clean, _ = clean_text(found[0], MOST_LETTERS)
        if clean:
            yield clean


def _frame(problem: Problem, answer: str) -> str:
    """The frame of an answer sentence: a blank in place of its number."""
    story = problem.story
    if answer == story.answer_sentence:
        return story.answer_frame
    return _NUMERAL.sub("___", answer)


def _without_numbers(problem: Problem, told: tuple[str, ...]) -> Iterator[str]:
    """The sentences without their numbers: as they were where they are ours, else with "some"."""
    story = problem.story
    ours = dict(zip(story.sentences, story.without_numbers, strict=False))
    difference = str(problem.numbers.get("difference", ""))
    for sentence in told:
        if sentence in ours:
            yield ours[sentence]
            continue

        def some(found: re.Match[str]) -> str:
            if found[1] == difference and found[2] in ("more", "fewer"):
                return ""
            return "some "

        yield _SOME.sub(some, sentence)


def _laws(problem: Problem, told: Problem) -> Iterator[str]:
    """What of the numbers, the question and the answer no longer holds, in a teacher's words."""
    story = told.story
    wanted = Counter([*map(str, problem.story.given), *(str(one.number) for one in problem.extra)])
    found = Counter(_NUMERAL.findall(story.text))
    gone, new = wanted - found, found - wanted
    answer = str(problem.answer)
    for number in gone:
        yield f"The number {number} is missing. Nobody can find the answer without it."
    for number in new:
        if number == answer:
            yield f"The answer, {number}, is given away in the story."
        else:
            yield f"The number {number} stands in the story, and the problem does not have it."
    if not story.sentences[-1].endswith("?"):
        yield "The last sentence is no question. End with the question and its question mark."
    if isinstance(problem.answer, int):
        in_answer = _NUMERAL.findall(story.answer_sentence)
        if in_answer != [answer]:
            yield f"The answer sentence must tell the answer, {answer}, once and no other number."
    for name in problem.story.people:
        if name in problem.story.answer_sentence and name not in story.text:
            yield f"{name} is not in the story any more, and the answer is about {name}."
