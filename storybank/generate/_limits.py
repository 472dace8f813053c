"""Whether a plan keeps the limits of a pack that is not one of ours as it stands."""

from functools import lru_cache
from typing import TYPE_CHECKING

from storybank import checks, situations, story
from storybank.model.words import Theme
from storybank.people import Person
from storybank.story import Plan
from storybank.vocabulary import Vocabulary

if TYPE_CHECKING:
    from storybank.story import SumPlan

_PROBE = (Person("Ada", "she"), Person("Ben", "he"))
_NUMBER = 7
_LIMIT = 1000


def keeps_limits(plan: "Plan | SumPlan", situation_id: str, theme: Theme, pack: Vocabulary) -> bool:
    """Whether the checks find the plan within the limits of the pack; of our own packs all are.

    A plan keeps the limits of length by itself; tense, clauses and phrases of a sentence show
    only once it is told.
    """
    return pack.shipped or _kept(plan, situation_id, theme, pack)


@lru_cache(maxsize=1 << 15)
def _kept(plan: "Plan | SumPlan", situation_id: str, theme: Theme, pack: Vocabulary) -> bool:
    numbers = dict.fromkeys((*_roles(plan, situation_id), story.EXTRA), _NUMBER)
    told = story.tell(plan, _PROBE[: plan.skeleton.people], numbers)
    context = checks.Context(
        limit=_LIMIT,
        vocabulary=pack,
        theme=theme,
        people=_PROBE,
        measured=plan.skeleton.unit is not None,
    )
    return checks.keeps_limits(told, situation_id, context)


def _roles(plan: "Plan | SumPlan", situation_id: str) -> tuple[str, ...]:
    """The names of the numbers of a story; of two steps each with its step in front.

    The plan says which kind of story it is: two steps that each find a whole, and a sum of three
    parts, are told in the same situations.
    """
    if not isinstance(plan, Plan):
        return (*(f"part{at}" for at in range(1, len(plan.room))), "whole", "answer")
    steps = [situations.get(name) for name in situation_id.split("/")]
    if plan.then is not None:
        told = [f"{at} {role}" for at, one in enumerate(steps, 1) for role in one.roles]
        return (*told, "answer")
    if steps[0].both_parts:
        return ("whole", "part1", "part2", "answer")
    return (*steps[0].roles, "answer")
