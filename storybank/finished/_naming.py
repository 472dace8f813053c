"""Tells a finished problem of other people: every text with their names in place of the old."""

import re
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace

from storybank.errors import RequestError
from storybank.model import BankWord, NumberSet, Problem, Solution, Step, Story
from storybank.people import Person
from storybank.vocabulary.measures import is_familiar
from storybank.vocabulary.names import replacing

Say = Callable[[str], str]
_PRONOUN = re.compile(r"\b(he|she)\b", re.IGNORECASE)
_LETTER = re.compile(r"[a-z]")
MASKS = ("\0a", "\0b")
"""What stands for the first and the second person while other names are looked for."""


def renamed(problem: Problem, people: Sequence[Person]) -> Problem:
    """The problem told of `people`, one for each of `problem.story.people` in their order.

    Their names stand in all texts: the story at every level, its answers, frames, and what is said
    of the numbers. A name is found as a word of its own, with its capitals, the longest first; in
    what is said of the numbers, where no story tells of anybody, a name that is an English word
    (May, Will) stays, since it is the word there. Raises RequestError where the number of people
    differs, two have one name, or the text says he or she of somebody who is not.
    """
    old = problem.story.people
    _check(problem, people)
    new = tuple([one.name for one in people])
    if new == old:
        return problem
    told = replacing(dict(zip(old, new, strict=True)))
    plain = replacing({a: b for a, b in zip(old, new, strict=True) if not _is_word(a)})
    return _said(problem, new, told, plain)


def pronouns(problem: Problem) -> tuple[str | None, ...]:
    """Of each person the pronoun, he or she, that the texts use; None where the name is said again.

    Pronouns stand for the first person only: the second is always named.
    """
    found: list[str | None] = [None] * len(problem.story.people)
    if found:
        for sentence in masked(problem):
            said = _PRONOUN.search(sentence)
            if said:
                found[0] = said[1].lower()
                break
    return tuple(found)


def masked(problem: Problem) -> Iterator[str]:
    """The sentences of a problem at all its levels, with a mask for each name."""
    say = replacing(dict(zip(problem.story.people, MASKS, strict=False)))
    for one in (problem, *problem.levels):
        yield from map(say, one.story.sentences)


def texts(problem: Problem) -> Iterator[str]:
    """What the story of a problem tells and asks at all its levels, with a mask for each name."""
    say = replacing(dict(zip(problem.story.people, MASKS, strict=False)))
    for one in (problem, *problem.levels):
        story = one.story
        yield from map(say, (*story.sentences, *story.without_numbers, story.answer_sentence))


def ambiguous(problem: Problem) -> bool:
    """Whether the second person is named before a pronoun, which then must not fit both."""
    for one in (problem, *problem.levels):
        text = " ".join(masked(replace(one, levels=())))
        last = max((said.start() for said in _PRONOUN.finditer(text)), default=-1)
        if -1 < text.find(MASKS[1]) < last:
            return True
    return False


def _check(problem: Problem, people: Sequence[Person]) -> None:
    count = len(problem.story.people)
    if len(people) != count or len({one.name for one in people}) < count:
        raise RequestError(
            f"The problem {problem.code} tells of {count} people, and {len(people)} were named for "
            f"it. Name {count} with different names."
        )
    for person, pronoun in zip(people, pronouns(problem), strict=True):
        if not person.name or (pronoun is not None and person.pronoun != pronoun):
            raise RequestError(
                f'The problem {problem.code} says "{pronoun}" of somebody, and that is not the '
                f'pronoun of "{person.name}". Name somebody else.'
            )


def _is_word(name: str) -> bool:
    """Whether a name is an English word as well."""
    low = name.lower()
    return low == "i" or (_LETTER.search(low) is not None and is_familiar(low))


def _said(problem: Problem, people: tuple[str, ...], told: Say, plain: Say) -> Problem:
    missing, second = problem.missing, problem.second_way
    return replace(
        problem,
        story=_story(problem.story, people, told, plain),
        solution=_solution(problem.solution, plain),
        watch_for=tuple([replace(one, says=plain(one.says)) for one in problem.watch_for]),
        second_way=second and replace(second, solution=_solution(second.solution, plain)),
        number_sets=tuple([_number_set(one, told, plain) for one in problem.number_sets]),
        extra=tuple([replace(one, things=plain(one.things)) for one in problem.extra]),
        missing=missing and replace(missing, ask=told(missing.ask)),
        steps=tuple([_step(one, plain) for one in problem.steps]),
        levels=tuple([_said(one, people, told, plain) for one in problem.levels]),
    )


def _story(story: Story, people: tuple[str, ...], told: Say, plain: Say) -> Story:
    return replace(
        story,
        people=people,
        sentences=_all(told, story.sentences),
        text=told(story.text),
        answer_sentence=told(story.answer_sentence),
        answer_frame=told(story.answer_frame),
        without_numbers=_all(told, story.without_numbers),
        talk_frames=_all(plain, story.talk_frames),
        word_bank=tuple([_word(one, plain) for one in story.word_bank]),
    )


def _word(word: BankWord, plain: Say) -> BankWord:
    return replace(
        word,
        word=plain(word.word),
        one=word.one and plain(word.one),
        meaning=plain(word.meaning),
        translations={key: plain(text) for key, text in word.translations.items()},
    )


def _solution(solution: Solution, plain: Say) -> Solution:
    jumps = tuple([replace(one, why=plain(one.why)) for one in solution.jumps])
    return replace(solution, jumps=jumps, says=_all(plain, solution.says))


def _step(step: Step, plain: Say) -> Step:
    return replace(step, solution=_solution(step.solution, plain))


def _number_set(one: NumberSet, told: Say, plain: Say) -> NumberSet:
    return replace(
        one,
        answer_sentence=told(one.answer_sentence),
        solution=_solution(one.solution, plain),
        watch_for=tuple([replace(entry, says=plain(entry.says)) for entry in one.watch_for]),
    )


def _all(say: Say, texts: Iterable[str]) -> tuple[str, ...]:
    return tuple(map(say, texts))
