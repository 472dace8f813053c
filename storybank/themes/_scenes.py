"""Turns a scene of a pack into its values, noting every fault by line."""

import re
from dataclasses import replace
from typing import Any

from storybank.located import Faults, ListAt, MappingAt
from storybank.model.words import (
    Act,
    Comparison,
    Goal,
    Holder,
    Occasion,
    Range,
    Scene,
    Thing,
    Times,
    Wording,
)
from storybank.themes._fields import Fields, entries
from storybank.themes._kinds import kinds_of
from storybank.themes._measured import measured_things
from storybank.themes._renamed import meant, named_holders
from storybank.themes._subjects import SUBJECTS

FRAME_SLOTS = {"who", "name", "verb", "n", "things", "holder", "other"}


def scene(name: str, node: Any, pack: str, known: dict[str, Thing], faults: Faults) -> Scene:
    """The scene `name` of a pack, which knows the things `known`."""
    what = f'the scene "{name}"'
    with Fields(node, what, faults) as fields:
        things = fields.known("things", known, "thing", ())
        if not things:
            faults.add(node, f"{what} needs at least one thing: `things: [...]`.")
        holders = {
            key: _holder(key, item, name, things, faults)
            for key, item in entries(fields.take("holders"), "holders", faults)
        }
        holders |= meant(
            holders, named_holders(fields.node), fields.node.get("holders"), "holders", faults
        )
        holders = {key: _alone(holder, holders) for key, holder in holders.items()}
        acts = tuple(
            _act(key, item, name, things, holders, faults)
            for key, item in entries(fields.take("acts"), "acts", faults)
        )
        kinds = tuple(
            kinds_of(key, item, name, things, known, holders, faults)
            for key, item in entries(fields.take("kinds", needed=False), "kinds", faults)
        )
        compare = tuple(
            _comparison(key, item, name, things, holders, faults)
            for key, item in entries(fields.take("compare", needed=False), "compare", faults)
        )
        occasion = fields.take("occasion", needed=False)
        goal = fields.take("goal", needed=False)
        times = fields.take("times", needed=False)
        return Scene(
            id=name,
            theme=pack,
            title=fields.text("title"),
            setting=fields.text("setting"),
            subjects=fields.known("subjects", SUBJECTS, "subject", ()),
            occasion=None if occasion is None else _occasion(occasion, name, things, faults),
            things=things,
            holders=holders,
            acts=acts,
            kinds=kinds,
            compare=compare,
            goal=None if goal is None else _goal(goal, name, things, holders, faults),
            times=_all_times(times, name, [act.id for act in acts], faults),
            measured=measured_things(fields.take("measured", needed=False), name, faults),
        )


def _holder(name: str, node: Any, scene: str, things: tuple[str, ...], faults: Faults) -> Holder:
    what = f'the holder "{name}" of "{scene}"'
    with Fields(node, what, faults) as fields:
        kind = fields.choice("is", ("person", "place"))
        room = _room(fields, things)
        fields.as_written()
        return Holder(
            id=name,
            kind=kind,
            one=fields.text("one", needed=kind == "place") or None,
            prep=fields.text("prep", needed=kind == "place") or None,
            keeps=fields.optional("keeps"),
            plain=fields.optional("plain"),
            room=room,
        )


def _room(fields: Fields, things: tuple[str, ...]) -> dict[str, Range]:
    node = fields.take("room")
    if not isinstance(node, MappingAt):
        fields.faults.add(
            node or fields.node,
            f"{fields.what}: write how many it can hold of each thing, "
            "e.g. `room: {apple: 2-60}`.",
        )
        return {}
    with Fields(node, f"the room of {fields.what}", fields.faults) as room:
        return {name: room.to_range(room.take(name)) for name in things if room.has(name)}


def _wording(fields: Fields, base: Wording | None = None) -> Wording:
    verb = (
        fields.verb(default=base.verb if base else None)
        if fields.has("verb") or not base
        else base.verb
    )
    frame = fields.text("frame", base.frame if base else "", needed=base is None)
    slots = set(re.findall(r"\{(\w+)\}", frame))
    if frame and (not {"verb", "n", "things"} <= slots or not slots <= FRAME_SLOTS):
        fields.faults.add(
            fields.node.get("frame", fields.node),
            f"{fields.what}: the frame needs {{verb}} and {{n}} {{things}} and may use {{who}}, "
            f'{{name}}, {{holder}}, {{other}}; it is "{frame}".',
        )
    fields.as_written()
    return Wording(verb=verb, frame=frame)


def _act(
    name: str,
    node: Any,
    scene: str,
    things: tuple[str, ...],
    holders: dict[str, Holder],
    faults: Faults,
) -> Act:
    what = f'the act "{name}" of "{scene}"'
    with Fields(node, what, faults) as fields:
        wording = _wording(fields)
        plain = fields.take("plain", needed=False)
        plain_wording = None
        if plain is not None:
            with Fields(plain, f"the plain twin of {what}", faults) as twin:
                plain_wording = _wording(twin, wording)
        return Act(
            id=name,
            effect=fields.choice("effect", ("gain", "lose")),
            holders=fields.known("holders", holders, "holder", tuple(holders)),
            things=fields.known("things", things, "thing", things),
            range=fields.range("range"),
            wording=wording,
            plain=plain_wording,
        )


def _comparison(
    name: str,
    node: Any,
    scene: str,
    things: tuple[str, ...],
    holders: dict[str, Holder],
    faults: Faults,
) -> Comparison:
    what = f'the comparison "{name}" of "{scene}"'
    with Fields(node, what, faults) as fields:
        by_place = not fields.has("verb")
        verb = None if by_place else fields.verb()
        between = fields.known("holders", holders, "holder", ())
        fields.as_written()
        if by_place and len(between) != 2:
            faults.add(
                node,
                f"{what} needs a verb (for two people) or two places: `holders: [pond, river]`.",
            )
        return Comparison(
            id=name,
            verb=verb,
            holders=between,
            things=fields.known("things", things, "thing", things),
            range=fields.range("range"),
        )


def _goal(
    node: Any, scene: str, things: tuple[str, ...], holders: dict[str, Holder], faults: Faults
) -> Goal:
    with Fields(node, f'the goal of "{scene}"', faults) as fields:
        fields.as_written()
        return Goal(
            verb=fields.verb(),
            reason=fields.text("reason"),
            holders=fields.known("holders", holders, "holder", tuple(holders)),
            things=fields.known("things", things, "thing", things),
            range=fields.range("range", (2, 1000)),
        )


def _alone(holder: Holder, holders: dict[str, Holder]) -> Holder:
    """The holder, with a shorter name if another place differs from it by one word only."""
    words = (holder.one or "").split()
    if holder.kind != "place" or len(words) != 3:
        return holder
    article, _, noun = words
    for other in holders.values():
        theirs = (other.one or "").split()
        if other.id != holder.id and len(theirs) == 3 and theirs[2] == noun:
            if article in ("a", "an"):
                article = "an" if noun[0] in "aeiou" else "a"
            return replace(holder, alone=f"{article} {noun}")
    return holder


def _occasion(node: Any, scene: str, things: tuple[str, ...], faults: Faults) -> Occasion:
    with Fields(node, f'the occasion of "{scene}"', faults) as fields:
        fields.as_written()
        return Occasion(
            verb=fields.verb(),
            rest=fields.text("rest"),
            things=fields.known("things", things, "thing", things),
        )


def _all_times(node: Any, scene: str, acts: list[str], faults: Faults) -> tuple[Times, ...]:
    if node is None:
        return ()
    if not isinstance(node, ListAt):
        faults.add(
            node,
            f'the times of "{scene}" must be a list, each entry beginning with a dash, e.g. '
            "`- {first: before lunch, second: after lunch, span: that day, acts: [find]}`.",
        )
        return ()
    return tuple(_times(item, scene, acts, faults) for item in node)


def _times(node: Any, scene: str, acts: list[str], faults: Faults) -> Times:
    with Fields(node, f'the times of "{scene}"', faults) as fields:
        return Times(
            first=fields.text("first"),
            second=fields.text("second"),
            span=fields.text("span"),
            acts=fields.known("acts", acts, "act", ()),
        )
