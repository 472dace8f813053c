"""Whether a plan keeps the limits of a pack that is not one of ours as it stands."""

from functools import lru_cache

from storybank import checks, situations, story
from storybank.model.words import Theme
from storybank.people import Person
from storybank.story import Plan
from storybank.vocabulary import Vocabulary

_PROBE = (Person("Ada", "she"), Person("Ben", "he"))
_NUMBER = 7
_LIMIT = 1000


def keeps_limits(plan: Plan, situation_id: str, theme: Theme, pack: Vocabulary) -> bool:
    """Whether the checks find the plan within the limits of the pack; of our own packs all are.

    A plan keeps the limits of length by itself; tense, clauses and phrases of a sentence show
    only once it is told.
    """
    return pack.shipped or _kept(plan, situation_id, theme, pack)


@lru_cache(maxsize=1 << 15)
def _kept(plan: Plan, situation_id: str, theme: Theme, pack: Vocabulary) -> bool:
    situation = situations.get(situation_id)
    roles = ("whole", "part1", "part2") if situation.both_parts else situation.roles
    numbers = dict.fromkeys((*roles, "answer"), _NUMBER)
    told = story.tell(plan, _PROBE[: plan.skeleton.people], numbers)
    context = checks.Context(
        limit=_LIMIT,
        vocabulary=pack,
        theme=theme,
        people=_PROBE,
        measured=plan.skeleton.unit is not None,
    )
    return checks.keeps_limits(told, situation_id, context)
