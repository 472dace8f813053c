"""Plans of three or four parts: told by days, by places, or by kinds."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from itertools import combinations

from storybank.model.words import Holder, Range, Scene, Theme, Thing
from storybank.story.parts import Parts
from storybank.story.skeleton import Skeleton, finished
from storybank.story.writer import Writer
from storybank.tellings.addends import SumTelling, of
from storybank.vocabulary import Vocabulary

_TWO = 2
_FLEETING = ("make",)
"""What is made in a place, such as wet footprints, may be gone the next day."""
_SINCE_OPENING = ("a ", "an ")


@dataclass(frozen=True, eq=False)
class SumPlan:
    """A sum told with everything chosen but its people and numbers.

    `room` bounds each part, in order, and the whole at the end.
    """

    telling: str
    detail: str
    scene: str
    thing: str
    room: tuple[Range, ...]
    skeleton: Skeleton


@cache
def sum_plans(
    theme: Theme, scene: Scene, thing: str, addends: int, vocabulary: Vocabulary
) -> tuple[SumPlan, ...]:
    """All plans that tell a sum of so many addends in a scene with a thing, within the limits."""
    found = theme.things[thing]
    if vocabulary.things_need_picture and found.picture is None:
        return ()
    return tuple(_plans(theme, scene, found, addends, vocabulary))


def _plans(
    theme: Theme, scene: Scene, thing: Thing, addends: int, vocabulary: Vocabulary
) -> Iterator[SumPlan]:
    for one in of(addends):
        low, high = one.telling.levels
        if not low <= vocabulary.level <= high:
            continue
        for parts, room in _parts(one, scene, thing, vocabulary):
            for tense in vocabulary.tenses:
                skeleton = _build(one, parts, theme, scene, tense, vocabulary)
                if skeleton is not None and not _stumbles(skeleton):
                    yield SumPlan(
                        one.telling.id,
                        f"{parts.detail}:{tense}",
                        scene.key,
                        thing.id,
                        room,
                        skeleton,
                    )


def _parts(
    one: SumTelling, scene: Scene, thing: Thing, pack: Vocabulary
) -> Iterator[tuple[Parts, tuple[Range, ...]]]:
    if one.told == "days":
        yield from _days(scene, thing, one.addends, pack)
    elif one.told == "places":
        yield from _places(scene, thing, pack.plain_words)
    else:
        yield from _kinds(scene, thing, one.told.removeprefix("kinds-"))


def _days(
    scene: Scene, thing: Thing, addends: int, pack: Vocabulary
) -> Iterator[tuple[Parts, tuple[Range, ...]]]:
    """Acts that a named child does, day by day; a gift or a loss would not add up.

    The day is a phrase of its own, so that a level of one phrase a sentence has room for no place.
    """
    for act in scene.acts:
        wording = act.plain if pack.plain_words and act.plain else act.wording
        if pack.prepositional_phrases < _TWO and not wording.frame.endswith("{things}"):
            continue
        frame = act.wording.frame
        by_child = frame.startswith("{who}") and "{other}" not in frame
        if act.effect != "gain" or thing.id not in act.things or not by_child:
            continue
        for name in act.holders:
            holder = scene.holders[name]
            held = holder.room.get(thing.id)
            if held is None or (holder.kind == "person" and holder.one is not None):
                continue
            if "{holder}" in frame and holder.kind == "person":
                continue
            if holder.kind == "place" and wording.verb.base in _FLEETING:
                continue
            most = addends * act.range[1] if holder.kind == "person" else held[1]
            yield Parts(thing.noun, holder, act=act), (act.range,) * addends + ((1, most),)


def _places(scene: Scene, thing: Thing, plain: bool) -> Iterator[tuple[Parts, tuple[Range, ...]]]:
    """Three things to put something in: none of them lies in another, as a bench in a yard."""
    boxes = [holder for holder in scene.holders.values() if _is_box(holder, scene, thing)]
    for three in combinations(boxes, 3):
        if len({holder.first(plain, beside=True) for holder in three}) == len(three):
            rooms = tuple(holder.room[thing.id] for holder in three)
            whole = (1, sum(high for _, high in rooms))
            one, two, last = three
            yield Parts(thing.noun, one, two, holder3=last), (*rooms, whole)


def _is_box(holder: Holder, scene: Scene, thing: Thing) -> bool:
    filled = any(
        holder.id in act.holders
        and thing.id in act.things
        and act.effect == "gain"
        and {"{who}", "{holder}"} <= set(_slots(act.wording.frame))
        for act in scene.acts
    )
    named = (holder.one or "").startswith(_SINCE_OPENING)
    return holder.kind == "place" and thing.id in holder.room and filled and named


def _slots(frame: str) -> list[str]:
    return [f"{{{part.partition('}')[0]}}}" for part in frame.split("{")[1:]]


def _kinds(scene: Scene, thing: Thing, of_whom: str) -> Iterator[tuple[Parts, tuple[Range, ...]]]:
    for kinds in scene.kinds:
        if kinds.third is None or thing.id != kinds.thing:
            continue
        for name in kinds.holders:
            holder = scene.holders[name]
            held = holder.room.get(thing.id)
            if holder.kind != of_whom or held is None:
                continue
            high = min(kinds.range[1], held[1])
            rooms = ((_TWO, high),) * 3
            yield Parts(kinds.whole, holder, kinds=kinds), (*rooms, (kinds.range[0], high))


def _stumbles(skeleton: Skeleton) -> bool:
    """Whether a question such as "put in in all" says a word twice."""
    said = " ".join(piece for piece in skeleton.sentences[-1] if isinstance(piece, str))
    return " in in " in said


def _build(
    one: SumTelling,
    parts: Parts,
    theme: Theme,
    scene: Scene,
    tense: str,
    vocabulary: Vocabulary,
) -> Skeleton | None:
    writer = Writer(parts, scene, tense, vocabulary.plain_words)
    telling = one.telling
    sentences = [writer.sentence(pattern) for pattern in (*telling.sentences, *telling.questions)]
    answer = writer.sentence(telling.answer)
    further = one.addends - _TWO
    return finished(writer, sentences, len(telling.questions), answer, theme, vocabulary, further)
