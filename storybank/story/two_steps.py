"""Plans of two steps: an opening and an ending told in one scene, of one holder and one thing."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import cache, cached_property, partial

from storybank import situations
from storybank.model import Situation, Triple
from storybank.model.words import Act, Range, Scene, Theme, Thing
from storybank.story.parts import Parts, parts_for
from storybank.story.plans import Plan
from storybank.story.rooms import room_for
from storybank.story.skeleton import Skeleton, finished
from storybank.story.writer import Writer
from storybank.tellings import Telling
from storybank.tellings.two_steps import Ending, Opening, endings, openings
from storybank.vocabulary import Vocabulary

_FURTHER = 1


@dataclass(frozen=True, eq=False)
class TwoStepDraft:
    """A plan of two steps of which only the rooms are known; built when asked for.

    `hidden_in_then` is the role of the second situation that the first step's result takes,
    `received` the one for what somebody has who was given the change of the first step.
    """

    telling: str
    detail: str
    room: tuple[Range, Range, Range]
    then_room: tuple[Range, Range, Range]
    hidden_in_then: str
    received: str | None
    scene: str
    thing: str
    build: Callable[[], Skeleton | None]

    @cached_property
    def plan(self) -> Plan | None:
        """The plan, or None where its sentences would leave the limits of the vocabulary pack."""
        skeleton = self.build()
        if skeleton is None:
            return None
        room, then = self.room, self.then_room
        return Plan(self.telling, self.detail, self.scene, self.thing, room, skeleton, then=then)


def numbers_of_steps(first: Situation, one: Triple, then: Situation, two: Triple) -> dict[str, int]:
    """The numbers by step and role, with the one asked for also under `answer`."""
    numbers = {}
    for step, situation, triple in ((1, first, one), (2, then, two)):
        told = zip(situation.roles, (triple.a, triple.b, triple.c), strict=True)
        numbers.update({f"{step} {role}": number for role, number in told})
    return {**numbers, "answer": numbers[f"2 {then.unknown}"]}


@cache
def two_step_drafts(
    theme: Theme, scene: Scene, thing: str, first_id: str, then_id: str, vocabulary: Vocabulary
) -> tuple[TwoStepDraft, ...]:
    """All drafts that tell a pair of situations in a scene with a thing; kept for next time."""
    found = theme.things[thing]
    if vocabulary.things_need_picture and found.picture is None:
        return ()
    return tuple(
        draft
        for opening in openings(first_id)
        for ending in endings(then_id)
        for draft in _drafts(theme, scene, found, opening, ending, vocabulary)
    )


def _drafts(
    theme: Theme,
    scene: Scene,
    thing: Thing,
    opening: Opening,
    ending: Ending,
    vocabulary: Vocabulary,
) -> Iterator[TwoStepDraft]:
    first, then = opening.telling, ending.tellings.get((opening.kind, False))
    if then is None:
        return
    if not all(low <= vocabulary.level <= high for low, high in (first.levels, then.levels)):
        return
    tenses = [t for t in vocabulary.tenses if t in first.tenses and t in then.tenses]
    situation = situations.get(opening.situation), situations.get(ending.situation)
    hidden = hidden_role(then, situation[1])
    for parts in parts_for(theme, scene, thing, first, vocabulary):
        for after in parts_for(theme, scene, thing, then, vocabulary):
            pair = _joined(parts, after, then, vocabulary.plain_words)
            if pair is None:
                continue
            one, two = pair
            gift = one.act is not None and _is_gift(one.act)
            said = ending.tellings[opening.kind, gift]
            room = room_for(situation[0], first, one, thing.id, scene)
            then_room = room_for(situation[1], then, two, thing.id, scene)
            for tense in tenses:
                yield TwoStepDraft(
                    telling=f"{opening.situation}/{_name(first)}.{_name(then)}",
                    detail=f"{one.detail}.{two.detail}:{tense}",
                    room=room,
                    then_room=then_room,
                    hidden_in_then=hidden,
                    received=_received(opening, then, hidden) if gift else None,
                    scene=scene.key,
                    thing=thing.id,
                    build=partial(_build, first, one, said, two, theme, scene, tense, vocabulary),
                )


def hidden_role(then: Telling, situation: Situation) -> str:
    """The role of the second step that its telling leaves to the first: told by no number."""
    told = {
        slot.role.split(" ", 1)[1]
        for pattern in then.sentences
        for slot in pattern
        if slot.kind in ("number", "act") and slot.role.startswith("2 ")
    }
    (hidden,) = set(situation.roles) - told - {situation.unknown}
    return hidden


def _received(opening: Opening, then: Telling, hidden: str) -> str | None:
    """The role for what the other person has, who was given something in the first step."""
    if opening.kind != "separate" or "people" not in then.needs:
        return None
    return {"bigger": "smaller", "smaller": "bigger"}.get(hidden, "part2")


def _name(telling: Telling) -> str:
    return telling.id.split("/", 1)[1]


def _joined(one: Parts, two: Parts, then: Telling, plain: bool) -> tuple[Parts, Parts] | None:
    """The parts of both steps where they tell of one holder, or None.

    A place that is told beside another is called by its full name from the beginning; two that
    are called alike in `plain` words are not told beside each other. Of two acts
    none is the other over again, and only one is a gift.
    """
    if then.needs.get("compare") == "places":
        if one.holder is None or two.holder is None or two.holder2 is None:
            return None
        names = {place.first(plain, beside=True) for place in (two.holder, two.holder2)}
        if len(names) == 1:
            return None
        if one.holder.id == two.holder2.id:
            two = replace(two, holder=two.holder2, holder2=two.holder)
        one = replace(one, holder2=two.holder2)
    if one.holder is None or two.holder is None or one.holder.id != two.holder.id:
        return None
    if one.kinds is not None:
        if two.kinds is not None or (one.kinds.sorted and (two.act or "goal" in then.needs)):
            return None
        two = replace(two, noun=one.noun)
    if one.act is not None and two.act is not None and not _go_together(one.act, two.act, then):
        return None
    return one, two


def _is_gift(act: Act) -> bool:
    return "{other}" in act.wording.frame


def _go_together(one: Act, two: Act, then: Telling) -> bool:
    if _is_gift(one) and _is_gift(two):
        return False
    alike = one.wording.verb.base == two.wording.verb.base and one.effect == two.effect
    asks_for_it = any(slot.kind in ("ask act", "did act") for slot in then.questions[-1])
    return not alike or (one.id == two.id and not asks_for_it)


def _build(
    first: Telling,
    one: Parts,
    then: Telling,
    two: Parts,
    theme: Theme,
    scene: Scene,
    tense: str,
    vocabulary: Vocabulary,
) -> Skeleton | None:
    writer = Writer(one, scene, tense, vocabulary.plain_words)
    sentences = [writer.sentence(pattern) for pattern in first.sentences]
    opening = len(sentences)
    writer.turn_to(two)
    sentences += [writer.sentence(pattern) for pattern in (*then.sentences, *then.questions)]
    answer = writer.sentence(then.answer)
    return finished(
        writer, sentences, len(then.questions), answer, theme, vocabulary, _FURTHER, opening
    )
