"""Turns the measured things of a scene into their values, noting every fault by line."""

import re
from typing import Any

from storybank.located import Faults, ListAt
from storybank.model.measures import (
    ADJECTIVES,
    BE,
    KINDS,
    UNITS,
    Clause,
    Growth,
    Measured,
    Whole,
)
from storybank.model.words import Range
from storybank.themes._fields import Fields, entries, is_language_key
from storybank.themes._subjects import SUBJECTS

_SLOTS = {"who", "name", "other", "it", "verb", "n"}
_NEVER = re.compile(r"\b(?:left|altogether|in all|total|his|her|its|they|their|more|fewer)\b|\d")


def measured_things(node: Any, scene: str, faults: Faults) -> dict[str, Measured]:
    """The measured things under `measured` of a scene."""
    return {
        name: _thing(name, item, scene, faults) for name, item in entries(node, "measured", faults)
    }


def _thing(name: str, node: Any, scene: str, faults: Faults) -> Measured:
    what = f'the measured thing "{name}" of "{scene}"'
    with Fields(node, what, faults) as fields:
        kind = fields.choice("kind", KINDS)
        units = _amounts(fields, "units", kind)
        one = fields.optional("one")
        adjective = fields.choice("adjective", ADJECTIVES) if fields.has("adjective") else None
        clause = Clause(BE, "{it} {verb} {n}")
        if adjective is None:
            clause = _clause(fields, "{n}")
        elif one is None:
            faults.add(node, f'{what} has "adjective" and lacks "one", e.g. `one: a ribbon`.')
        acts = tuple(
            _act(key, item, what, kind, units, faults)
            for key, item in entries(fields.take("acts", needed=False), "acts", faults)
        )
        parts = fields.take("parts", needed=False)
        made = Measured(
            id=name,
            kind=kind,
            one=one,
            adjective=adjective,
            clause=clause,
            units=units,
            some=fields.optional("some"),
            acts=acts,
            pair=_pair(fields),
            rivals=fields.has("rivals") and fields.choice("rivals", ("yes",)) == "yes",
            whole=None if parts is None else _whole(parts, what, kind, units, faults),
            word=fields.optional("word"),
            meaning=fields.optional("meaning"),
            picture=fields.optional("picture"),
            subjects=fields.known("subjects", SUBJECTS, "subject", ()),
            sizes=fields.optional("sizes") or "common knowledge",
            translations={str(k): fields.text(k) for k in fields.node if is_language_key(k)},
        )
        if not (made.acts or made.pair or made.rivals or made.whole):
            faults.add(
                node,
                f'{what} tells nothing: write "acts", "parts", "pair" or `rivals: yes` for it.',
            )
        return made


def _amounts(fields: Fields, key: str, kind: str) -> dict[str, Range]:
    """The plausible amounts by unit; a range may stand by itself where there is one unit."""
    where = fields.node.get(key)
    there = [unit.id for unit in UNITS.values() if unit.kind == kind]
    found: dict[str, Range] = {}
    for name, item in entries(fields.take(key), key, fields.faults):
        if name not in there:
            fields.faults.add(
                where,
                f'{fields.what}: "{name}" is no unit of {kind or "this kind"}. '
                f"Choose from: {', '.join(there) or ', '.join(UNITS)}.",
            )
            continue
        found[name] = fields.to_range(item)
    return found


def _within(fields: Fields, amounts: dict[str, Range], units: dict[str, Range]) -> dict[str, Range]:
    for unit, (_, high) in amounts.items():
        if unit not in units:
            fields.faults.add(
                fields.node,
                f'{fields.what} has amounts in {unit}, and "units" has none. '
                f"Choose from: {', '.join(units)}.",
            )
        elif high > units[unit][1]:
            fields.faults.add(
                fields.node,
                f"{fields.what}: up to {high} {unit} at once is beyond the largest amount in "
                f'"units", {units[unit][1]}.',
            )
    return amounts


def _clause(fields: Fields, wanted: str, verb: str = "verb", key: str = "frame") -> Clause:
    where = fields.node.get(key, fields.node)
    frame = fields.text(key)
    _check(fields, where, frame, wanted)
    clause = Clause(fields.verb(verb), frame)
    fields.as_written()
    return clause


def _check(fields: Fields, where: Any, frame: str, wanted: str) -> None:
    slots = set(re.findall(r"\{(\w+)\}", frame))
    needed = {"verb", "n"} if wanted else {"verb"}
    if frame and (not needed <= slots or not slots <= _SLOTS or (not wanted and "n" in slots)):
        fields.faults.add(
            where,
            f"{fields.what}: the frame needs {' and '.join(f'{{{one}}}' for one in needed)} and "
            f"may use {{who}}, {{name}}, {{other}}, {{it}}{'' if wanted else ', but no {n}'}; "
            f'it is "{frame}".',
        )
    elif _NEVER.search(frame):
        fields.faults.add(
            where,
            f'{fields.what}: no keyword, number or pronoun stands in a frame; it is "{frame}".',
        )


def _act(
    name: str, node: Any, thing: str, kind: str, units: dict[str, Range], faults: Faults
) -> Growth:
    with Fields(node, f'the act "{name}" of {thing}', faults) as fields:
        clause = _clause(fields, "{n}")
        where = fields.node.get("some", fields.node)
        some = fields.text("some")
        _check(fields, where, some, "")
        plain = fields.take("plain", needed=False)
        easier: tuple[str | None, str | None] = (None, None)
        if plain is not None:
            easier = _plain(plain, f"the plain twin of {fields.what}", faults)
        return Growth(
            id=name,
            effect=fields.choice("effect", ("gain", "lose")),
            clause=clause,
            some=some,
            range=_within(fields, _amounts(fields, "range", kind), units),
            plain_frame=easier[0],
            plain_some=easier[1],
        )


def _plain(node: Any, what: str, faults: Faults) -> tuple[str | None, str | None]:
    with Fields(node, what, faults) as fields:
        found = fields.optional("frame"), fields.optional("some")
        for key, frame, wanted in (("frame", found[0], "{n}"), ("some", found[1], "")):
            if frame is not None:
                _check(fields, fields.node.get(key), frame, wanted)
        return found


def _pair(fields: Fields) -> tuple[str, str] | None:
    where = fields.node.get("pair")
    pair = fields.texts("pair")
    if where is None:
        return None
    if not isinstance(where, ListAt) or len(pair) != 2 or pair[0] == pair[1]:
        fields.faults.add(
            where,
            f'{fields.what}: "pair" must be two different things in brackets, e.g. '
            "`pair: [a red ribbon, a blue ribbon]`.",
        )
        return None
    return pair[0], pair[1]


def _whole(node: Any, thing: str, kind: str, units: dict[str, Range], faults: Faults) -> Whole:
    with Fields(node, f"the parts of {thing}", faults) as fields:
        opening = _clause(fields, "", "opening_verb", "opening") if fields.has("opening") else None
        clause = _clause(fields, "{n}") if fields.has("frame") else None
        return Whole(
            first=fields.text("first"),
            second=fields.text("second"),
            opening=opening,
            whole=fields.optional("whole"),
            clause=clause,
            range=_within(fields, _amounts(fields, "range", kind), units),
        )
