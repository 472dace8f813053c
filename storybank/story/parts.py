"""Parts: which holder, act, kinds, comparison and times of a scene a telling may use together."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from storybank.model.words import (
    Act,
    Comparison,
    Holder,
    Kinds,
    Noun,
    Scene,
    Theme,
    Thing,
    Times,
)
from storybank.tellings import Telling
from storybank.vocabulary import Vocabulary

_SHARED = ("brush", "count", "feed", "hear", "ring", "see", "visit", "wash", "watch")
"""What two people can do to the same things: then one of two numbers seems to be a mistake."""
_ONE = re.compile(r"\b(?:a|an|the)\b")
"""Things kept "in a bag" are all in it; those kept "on racks" may be on any."""
_GONE = (
    "eat", "feed", "give", "hand", "lend", "lose", "mail", "pass", "return", "sell", "send",
    "share", "ship", "throw", "toss", "trade",
)  # fmt: skip
"""What nobody has any more afterwards; a leaf used for a picture is still hers."""


@dataclass(frozen=True, slots=True)
class Parts:
    """The parts of a scene that one plan uses."""

    noun: Noun
    holder: Holder | None = None
    holder2: Holder | None = None
    act: Act | None = None
    kinds: Kinds | None = None
    compare: Comparison | None = None
    times: Times | None = None
    holder3: Holder | None = None

    @property
    def detail(self) -> str:
        """The ids of the parts, joined."""
        chosen = (self.holder, self.holder2, self.holder3, self.act, self.kinds, self.compare)
        ids = [part.id for part in chosen if part is not None]
        return "+".join([*ids, self.times.first] if self.times else ids)


def parts_for(
    theme: Theme, scene: Scene, thing: Thing, telling: Telling, vocabulary: Vocabulary
) -> Iterator[Parts]:
    """All parts of a scene that a telling can use together for a thing, in the pack's order.

    A pack that wants a picture for every thing leaves out kinds whose things have none, and one of
    plain words leaves out patterns: striped and spotted look too much alike.
    """
    needs = telling.needs
    if "occasion" in needs and (scene.occasion is None or thing.id not in scene.occasion.things):
        return
    if "goal" in needs and (scene.goal is None or thing.id not in scene.goal.things):
        return
    for kinds in _kinds(theme, scene, thing, needs.get("kinds"), vocabulary):
        for holder in _holders(scene, thing, telling, kinds):
            for act in _acts(scene, thing, telling, holder):
                for compare in _comparisons(scene, thing, needs):
                    for times in _times(scene, needs, act):
                        holder1, holder2 = holder, None
                        if compare is not None and compare.verb is None:
                            holder1, holder2 = (scene.holders[name] for name in compare.holders)
                        noun = kinds.whole if kinds else thing.noun
                        yield Parts(noun, holder1, holder2, act, kinds, compare, times)


def _kinds(
    theme: Theme, scene: Scene, thing: Thing, need: str | None, vocabulary: Vocabulary
) -> Iterator[Kinds | None]:
    if need is None:
        yield None
        return
    for kinds in scene.kinds:
        if not kinds.answers(need) or (vocabulary.plain_words and kinds.way == "pattern"):
            continue
        sides = [side.picture_of for side in (kinds.first, kinds.second) if side.picture_of]
        if thing.id != (sides[0] if sides else kinds.thing):
            continue
        if vocabulary.things_need_picture and any(
            theme.things[name].picture is None for name in sides
        ):
            continue
        yield kinds


def _holders(
    scene: Scene, thing: Thing, telling: Telling, kinds: Kinds | None
) -> Iterator[Holder | None]:
    need = telling.needs.get("holder")
    if need is None:
        yield None
        return
    for holder in scene.holders.values():
        if kinds is not None and holder.id not in kinds.holders:
            continue
        if thing.id not in holder.room and (kinds is None or not kinds.first.picture_of):
            continue
        if "keeps" in telling.needs and holder.keeps is None:
            continue
        if telling.needs.get("keeps") == "one" and not _ONE.search(holder.keeps or ""):
            continue
        if "goal" in telling.needs and scene.goal and holder.id not in scene.goal.holders:
            continue
        fits = {
            "child": holder.kind == "person" and holder.one is None,
            "person": holder.kind == "person",
            "place": holder.kind == "place",
        }
        if fits[need]:
            yield holder


def _acts(
    scene: Scene, thing: Thing, telling: Telling, holder: Holder | None
) -> Iterator[Act | None]:
    need = telling.needs.get("act")
    if need is None:
        yield None
        return
    for act in scene.acts:
        if act.effect != need or thing.id not in act.things:
            continue
        if holder is None or holder.id not in act.holders:
            continue
        by_things = act.wording.frame.startswith("{n}")
        if telling.needs.get("subject") == ("who" if by_things else "things"):
            continue
        given = "{other}" in act.wording.frame
        if telling.needs.get("gift") == ("no" if given else "yes"):
            continue
        gone = given or act.wording.verb.base in _GONE
        if telling.needs.get("gone") == ("no" if gone else "yes"):
            continue
        yield act


def _comparisons(
    scene: Scene, thing: Thing, needs: Mapping[str, str]
) -> Iterator[Comparison | None]:
    need = needs.get("compare")
    if need is None:
        yield None
        return
    for compare in scene.compare:
        if (compare.verb is None) != (need == "places") or thing.id not in compare.things:
            continue
        if compare.verb and (need == "shared") != (compare.verb.base in _SHARED):
            continue
        if all(thing.id in scene.holders[name].room for name in compare.holders):
            yield compare


def _times(scene: Scene, needs: object, act: Act | None) -> Iterator[Times | None]:
    if not isinstance(needs, dict) or "times" not in needs:
        yield None
        return
    for times in scene.times:
        if act is not None and act.id in times.acts:
            yield times
