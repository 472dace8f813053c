"""How three or four parts are told that make a whole."""

from dataclasses import dataclass
from functools import cache
from pathlib import Path

from storybank import catalog
from storybank.compiled import compiled
from storybank.errors import PackError
from storybank.tellings._pattern import Telling, parse

FOLDER = Path(__file__).parent / "_addends" / "sums"
_KEYS = {"addends", "told", "levels", "sentences", "question", "answer"}
TOLD = ("days", "places", "kinds-person", "kinds-place")
"""What the parts differ by: days of one act, places, or kinds that a person or a place has."""


@dataclass(frozen=True, slots=True)
class SumTelling:
    """One way to tell a sum of so many addends; `told` is one of `TOLD`."""

    addends: int
    told: str
    telling: Telling


@cache
def of(addends: int) -> tuple[SumTelling, ...]:
    """All tellings of sums of so many addends, sorted by name."""
    return tuple(one for one in _all() if one.addends == addends)


@cache
def _all() -> tuple[SumTelling, ...]:
    return compiled("addends", sorted(FOLDER.glob("*.yaml")), _read_all)


def _read_all() -> tuple[SumTelling, ...]:
    return tuple(read(FOLDER / f"{name}.yaml") for name in catalog.entry_names(FOLDER, ".yaml"))


def read(path: Path) -> SumTelling:
    """The telling in a file. Raises PackError, naming the file, where it is not well formed."""
    (entry,) = catalog.read_documents(path)
    where = f"{path.parent.name}/{path.name}"
    odd = sorted(set(entry) ^ _KEYS)
    if odd:
        raise PackError(f"{where}: the keys {', '.join(odd)} are missing or unknown.")
    if entry["told"] not in TOLD:
        raise PackError(f'{where}: "{entry["told"]}" is unknown. Choose from: {", ".join(TOLD)}.')
    low, _, high = str(entry["levels"]).partition("-")
    telling = Telling(
        id=f"whole-unknown/{path.stem}",
        levels=(int(low), int(high or low)),
        tenses=("present", "past"),
        needs={},
        sentences=tuple(parse(str(text), where) for text in entry["sentences"]),
        questions=(parse(str(entry["question"]), where),),
        answer=parse(str(entry["answer"]), where),
    )
    return SumTelling(int(entry["addends"]), str(entry["told"]), telling)
