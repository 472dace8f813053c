"""How two steps are told: openings, which tell the first, and what tells and asks the second."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from typing import Any

from storybank import catalog
from storybank.compiled import compiled
from storybank.errors import PackError
from storybank.tellings import NEEDS
from storybank.tellings._pattern import Pattern, Slot, Telling, parse

FOLDER = Path(__file__).parent / "_two_steps"
AFTER = ("join", "separate", "used", "whole")
"""What an opening tells; what was used is still hers, so that only what is left may be asked."""
_LINKS = {
    "{since}": ("{Now|After that,} ", "{Now|After that,} ", ""),
    "{given}": ("{Now|After that,} ", "", ""),
    "{next}": ("{Next,|After that,}", "{Next,|After that,}", "Then"),
}
"""Words that differ after a gift, another change, and parts, before which nothing happened.

What somebody else has needs a time only where he has got or given some of it.
"""


@dataclass(frozen=True, slots=True)
class Opening:
    """One way to tell a first step; `kind` is one of `AFTER`."""

    situation: str
    kind: str
    telling: Telling


@dataclass(frozen=True, slots=True)
class Ending:
    """One way to tell a second step and ask for it, by the kind of opening, a gift or not."""

    situation: str
    tellings: Mapping[tuple[str, bool], Telling]


def openings(situation_id: str) -> tuple[Opening, ...]:
    """All openings that tell a situation as a first step, sorted by name."""
    return tuple(one for one in _all()[0] if one.situation == situation_id)


def endings(situation_id: str) -> tuple[Ending, ...]:
    """All endings that tell a situation as a second step, sorted by name."""
    return tuple(one for one in _all()[1] if one.situation == situation_id)


@cache
def _all() -> tuple[tuple[Opening, ...], tuple[Ending, ...]]:
    files = sorted(FOLDER.glob("*/*.yaml"))
    return compiled("two-steps", files, _read_all)


def _read_all() -> tuple[tuple[Opening, ...], tuple[Ending, ...]]:
    first = [FOLDER / "first" / f"{name}.yaml" for name in _names("first")]
    then = [FOLDER / "then" / f"{name}.yaml" for name in _names("then")]
    return tuple(map(read_opening, first)), tuple(map(read_ending, then))


def _names(folder: str) -> tuple[str, ...]:
    return catalog.entry_names(FOLDER / folder, ".yaml")


def read_opening(path: Path) -> Opening:
    """The opening in a file. Raises PackError, naming the file, where it is not well formed."""
    entry, where = _entry(path, ("situation", "kind", "levels", "needs", "sentences"))
    kind = str(entry["kind"])
    if kind not in AFTER:
        raise PackError(f'{where}: the kind "{kind}" is unknown. Choose from: {", ".join(AFTER)}.')
    sentences = [str(text) for text in entry["sentences"]]
    return Opening(str(entry["situation"]), kind, _telling(entry, where, path, sentences, 1))


def read_ending(path: Path) -> Ending:
    """The ending in a file. Raises PackError, naming the file, where it is not well formed.

    `{since}` stands for "Now" or "After that," behind a change and for nothing behind parts,
    `{given}` for the same behind a gift only, `{next}` for "Next," or "After that," behind a
    change and for "Then" behind parts.
    """
    keys = ("situation", "after", "levels", "needs", "sentences", "question", "answer")
    entry, where = _entry(path, keys)
    found = {}
    for kind in map(str, entry["after"]):
        if kind not in AFTER:
            raise PackError(f'{where}: "{kind}" is unknown. Choose from: {", ".join(AFTER)}.')
        for gift in (True, False):
            sentences = [_linked(str(text), kind, gift) for text in entry["sentences"]]
            found[kind, gift] = _telling(entry, where, path, sentences, 2)
    return Ending(str(entry["situation"]), found)


def _linked(text: str, kind: str, gift: bool) -> str:
    for link, (after_gift, after_change, after_parts) in _LINKS.items():
        said = after_parts if kind == "whole" else after_gift if gift else after_change
        text = text.replace(link, said)
    return text


def _entry(path: Path, keys: tuple[str, ...]) -> tuple[dict[str, Any], str]:
    (node,) = catalog.read_documents(path)
    entry = dict(node)
    where = f"{path.parent.name}/{path.name}"
    odd = sorted(set(entry) - {"tenses"} ^ set(keys))
    if odd:
        raise PackError(f"{where}: the keys {', '.join(odd)} are missing or unknown.")
    return entry, where


def _telling(
    entry: Mapping[str, Any], where: str, path: Path, sentences: list[str], step: int
) -> Telling:
    needs = {str(key): str(value) for key, value in entry["needs"].items()}
    for key, value in needs.items():
        if value not in NEEDS.get(key, ()):
            raise PackError(
                f'{where}: the need "{key}: {value}" is unknown. '
                f"Choose from: {', '.join(NEEDS)} with {NEEDS.get(key, ())}."
            )
    low, _, high = str(entry["levels"]).partition("-")
    asked = [str(entry["question"])] if "question" in entry else []
    return Telling(
        id=f"{entry['situation']}/{path.stem}",
        levels=(int(low), int(high or low)),
        tenses=tuple(map(str, entry.get("tenses", ["present", "past"]))),
        needs=needs,
        sentences=tuple(_of_step(parse(text, where), step) for text in sentences),
        questions=tuple(_of_step(parse(text, where), step) for text in asked),
        answer=_of_step(parse(str(entry.get("answer", "")), where), step),
    )


def _of_step(pattern: Pattern, step: int) -> Pattern:
    """The pattern with its roles marked as those of a step; the answer is the whole story's."""
    return tuple(_marked(slot, step) for slot in pattern)


def _marked(slot: Slot, step: int) -> Slot:
    if not slot.role or slot.role in ("answer", "some"):
        return slot
    return replace(slot, role=f"{step} {slot.role}")
