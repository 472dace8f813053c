"""Sample stories of a pack."""

from collections.abc import Iterator

from storybank import luck, number_choice, situations, vocabulary
from storybank.model import Situation, Triple
from storybank.model.words import Theme
from storybank.number_choice import Wish
from storybank.people import Dealer, own_list
from storybank.story import Plan, numbers_told, plans_for, tell

SAMPLES = 3
_LEVEL = "level-4"


def samples(theme: Theme) -> Iterator[str]:
    """A few stories of the pack at level 4, of different situations; always the same ones."""
    dealer = Dealer(own_list(), 0)
    pack = vocabulary.get(_LEVEL)
    wanted = luck.ordered(situations.ids(), f"{theme.header.id}/sample", str)[:SAMPLES]
    for index, situation_id in enumerate(wanted):
        situation = situations.get(situation_id)
        plans = [
            plan
            for scene in theme.scenes.values()
            for thing in scene.things
            for group in plans_for(theme, scene, thing, situation_id, pack).values()
            for plan in group
        ]
        for plan in luck.ordered(plans, str(index), lambda one: one.scene + one.detail):
            triple = _triple(situation, plan)
            if triple is not None:
                people = dealer.deal(index, plan.skeleton.people, pack.name_letters)
                yield tell(plan, people, numbers_told(situation, triple)).text
                break


def _triple(situation: Situation, plan: Plan) -> Triple | None:
    supply = number_choice.supply(Wish(situation=situation.id, room=plan.room))
    return number_choice.choose(supply, plan.detail)
