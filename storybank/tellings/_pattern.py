"""The slots of sentence patterns: `{who}`, `{has|had}`, `{change more things}` and so on."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from storybank.errors import PackError

_PARTS = re.compile(r"\{([^{}]*)\}|([^{}]+)")
ROLES = (
    "start", "change", "end", "part1", "part2", "part3", "part4", "whole",
    "smaller", "difference", "bigger", "answer",
)  # fmt: skip
PLAIN_SLOTS = (
    "who", "name", "other", "holder", "in", "in2", "in3",
    "things", "thing", "first", "second", "first after", "second after", "first each",
    "second each", "ask act", "did act", "compare", "compare base", "goal", "goal base", "reason",
    "occasion both", "keeps", "setting", "time1", "time2", "span", "so",
)  # fmt: skip
NOUNS = ("things", "first", "second", "third")


@dataclass(frozen=True, slots=True)
class Slot:
    """One slot; `kind` is text, tense, number, be, act or the name of a plain slot."""

    kind: str
    role: str = ""
    more: str = ""
    noun: str = ""
    present: str = ""
    past: str = ""


Pattern = tuple[Slot, ...]


@dataclass(frozen=True, slots=True)
class Telling:
    """One way to tell a situation; the last of `questions` asks (both-parts has two)."""

    id: str
    levels: tuple[int, int]
    tenses: tuple[str, ...]
    needs: Mapping[str, str]
    sentences: tuple[Pattern, ...]
    questions: tuple[Pattern, ...]
    answer: Pattern


def parse(text: str, where: str) -> Pattern:
    """The slots of a pattern. Raises PackError, naming file and slot, for one that is unknown.

    `{a|b}` gives a in the present and b in the past; `{ROLE things}`, `{ROLE more things}`,
    `{ROLE first}` and `{ROLE of things}` a number with its noun; `{be ROLE}` is/are/was/were
    and `{was ROLE}` was/were; `{act ROLE}`, `{act ROLE more}` and `{act some more}` the whole
    clause of the act.
    """
    slots = []
    end = 0
    for match in _PARTS.finditer(text):
        if match.start() != end:
            break
        end = match.end()
        inside, plain = match.groups()
        slots.append(Slot("text", present=plain, past=plain) if plain else _slot(inside, where))
    if end != len(text):
        raise PackError(f'{where}: a brace is not closed in "{text}".')
    return tuple(slots)


def _slot(inside: str, where: str) -> Slot:
    if "|" in inside:
        present, past = inside.split("|")
        return Slot("tense", present=present, past=past)
    if inside in PLAIN_SLOTS:
        return Slot(inside)
    first, *rest = inside.split()
    more = rest[0] if rest and rest[0] in ("more", "fewer", "of") else ""
    if first in ("be", "was") and rest and rest[0] in ROLES:
        return Slot(first, role=rest[0])
    acts = rest[1:] in ([], ["more"])
    if first == "act" and rest and rest[0] in (*ROLES, "some") and acts:
        return Slot("act", role=rest[0], more=" ".join(rest[1:]))
    if first in ROLES and rest and rest[-1] in NOUNS and len(rest) == 1 + bool(more):
        return Slot("number", role=first, more=more, noun=rest[-1])
    raise PackError(
        f'{where}: the slot "{{{inside}}}" is unknown. Known are {{present|past}}, '
        "{ROLE things}, {ROLE more things}, {be ROLE}, {act ROLE more}, and: "
        f"{', '.join(PLAIN_SLOTS)}."
    )
