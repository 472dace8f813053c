"""Finished problems from their JSON, so that stored stories can be judged as they stand.

They are judged by the packs that they were made from, kept beside this file: a pack that has been
reworded since no longer has all their words.
"""

from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

from storybank import checks, themes, vocabulary
from storybank.generate._assemble import reading_of
from storybank.model import (
    BankWord,
    Equations,
    Jump,
    Problem,
    Reading,
    SecondWay,
    Solution,
    Story,
    WatchFor,
)
from storybank.model.words import Theme
from storybank.people import own_list
from storybank.vocabulary.measures import PLAIN_NAME

PEOPLE = {person.name: person for person in own_list().people}


def problem(stored: Mapping[str, Any]) -> Problem:
    """The problem that `stored` holds with the keys of the set format."""
    story = Story(
        telling=stored["telling"],
        people=tuple(stored["people"]),
        sentences=tuple(stored["sentences"]),
        text=stored["text"],
        given=tuple(stored["given"]),
        answer_sentence=stored["answer_sentence"],
        answer_frame=stored["answer_frame"],
        word_bank=tuple(BankWord(**word) for word in stored["word_bank"]),
        talk_frames=tuple(stored["talk_frames"]),
    )
    answer = stored["answer"]
    second = stored["second_way"]
    return Problem(
        code=stored["code"],
        theme=stored["theme"],
        scene=stored["scene"],
        situation=stored["situation"],
        strategy=stored["strategy"],
        vocabulary=stored["vocabulary"],
        standards=tuple(stored["standards"]),
        numbers=stored["numbers"],
        unknown=stored["unknown"],
        answer=answer if isinstance(answer, int) else tuple((one, two) for one, two in answer),
        story=story,
        equations=Equations(**stored["equations"]),
        related_facts=tuple(stored["related_facts"]),
        solution=_solution(stored["solution"]),
        watch_for=tuple(
            WatchFor(entry["answer"], tuple(entry["mistakes"]), entry["says"])
            for entry in stored["watch_for"]
        ),
        second_way=second and SecondWay(second["strategy"], _solution(second["solution"])),
        reading=Reading(**stored["reading"]),
    )


def _solution(stored: Mapping[str, Any]) -> Solution:
    return Solution(
        operation=stored.get("operation"),
        a=stored.get("a"),
        b=stored.get("b"),
        start=stored.get("start"),
        jumps=tuple(
            Jump(one["from"], one["to"], one["by"], one["why"]) for one in stored.get("jumps", ())
        ),
        lines=tuple(stored["lines"]),
        answer_is=stored["answer_is"],
        says=tuple(stored.get("says", ())),
    )


@cache
def _pack(theme_id: str) -> Theme:
    return themes.read(Path(__file__).parent / "packs" / f"{theme_id}.yaml")


def retold(one: Problem, at: int, sentence: str) -> Problem:
    """The problem with one sentence told otherwise, and text and figures of the new text.

    Without new figures every change would be found by its count of words alone.
    """
    sentences = (*one.story.sentences[:at], sentence, *one.story.sentences[at + 1 :])
    asked = 2 if one.unknown == "parts" else 1
    mark = "\n" if "\n" in one.text else " "
    text = f"{' '.join(sentences[:-asked])}{mark}{' '.join(sentences[-asked:])}"
    story = replace(one.story, sentences=sentences, text=text)
    return replace(one, story=story, reading=reading_of(story, _pack(one.theme)))


def faults(one: Problem) -> tuple[str, ...]:
    """What the checks find in a problem of our own names within 100."""
    context = checks.Context(
        limit=100,
        vocabulary=vocabulary.get(one.vocabulary),
        theme=_pack(one.theme),
        people=[PEOPLE[name] for name in one.story.people],
    )
    return checks.judge(one, context)


__all__ = ["PLAIN_NAME", "faults", "problem", "retold"]
