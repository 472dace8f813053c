"""Plans: a telling with the holder, act, kinds or comparison of a scene that it needs."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache, cached_property, partial

from storybank import situations, tellings
from storybank.luck import ordered
from storybank.model.words import Range, Scene, Theme, Thing
from storybank.story.gaps import Sentence
from storybank.story.parts import parts_for
from storybank.story.rooms import room_for
from storybank.story.skeleton import Skeleton, build
from storybank.tellings import Telling
from storybank.vocabulary import Vocabulary


@dataclass(frozen=True, slots=True)
class Added:
    """A number that the story does not need: what it counts ("pears"), and the room for it."""

    things: str
    room: Range


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A number that the story leaves out: its role, and the question to ask for it."""

    role: str
    ask: Sentence


@dataclass(frozen=True, slots=True, eq=False)
class Plan:
    """A story with everything chosen but its people and numbers.

    `room` bounds the numbers of roles A, B and C of the situation; `telling`, `detail` and
    `thing` name what was chosen, for luck and for the record; `skeleton` is the text with gaps.
    `added` and `left_out` say how its numbers were changed, if they were.
    """

    telling: str
    detail: str
    scene: str
    thing: str
    room: tuple[Range, Range, Range]
    skeleton: Skeleton
    added: Added | None = None
    left_out: LeftOut | None = None
    then: tuple[Range, Range, Range] | None = None
    """Of two steps, the room of the second."""


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

    @property
    def events(self) -> str:
        """What happens, however it is told: the detail without its tense."""
        return self.detail.rpartition(":")[0]

    @cached_property
    def plan(self) -> Plan | None:
        """The plan, or None where its sentences would leave the limits of the vocabulary pack."""
        skeleton = self.build()
        if skeleton is None:
            return None
        return Plan(self.telling.id, self.detail, self.scene, self.thing, self.room, skeleton)


def alongside(
    plan: Plan,
    events: str,
    drafts: Mapping[str, tuple[Draft, ...]],
    key: str,
) -> Plan | None:
    """The plan among `drafts` that tells the same events with as many people, or None.

    `events` are those of the plan's own draft; `drafts` those of its scene, thing and situation
    at another level, and `key` the luck by which one of several tellings is taken.
    """
    for telling in ordered(tuple(drafts), key, str):
        for draft in drafts[telling]:
            told = draft.plan if draft.events == events else None
            if told is not None and told.skeleton.people == plan.skeleton.people:
                return told
    return None


@cache
def drafts_for(
    theme: Theme, scene: Scene, thing: str, situation_id: str, vocabulary: Vocabulary
) -> Mapping[str, tuple[Draft, ...]]:
    """All drafts that tell a situation in a scene with a thing, by telling; kept for next time."""
    return fresh_drafts(theme, scene, thing, situation_id, vocabulary)


def fresh_drafts(
    theme: Theme, scene: Scene, thing: str, situation_id: str, vocabulary: Vocabulary
) -> Mapping[str, tuple[Draft, ...]]:
    """The same, found anew and not kept: for whoever looks through all of them once."""
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
        for parts in parts_for(theme, scene, thing, telling, vocabulary):
            room = room_for(situation, telling, parts, thing.id, scene)
            for tense in _tenses(telling, vocabulary):
                writing = partial(build, telling, parts, theme, scene, tense, vocabulary)
                yield Draft(telling, f"{parts.detail}:{tense}", room, scene.key, thing.id, writing)


def _tenses(telling: Telling, vocabulary: Vocabulary) -> tuple[str, ...]:
    """The pack's tenses that the telling knows; a telling that knows none of them keeps its own."""
    both = tuple(tense for tense in vocabulary.tenses if tense in telling.tenses)
    return both or telling.tenses
