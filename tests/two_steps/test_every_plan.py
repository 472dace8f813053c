"""Every story of two steps, or of several addends, that a pack can tell keeps its level's limits.

Each pack is gone through at one level, the levels in turn; the numbers do not matter to language.
"""

import pytest

from storybank import checks, situations, story, themes, vocabulary
from storybank.people import Person
from storybank.situations import two_steps

PEOPLE = (Person("Ada", "she"), Person("Ben", "he"))
LEVELS = vocabulary.ids()
CELLS = [(theme, LEVELS[at % len(LEVELS)]) for at, theme in enumerate(themes.ids())]
NUMBERS = (7, 1)


def faults(told: story.Plan | story.SumPlan, situation: str, roles: list[str], level: str) -> set:
    theme = themes.get(told.scene.partition("/")[0])
    context = checks.Context(1000, vocabulary.get(level), theme, people=PEOPLE)
    found = set()
    for number in NUMBERS:
        people = PEOPLE[: told.skeleton.people]
        text = story.tell(told, people, dict.fromkeys([*roles, "answer"], number))
        for check, _, message in checks.language_faults(text, situation, context):
            found.add((told.telling, check, message, text.text))
    return found


@pytest.mark.parametrize(("theme_id", "level"), CELLS)
def test_every_plan_of_two_steps_keeps_the_limits(theme_id: str, level: str) -> None:
    theme, pack = themes.get(theme_id), vocabulary.get(level)
    broken, seen = set(), 0
    for first, then in two_steps.pairs((), ()):
        steps = situations.get(first), situations.get(then)
        roles = [f"{at} {role}" for at, one in enumerate(steps, 1) for role in one.roles]
        told = 0
        for scene in theme.scenes.values():
            for thing in scene.things:
                for draft in story.two_step_drafts(theme, scene, thing, first, then, pack):
                    if draft.plan is not None:
                        told += 1
                        broken |= faults(draft.plan, f"{first}/{then}", roles, level)
        seen += told
    assert seen > 200
    assert not broken


@pytest.mark.parametrize(("theme_id", "level"), CELLS)
@pytest.mark.parametrize("addends", [3, 4])
def test_every_sum_keeps_the_limits(theme_id: str, level: str, addends: int) -> None:
    theme, pack = themes.get(theme_id), vocabulary.get(level)
    roles = [*(f"part{at}" for at in range(1, addends + 1)), "whole"]
    situation = "/".join(["whole-unknown"] * (addends - 1))
    broken, seen = set(), 0
    for scene in theme.scenes.values():
        for thing in scene.things:
            for plan in story.sum_plans(theme, scene, thing, addends, pack):
                seen += 1
                broken |= faults(plan, situation, roles, level)
    assert seen
    assert not broken


@pytest.mark.parametrize("level", LEVELS)
def test_every_pair_is_told_in_most_packs(level: str) -> None:
    """Two tellings a pair at level 4, one at every level, over all packs."""
    pack = vocabulary.get(level)
    least = 2 if level == "level-4" else 1
    for first, then in two_steps.pairs((), ()):
        tellings: set[str] = set()
        packs = set()
        for theme in map(themes.get, themes.ids()):
            for scene in theme.scenes.values():
                if theme.header.id in packs and len(tellings) >= least:
                    break
                for thing in scene.things:
                    drafts = story.two_step_drafts(theme, scene, thing, first, then, pack)
                    found = {draft.telling for draft in drafts if draft.plan is not None}
                    tellings |= found
                    packs |= {theme.header.id} if found else set()
        assert len(tellings) >= least, (first, then)
        assert len(packs) >= 8, (first, then)
