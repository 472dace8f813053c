"""Sample stories of a pack."""

from collections.abc import Callable, Iterator, Sequence
from functools import partial

from storybank import luck, number_choice, situations, vocabulary
from storybank.model import Situation, Triple
from storybank.model.words import Scene, Theme
from storybank.number_choice import Wish
from storybank.people import Dealer, Person, own_list
from storybank.story import Plan, numbers_told, plans_for, tell

AT_LEAST = 3
_PLAIN, _ORDINARY = "level-1", "level-4"


def samples(theme: Theme) -> Iterator[str]:
    """A story of each scene at level 4, at least two, and one at level 1; always the same ones.

    Their situations differ as far as there are enough. Above each stands its scene and level.
    """
    scenes = list(theme.scenes.values())
    wanted = [(scene, _ORDINARY) for scene in scenes]
    while scenes and len(wanted) < AT_LEAST - 1:
        wanted.append((scenes[0], _ORDINARY))
    dealer = Dealer(own_list(), 0)
    order = list(luck.ordered(situations.ids(), f"{theme.header.id}/sample", str))
    turns = [*(([scene], level) for scene, level in wanted), (scenes, _PLAIN)]
    for index, (some, level) in enumerate(turns):
        yield from _sample(theme, some, level, order, partial(dealer.deal, index))


def _sample(
    theme: Theme,
    scenes: Sequence[Scene],
    level: str,
    order: list[str],
    deal: Callable[[int, int | None], tuple[Person, ...]],
) -> Iterator[str]:
    """One story of the first scene and situation that give one; the situation goes to the end."""
    pack = vocabulary.get(level)
    for situation_id in list(order):
        situation = situations.get(situation_id)
        for scene in scenes:
            plans = [
                plan
                for thing in scene.things
                for group in plans_for(theme, scene, thing, situation_id, pack).values()
                for plan in group
            ]
            key = f"{scene.id}/{situation_id}"
            for plan in luck.ordered(plans, key, lambda one: f"{one.thing}/{one.detail}"):
                triple = _triple(situation, plan)
                if triple is not None:
                    people = deal(plan.skeleton.people, pack.name_letters)
                    told = tell(plan, people, numbers_told(situation, triple))
                    order.append(order.pop(order.index(situation_id)))
                    yield f"{scene.id}, {level}:\n{told.text}"
                    return


def _triple(situation: Situation, plan: Plan) -> Triple | None:
    supply = number_choice.supply(Wish(situation=situation.id, room=plan.room))
    return number_choice.choose(supply, plan.detail)
