"""Judges every plan of a pack by the laws of language that finished problems must keep."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from storybank import checks, situations, vocabulary
from storybank.model import Situation, Story
from storybank.model.words import Theme
from storybank.people import Person
from storybank.story import Plan, plans_for, tell

PEOPLE = (Person("Ada", "she"), Person("Ben", "he"))
_PLAIN_PEOPLE = (Person("Ada", None), Person("Ben", None))
_PRONOUN = re.compile(r"\b(?:he|she|him|her|hers|his|himself|herself)\b", re.IGNORECASE)
_SOME = 7
_NUMERAL = re.compile(r"\d+")


@dataclass(frozen=True, slots=True)
class Fault:
    """A law that is broken: the check, its message, and the place of the sentence it is about.

    Behind the sentences of the story come its answer and its answer frame; -1 is the whole story.
    """

    check: str
    at: int
    message: str


@dataclass(frozen=True, slots=True)
class Judged:
    """A plan told with certain numbers at a level, and the laws that it breaks."""

    level: str
    situation: str
    plan: Plan
    story: Story
    faults: tuple[Fault, ...]

    def sentence(self, at: int) -> str:
        """The sentence at that place, or the whole text."""
        story = self.story
        told = (*story.sentences, story.answer_sentence, story.answer_frame)
        return told[at] if 0 <= at < len(told) else story.text.replace("\n", " ")


def judged_plans(theme: Theme) -> Iterator[Judged]:
    """Every plan of a pack at every level, told once more for each number that may be 1.

    And once more of people without a pronoun, where one stands in the words of the pack. Where
    none has a fault, no set can run into a law of language that some rare plan breaks.
    """
    for level in vocabulary.ids():
        pack = vocabulary.get(level)
        contexts = [
            checks.Context(limit=1000, vocabulary=pack, theme=theme, people=people)
            for people in (PEOPLE, _PLAIN_PEOPLE)
        ]
        for situation in situations.in_grade_order():
            for scene in theme.scenes.values():
                for thing in scene.things:
                    grouped = plans_for(theme, scene, thing, situation.id, pack)
                    for plan in (one for plans in grouped.values() for one in plans):
                        for story, context in _told(plan, situation, *contexts):
                            faults = tuple(_faults(story, situation, context))
                            yield Judged(level, situation.id, plan, story, faults)


def _told(
    plan: Plan, situation: Situation, context: checks.Context, plainly: checks.Context
) -> Iterator[tuple[Story, checks.Context]]:
    """The plan with numbers above 1, and with 1 for each number that may be 1.

    `plainly` is the context of people without a pronoun.
    """
    roles = ("whole", "part1", "part2") if situation.both_parts else situation.roles
    lowest = {} if situation.both_parts else dict(zip(roles, plan.room, strict=True))
    people = plan.skeleton.people
    for single in (None, *(role for role in roles if role in lowest and lowest[role][0] == 1)):
        numbers = {role: 1 if role == single else _SOME for role in roles}
        numbers["answer"] = numbers.get(situation.unknown, _SOME)
        yield tell(plan, PEOPLE[:people], numbers), context
        if single is None:
            story = tell(plan, _PLAIN_PEOPLE[:people], numbers)
            if _PRONOUN.search(story.text):
                yield story, plainly


def _faults(story: Story, situation: Situation, context: checks.Context) -> Iterator[Fault]:
    for check, at, message in checks.language_faults(story, situation.id, context):
        yield Fault(check, at, message)
    if tuple(map(int, _NUMERAL.findall(story.text))) != story.given:
        yield Fault("given", -1, "a number stands in it that is none of the problem's.")
