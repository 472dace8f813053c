"""The tellings of measured things, which have slots of their own: `{x start}`, `{act change}`."""

import re
from collections.abc import Mapping
from functools import cache
from pathlib import Path

from storybank import catalog
from storybank.compiled import compiled
from storybank.errors import PackError
from storybank.tellings._pattern import ROLES, Pattern, Slot, Telling

FOLDER = Path(__file__).parent / "measured"
NEEDS = {
    "act": ("gain", "lose"),
    "some": ("yes", "no"),
    "compare": ("more", "less"),
    "whole": ("named", "times", "clause"),
    "opening": ("yes",),
    "form": ("adjective",),
}
SIDES = ("x", "y")
PARTS = ("first", "second", "whole")
_PARTS = re.compile(r"\{([^{}]*)\}|([^{}]+)")


def measured_of(situation_id: str) -> tuple[Telling, ...]:
    """All tellings of a situation for measured things, sorted by name."""
    return _all().get(situation_id, ())


@cache
def _all() -> Mapping[str, tuple[Telling, ...]]:
    return compiled("measured-tellings", sorted(FOLDER.glob("*/*.yaml")), _read_all)


def _read_all() -> dict[str, tuple[Telling, ...]]:
    return {
        folder.name: tuple(
            read_measured(folder / f"{name}.yaml") for name in catalog.entry_names(folder, ".yaml")
        )
        for folder in sorted(FOLDER.iterdir())
        if folder.is_dir()
    }


def read_measured(path: Path) -> Telling:
    """The telling in a file. Raises PackError, naming the file, where it is not well formed."""
    (entry,) = catalog.read_documents(path)
    where = f"measured/{path.parent.name}/{path.name}"
    keys = {"levels", "needs", "sentences", "question", "answer"}
    odd = keys ^ (set(entry) - {"tenses"})
    if odd:
        raise PackError(f"{where}: the keys {', '.join(sorted(odd))} are missing or unknown.")
    needs = {str(key): str(value) for key, value in entry["needs"].items()}
    for key, value in needs.items():
        if value not in NEEDS.get(key, ()):
            raise PackError(f'{where}: the need "{key}: {value}" is unknown. Known are: {NEEDS}.')
    low, _, high = entry["levels"].partition("-")
    return Telling(
        id=f"{path.parent.name}/{path.stem}",
        levels=(int(low), int(high or low)),
        tenses=tuple(map(str, entry.get("tenses", ["present", "past"]))),
        needs=needs,
        sentences=tuple(parse_measured(text, where) for text in entry["sentences"]),
        questions=(parse_measured(entry["question"], where),),
        answer=parse_measured(entry["answer"], where),
    )


def parse_measured(text: str, where: str) -> Pattern:
    """The slots of a pattern. Raises PackError, naming file and slot, for one that is unknown.

    `{a|b}` gives a in the present and b in the past. `{x ROLE}` is the clause that says an amount
    of the first thing or person ("a ribbon is 46 inches long"), `{y ROLE}` of the second,
    `{was x ROLE}` the same in the past, `{some x}` without an amount; `{ask x}` and `{asked x}`
    (in the past) ask for it in the unit, `{how x}` and `{how was x}` without. `{more ROLE}` and
    `{less ROLE}` compare x with y, `{ask more}` and `{ask less}` ask for the difference.
    `{act ROLE}` and `{some act}` tell what happens, `{asked act}` asks how much. `{first ROLE}`,
    `{second ROLE}`, `{whole ROLE}`, `{ask first}` ... tell of parts, `{opening}` of both.
    """
    slots = []
    for match in _PARTS.finditer(text):
        inside, plain = match.groups()
        slots.append(Slot("text", present=plain, past=plain) if plain else _slot(inside, where))
    return tuple(slots)


def _slot(inside: str, where: str) -> Slot:
    if "|" in inside:
        present, past = inside.split("|")
        return Slot("tense", present=present, past=past)
    words = inside.split()
    nouns = (*SIDES, *PARTS, "more", "less", "act")
    if inside == "opening":
        return Slot("opening")
    if len(words) == 2 and words[0] in ("ask", "asked") and words[1] in nouns:
        return Slot(words[0], noun=words[1])
    if words[0] == "how" and words[-1] in (*SIDES, *PARTS) and words[1:-1] in ([], ["was"]):
        return Slot("how was" if len(words) == 3 else "how", noun=words[-1])
    if len(words) == 2 and words[0] == "some" and words[1] in ("x", "act"):
        return Slot("some", noun=words[1])
    if len(words) == 3 and words[0] == "was" and words[1] in (*SIDES, "act") and words[2] in ROLES:
        return Slot("was", noun=words[1], role=words[2])
    if len(words) == 2 and words[0] in nouns and words[1] in ROLES:
        return Slot("amount", noun=words[0], role=words[1])
    raise PackError(f'{where}: the slot "{{{inside}}}" is unknown.')
