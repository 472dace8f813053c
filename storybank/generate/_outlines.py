"""Outlines: what can be told in the scenes of a request, each with all its plans."""

from collections.abc import Callable, Hashable, Iterator, Mapping
from dataclasses import dataclass, fields
from typing import Any

from storybank import situations, story
from storybank.generate._keywords import Keywords
from storybank.generate._limits import keeps_limits
from storybank.model import Situation
from storybank.model.words import Scene, Theme
from storybank.request import Settled
from storybank.story import Draft, Plan
from storybank.story.skeleton import Skeleton

_OF_PLAN = tuple(one.name for one in fields(Plan) if one.name != "skeleton")
_OF_SKELETON = tuple(
    one.name for one in fields(Skeleton) if one.name not in ("sentences", "word_bank")
)


@dataclass(frozen=True, slots=True, eq=False)
class Outline:
    """A scene, a thing of it, a situation and a telling, with every plan there is of them."""

    theme: Theme
    scene: str
    thing: str
    situation: Situation
    telling: str
    plans: tuple[Plan, ...]


def outlines(settled: Settled) -> Iterator[Outline]:
    """Every outline of a request that has a plan, scene by scene.

    A plan keeps the limits of the vocabulary pack, and uses no keyword where none is wanted.
    """
    keywords = Keywords.of(settled.keywords, settled.situations)
    share = _Shared()
    for key in settled.scene_keys():
        name, _, scene_id = key.partition("/")
        theme = settled.theme(name)
        scene = theme.scenes[scene_id]
        for thing in story.measured_things(scene, settled.units) if settled.units else scene.things:
            for situation in map(situations.get, settled.situations):
                shut = keywords.shut(situation, balancing=False)
                found = _drafts(settled, theme, scene, thing, situation.id)
                for telling, drafts in found.items():
                    plans = tuple(
                        share.plan(plan)
                        for plan in (draft.plan for draft in drafts)
                        if plan is not None
                        and shut.isdisjoint(plan.skeleton.keywords)
                        and keeps_limits(plan, situation.id, theme, settled.vocabulary)
                    )
                    if plans:
                        yield Outline(theme, key, thing, situation, telling, plans)


def _drafts(
    settled: Settled, theme: Theme, scene: Scene, thing: str, situation_id: str
) -> Mapping[str, tuple[Draft, ...]]:
    find: Callable[..., Mapping[str, tuple[Draft, ...]]]
    find = story.fresh_measured_drafts if settled.units else story.fresh_drafts
    return find(theme, scene, thing, situation_id, settled.vocabulary)


class _Shared:
    """Plans that hold what is equal among them only once: they take a third of the room."""

    def __init__(self) -> None:
        self._known: dict[Hashable, Any] = {}

    def plan(self, plan: Plan) -> Plan:
        """An equal plan of shared sentences, words and room."""
        told = plan.skeleton
        own = {
            "sentences": self._same(tuple([self._same(one) for one in told.sentences])),
            "word_bank": self._known.setdefault(tuple(map(id, told.word_bank)), told.word_bank),
        }
        rest = {name: self._same(getattr(told, name)) for name in _OF_SKELETON}
        values = {name: self._same(getattr(plan, name)) for name in _OF_PLAN}
        return Plan(skeleton=Skeleton(**own, **rest), **values)

    def _same(self, value: Hashable) -> Any:
        return self._known.setdefault((type(value), value), value)
