"""Rooms: how large the numbers of a story may be, by what its scene can hold."""

from storybank.model import Situation
from storybank.model.words import Range, Scene
from storybank.story.parts import Parts
from storybank.tellings import Telling

_ANY: Range = (1, 1000)
_SOME = 2  # "Some apples" are never one.
_LEAST_WHOLE = 5  # Fewer have too few pairs of parts to look for; of many, all are too many.
_LEAST_DIFFERENCE = 2  # "1 more big strawberry than small strawberries" is stiff, and thin.


def room_for(
    situation: Situation, telling: Telling, parts: Parts, thing: str, scene: Scene
) -> tuple[Range, Range, Range]:
    """The lowest and highest A, B and C, in the order of the situation's roles.

    They come from the room of holder and act, and from what reads well: some are at least two,
    and two who do the same differ by at most half of what there is room for.
    """
    held = parts.holder.room.get(thing, _ANY) if parts.holder else _ANY
    if parts.kinds is not None:
        low, high = parts.kinds.range
        if not parts.kinds.first.picture_of:
            low, high = max(low, held[0]), min(high, held[1])
        if situation.both_parts:
            return _ANY, _ANY, (_LEAST_WHOLE, high)
        if situation.family == "compare":
            most = max(low, high // 2)
            return (_SOME, most), (_LEAST_DIFFERENCE, most), (low, most)
        return (_SOME, high), (_SOME, high), (low, high)
    if situation.both_parts:
        return _ANY, _ANY, (_LEAST_WHOLE, held[1])
    if situation.family == "parts":
        if parts.act is not None:
            return parts.act.range, parts.act.range, (1, 2 * parts.act.range[1])
        return held, held, held
    if situation.family == "compare":
        if parts.holder2 is not None:
            other = parts.holder2.room.get(thing, _ANY)
            held = (max(held[0], other[0]), min(held[1], other[1]))
        if parts.compare is not None:
            held = (max(held[0], parts.compare.range[0]), min(held[1], parts.compare.range[1]))
        return held, (_LEAST_DIFFERENCE, max(_LEAST_DIFFERENCE, held[1] // 2)), held
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
