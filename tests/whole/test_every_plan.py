"""Every plan of every theme at every level, once with each number that may be 1: no fault.

So no set can run into a law of language that some rare plan breaks.
"""

from collections.abc import Iterator

import pytest

from storybank import checks, situations, themes, vocabulary
from storybank.checks import _shape
from storybank.model import Situation, Story
from storybank.people import Person
from storybank.story import Plan, plans_for, tell

PEOPLE = (Person("Ada", "she"), Person("Ben", "he"))
SOME = 7
OF_THE_FIGURES = ("reading-figures",)
"""Judged on finished problems only: a story by itself claims no figures."""


def told(plan: Plan, situation: Situation) -> Iterator[Story]:
    """The plan with numbers above 1, and with 1 for each number that may be 1."""
    roles = ("whole", "part1", "part2") if situation.both_parts else situation.roles
    lowest = {} if situation.both_parts else dict(zip(roles, plan.room, strict=True))
    for single in (None, *(role for role in roles if role in lowest and lowest[role][0] == 1)):
        numbers = {role: 1 if role == single else SOME for role in roles}
        numbers["answer"] = numbers.get(situation.unknown, SOME)
        yield tell(plan, PEOPLE[: plan.skeleton.people], numbers)


def faults(story: Story, situation: Situation, context: checks.Context) -> Iterator[str]:
    shape = _shape.shape_of(_shape.story_key(story, situation.id, 0, 0.0, context), context)
    for read in shape.readings:
        for name, parts, finder in checks._line_finders():
            if read.part in parts:
                yield from (f"{name}: {one}" for one in finder(read, context.rules))
    for name, finder in checks._finders():
        if name not in OF_THE_FIGURES:
            yield from (f"{name}: {one}" for _, one in finder(shape))


@pytest.mark.parametrize("theme_id", themes.ids())
def test_no_plan_breaks_a_law_of_language(theme_id: str) -> None:
    theme = themes.get(theme_id)
    found: dict[str, str] = {}
    for level in vocabulary.ids():
        pack = vocabulary.get(level)
        context = checks.Context(limit=1000, vocabulary=pack, theme=theme, people=PEOPLE)
        for situation in situations.in_grade_order():
            for scene in theme.scenes.values():
                for thing in scene.things:
                    grouped = plans_for(theme, scene, thing, situation.id, pack)
                    for plan in (one for plans in grouped.values() for one in plans):
                        for story in told(plan, situation):
                            for fault in faults(story, situation, context):
                                found.setdefault(fault, f"{level} {scene.id}: {story.text}")
    assert not found, "\n".join(f"{fault} {where}" for fault, where in found.items())
