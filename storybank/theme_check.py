"""Judges a theme pack: faults by line, warnings where scenes are poor, and sample stories."""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from storybank import luck, number_choice, situations, themes, vocabulary
from storybank.model import Situation, Triple
from storybank.model.words import Scene, Theme
from storybank.number_choice import Wish
from storybank.people import Dealer, own_list
from storybank.story import Plan, numbers_told, plans_for, tell

ENOUGH_SITUATIONS = 9
ENOUGH_VERBS = 8
ENOUGH_KINDS = 4
ENOUGH_COMPARISONS = 3
SAMPLES = 3


@dataclass(frozen=True, slots=True)
class ThemeReport:
    """What was found in a pack: faults make it unusable, warnings make it poor."""

    faults: tuple[str, ...]
    warnings: tuple[str, ...]
    samples: tuple[str, ...]


def check_theme(path: Path) -> ThemeReport:
    """The report on the pack in the file `path`. Raises PackError if it is not plain YAML."""
    theme, faults = themes.read_with_faults(path)
    if theme is None or faults:
        return ThemeReport(tuple(faults), (), ())
    return ThemeReport((), tuple(_warnings(theme)), tuple(_samples(theme)))


def told_by(theme: Theme, scene: Scene, pack: vocabulary.Vocabulary) -> tuple[str, ...]:
    """The ids of the situations that a scene can tell at a level of vocabulary."""
    return tuple(
        one
        for one in situations.ids()
        if any(plans_for(theme, scene, thing, one, pack) for thing in scene.things)
    )


def _warnings(theme: Theme) -> Iterator[str]:
    for level in vocabulary.ids():
        pack = vocabulary.get(level)
        told = {scene.id: told_by(theme, scene, pack) for scene in theme.scenes.values()}
        for scene_id, ids in told.items():
            if len(ids) < ENOUGH_SITUATIONS:
                missing = ", ".join(one for one in situations.ids() if one not in ids)
                yield (
                    f'the scene "{scene_id}" tells {len(ids)} situations at {level}; '
                    f"{ENOUGH_SITUATIONS} are wanted. Missing: {missing}."
                )
        untold = [one for one in situations.ids() if not any(one in ids for ids in told.values())]
        if untold:
            yield f"no scene tells {', '.join(untold)} at {level}."
    for effect in ("gain", "lose"):
        verbs = {
            act.wording.verb.base
            for scene in theme.scenes.values()
            for act in scene.acts
            if act.effect == effect
        }
        if len(verbs) < ENOUGH_VERBS:
            yield f"{len(verbs)} {effect} verbs; {ENOUGH_VERBS} are wanted for variety."
    kinds = [kinds for scene in theme.scenes.values() for kinds in scene.kinds]
    if len(kinds) < ENOUGH_KINDS:
        yield f"{len(kinds)} ways to make two kinds; {ENOUGH_KINDS} are wanted."
    if kinds and sum(one.way == "color" for one in kinds) * 3 > len(kinds):
        yield "more than a third of the kinds are colors; add kinds by place, size or sort."
    verbs = {
        one.verb.base
        for scene in theme.scenes.values()
        for one in scene.compare
        if one.verb is not None
    }
    if len(verbs) < ENOUGH_COMPARISONS:
        yield f"{len(verbs)} verbs to compare by; {ENOUGH_COMPARISONS} are wanted."


def _samples(theme: Theme) -> Iterator[str]:
    dealer = Dealer(own_list(), 0)
    pack = vocabulary.get("level-4")
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
