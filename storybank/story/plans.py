"""Plans: a telling with the holder, act, kinds or comparison of a scene that it needs."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache, cached_property, partial

from storybank import situations, tellings
from storybank.model import Situation
from storybank.model.words import (
    Act,
    Comparison,
    Holder,
    Kinds,
    Noun,
    Range,
    Scene,
    Theme,
    Thing,
    Times,
)
from storybank.story.skeleton import Skeleton, build
from storybank.tellings import Telling
from storybank.vocabulary import Vocabulary

_ANY: Range = (1, 1000)
_SOME = 2  # "Some apples" are never one.
_LEAST_WHOLE = 4  # Fewer have too few pairs of parts to look for.
_LEAST_DIFFERENCE = 2  # "There was 1 more big strawberry than small strawberries" is stiff.


@dataclass(frozen=True, slots=True, eq=False)
class Plan:
    """A story with everything chosen but its people and numbers.

    `room` bounds the numbers of roles A, B and C of the situation; `telling`, `detail` and
    `thing` name what was chosen, for luck and for the record; `skeleton` is the text with gaps.
    """

    telling: str
    detail: str
    scene: str
    thing: str
    room: tuple[Range, Range, Range]
    skeleton: Skeleton


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

    @property
    def detail(self) -> str:
        """The ids of the parts, joined."""
        chosen = (self.holder, self.holder2, self.act, self.kinds, self.compare)
        ids = [part.id for part in chosen if part is not None]
        return "+".join([*ids, self.times.first] if self.times else ids)


@dataclass(frozen=True, eq=False)
class Draft:
    """A plan of which only the room for numbers is known; its sentences are built when asked for.

    Most plans of a scene are never told, and building them all takes longer than all the rest.
    """

    telling: Telling
    detail: str
    room: tuple[Range, Range, Range]
    scene: str
    thing: str
    build: Callable[[], Skeleton | None]

    @cached_property
    def plan(self) -> Plan | None:
        """The plan, or None where its sentences would leave the limits of the vocabulary pack."""
        skeleton = self.build()
        if skeleton is None:
            return None
        return Plan(self.telling.id, self.detail, self.scene, self.thing, self.room, skeleton)


@cache
def drafts_for(
    theme: Theme, scene: Scene, thing: str, situation_id: str, vocabulary: Vocabulary
) -> Mapping[str, tuple[Draft, ...]]:
    """All drafts that tell a situation in a scene with a thing, by telling; kept for next time."""
    grouped: dict[str, list[Draft]] = {}
    for draft in _drafts(theme, scene, theme.things[thing], situation_id, vocabulary):
        grouped.setdefault(draft.telling.id, []).append(draft)
    return {telling: tuple(drafts) for telling, drafts in grouped.items()}


def plans_for(
    theme: Theme, scene: Scene, thing: str, situation_id: str, vocabulary: Vocabulary
) -> Mapping[str, tuple[Plan, ...]]:
    """All plans that tell a situation in a scene with a thing within a pack's limits, by telling.

    Tellings without a plan are left out.
    """
    drafts = drafts_for(theme, scene, thing, situation_id, vocabulary)
    built = {
        telling: tuple(one.plan for one in some if one.plan is not None)
        for telling, some in drafts.items()
    }
    return {telling: plans for telling, plans in built.items() if plans}


def _drafts(
    theme: Theme, scene: Scene, thing: Thing, situation_id: str, vocabulary: Vocabulary
) -> Iterator[Draft]:
    if vocabulary.things_need_picture and thing.picture is None:
        return
    situation = situations.get(situation_id)
    for telling in tellings.of(situation_id):
        if not telling.levels[0] <= vocabulary.level <= telling.levels[1]:
            continue
        for parts in _parts(theme, scene, thing, telling, vocabulary):
            room = _room(situation, telling, parts, thing.id, scene)
            if room is None:
                continue
            for tense in _tenses(telling, vocabulary):
                writing = partial(build, telling, parts, theme, scene, tense, vocabulary)
                yield Draft(telling, f"{parts.detail}:{tense}", room, scene.key, thing.id, writing)


def _tenses(telling: Telling, vocabulary: Vocabulary) -> tuple[str, ...]:
    """The pack's tenses that the telling knows; a telling that knows none of them keeps its own."""
    both = tuple(tense for tense in vocabulary.tenses if tense in telling.tenses)
    return both or telling.tenses


def _parts(
    theme: Theme, scene: Scene, thing: Thing, telling: Telling, vocabulary: Vocabulary
) -> Iterator[Parts]:
    needs = telling.needs
    if "occasion" in needs and scene.occasion is None:
        return
    if "goal" in needs and (scene.goal is None or thing.id not in scene.goal.things):
        return
    for kinds in _kinds(theme, scene, thing, needs.get("kinds"), vocabulary):
        for holder in _holders(scene, thing, telling, kinds):
            for act in _acts(scene, thing, telling, holder):
                for compare in _comparisons(scene, thing, needs.get("compare")):
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
        if not kinds.answers(need):
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
        yield act


def _comparisons(scene: Scene, thing: Thing, need: str | None) -> Iterator[Comparison | None]:
    if need is None:
        yield None
        return
    for compare in scene.compare:
        if (compare.verb is None) != (need == "places") or thing.id not in compare.things:
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


def _room(
    situation: Situation, telling: Telling, parts: Parts, thing: str, scene: Scene
) -> tuple[Range, Range, Range] | None:
    if situation.both_parts:
        held = parts.holder.room.get(thing, _ANY) if parts.holder else _ANY
        low, high = parts.kinds.range if parts.kinds else held
        return _ANY, _ANY, (max(_LEAST_WHOLE, low), high)
    held = parts.holder.room.get(thing, _ANY) if parts.holder else _ANY
    if parts.kinds is not None:
        low, high = parts.kinds.range
        if not parts.kinds.first.picture_of:
            low, high = max(low, held[0]), min(high, held[1])
        if situation.family == "compare":
            most = max(low, high // 2)
            return (_SOME, most), (_LEAST_DIFFERENCE, most), (low, most)
        return (_SOME, high), (_SOME, high), (low, high)
    if situation.family == "parts":
        if parts.act is not None:
            return parts.act.range, parts.act.range, (1, 2 * parts.act.range[1])
        return held, held, (held[0], 2 * held[1])
    if situation.family == "compare":
        if parts.holder2 is not None:
            other = parts.holder2.room.get(thing, _ANY)
            held = (max(held[0], other[0]), min(held[1], other[1]))
        if parts.compare is not None:
            held = (max(held[0], parts.compare.range[0]), min(held[1], parts.compare.range[1]))
        return held, (1, held[1]), held
    if "goal" in telling.needs and scene.goal is not None:
        low, high = scene.goal.range
        return held, (1, held[1]), (max(low, held[0]), min(high, held[1]))
    change = parts.act.range if parts.act is not None else (1, held[1])
    start = situation.roles.index("start")
    rooms = [held, change, held]
    if situation.unknown in ("change", "start"):
        hidden = 1 if situation.unknown == "change" else start
        rooms[hidden] = (max(_SOME, rooms[hidden][0]), rooms[hidden][1])
    return rooms[0], rooms[1], rooms[2]
