"""Every plan of every measured thing, at every level: laws of language, the reader, all situations.

The reader shares no code with the generator.
"""

import pytest
from reader.measured import read_measured

from storybank import checks, situations, solution, story, themes, vocabulary
from storybank.model import Triple
from storybank.people import Person
from storybank.story import Plan, measured_drafts

PEOPLE = (Person("Ada", "she"), Person("Ben", "he"))
CELLS = [(theme, level) for theme in themes.ids() for level in vocabulary.ids()]


@pytest.mark.parametrize(("theme", "level"), CELLS)
def test_every_plan_keeps_the_laws_and_is_read_as_meant(theme: str, level: str) -> None:
    pack, told = themes.get(theme), set()
    context = checks.Context(
        limit=100, vocabulary=vocabulary.get(level), theme=pack, people=PEOPLE, measured=True
    )
    for situation_id in situations.ids():
        for scene in pack.scenes.values():
            for thing in scene.measured:
                found = measured_drafts(pack, scene, thing, situation_id, context.vocabulary)
                plans = [draft.plan for drafts in found.values() for draft in drafts]
                for plan in (one for one in plans if one is not None):
                    told.add(situation_id)
                    judge(plan, situation_id, context)
    assert told == set(situations.ids()) - {"both-parts-unknown"}


def judge(plan: Plan, situation_id: str, context: checks.Context) -> None:
    situation = situations.get(situation_id)
    triple = Triple(17, 26, 43)
    numbers = story.numbers_told(situation, triple)
    told = story.tell(plan, PEOPLE[: plan.skeleton.people], numbers)
    assert list(checks.language_faults(told, situation_id, context)) == []
    reading = read_measured(told.text)
    assert reading.situation == situation_id, told.text
    assert reading.equation == solution.equations(situation, triple).situation, told.text
    assert reading.answer == numbers["answer"], told.text
    assert reading.unit == plan.skeleton.unit


@pytest.mark.parametrize("theme", themes.ids())
def test_at_level_4_lengths_tell_every_situation(theme: str) -> None:
    pack = themes.get(theme)
    told = {
        situation_id
        for situation_id in situations.ids()
        for scene in pack.scenes.values()
        for name, thing in scene.measured.items()
        if thing.kind == "lengths"
        and any(
            draft.plan is not None
            for drafts in measured_drafts(
                pack, scene, name, situation_id, vocabulary.get("level-4")
            ).values()
            for draft in drafts
        )
    }
    assert told == set(situations.ids()) - {"both-parts-unknown"}
