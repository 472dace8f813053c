"""Which part a scene lacks to tell a situation at a level."""

from collections.abc import Iterator

from storybank import situations, tellings
from storybank.model.words import Holder, Scene, Theme
from storybank.story.parts import parts_for
from storybank.tellings import Telling
from storybank.vocabulary import Vocabulary

TOO_LONG = (
    "shorter or plainer words: shorter frames and holders, or a `plain` twin, since its sentences "
    "have too many or too hard words for {level}"
)
NO_PICTURE = "a `picture` to one of its things"
APART = "parts that fit the same thing and holder (look at `things`, `holders` and `room`)"
_OR_SOMEBODY = " or somebody"
_KIND = {"child": "a child", "person": f"a child{_OR_SOMEBODY}", "place": "a place"}
_HOLDERS = {
    "child": "a holder with `is: person` and no `one` (a child)",
    "person": "a holder with `is: person`",
    "place": "a holder with `is: place`",
}
_KINDS = {
    "named": "`kinds` by color, size, pattern, state or sort for ",
    "described": "`kinds` told by a word before the noun (`before: big`) for ",
    "sorted": "`kinds` by sort for ",
    "placed": "`kinds` by place for ",
}


def advice(theme: Theme, scene: Scene, situation_id: str, pack: Vocabulary) -> tuple[int, str]:
    """How many parts a scene lacks at least to tell a situation at a level, and which.

    Of several ways to tell it those that lack least are named, two at most; what a child must
    have is left out where a child or somebody will do.
    """
    things = [
        theme.things[name]
        for name in scene.things
        if theme.things[name].picture or not pack.things_need_picture
    ]
    if not things:
        return 1, NO_PICTURE
    situation = situations.get(situation_id)
    ways: list[list[str]] = []
    for telling in tellings.of(situation.id):
        if not telling.levels[0] <= pack.level <= telling.levels[1]:
            continue
        if any(True for thing in things for _ in parts_for(theme, scene, thing, telling, pack)):
            return 0, TOO_LONG.format(level=pack.id)
        ways.append(list(_lacks(scene, telling)) or [APART])
    least = min(len(way) for way in ways)
    named = dict.fromkeys(" and ".join(way) for way in ways if len(way) == least)
    wide = [one for one in named if f"{one}{_OR_SOMEBODY}" not in named]
    return least, " or ".join(wide[:2])


def _lacks(scene: Scene, telling: Telling) -> Iterator[str]:
    needs = telling.needs
    kind = needs.get("holder")
    if kind is not None and not any(_is(holder, kind) for holder in scene.holders.values()):
        yield _HOLDERS[kind]
    if "keeps" in needs and not any(
        holder.keeps for holder in scene.holders.values() if kind and _is(holder, kind)
    ):
        yield "`keeps` to its child (where he or she has the things)"
    if "act" in needs and not any(
        act.effect == needs["act"] and _held(scene, act.holders, kind)
        and needs.get("subject")
        != ("who" if act.wording.frame.startswith("{n}") else "things")
        for act in scene.acts
    ):  # fmt: skip
        by = " in which somebody does it" if needs.get("subject") == "who" else ""
        yield f"an act with `effect: {needs['act']}` for {_KIND[kind or 'person']}{by}"
    if "kinds" in needs and not any(
        kinds.answers(needs["kinds"]) and _held(scene, kinds.holders, kind) for kinds in scene.kinds
    ):
        yield f"{_KINDS[needs['kinds']]}{_KIND[kind or 'person']}"
    compare = needs.get("compare")
    if compare and not any((one.verb is None) == (compare == "places") for one in scene.compare):
        yield (
            "`compare` of two places" if compare == "places" else "`compare` with a verb (find ...)"
        )
    if "goal" in needs and scene.goal is None:
        yield "a `goal`"
    if "occasion" in needs and scene.occasion is None:
        yield "an `occasion`"
    if "times" in needs and not scene.times:
        yield "`times` for an act of a child"


def _held(scene: Scene, names: tuple[str, ...], kind: str | None) -> bool:
    return any(kind is None or _is(scene.holders[name], kind) for name in names)


def _is(holder: Holder, kind: str) -> bool:
    if kind == "place":
        return holder.kind == "place"
    return holder.kind == "person" and (kind == "person" or holder.one is None)
