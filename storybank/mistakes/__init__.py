"""The known mistakes: each predicts the wrong answer it leads to, or none."""

from functools import cache
from pathlib import Path
from typing import Protocol, cast

from storybank import catalog
from storybank.errors import RequestError, unknown_value
from storybank.mistakes._case import Case
from storybank.model import WatchFor

__all__ = ["Case", "Mistake", "get", "ids", "predictions", "told_apart", "watch_for"]

FOLDER = Path(__file__).parent
TWINS = frozenset({"landing-not-jumps", "number-from-story"})
FEWEST_FOR_DIAGNOSIS = 3


class Mistake(Protocol):
    """What each module of this folder offers; `ORDER` is smaller the more specific it is."""

    TITLE: str
    ORDER: int

    @staticmethod
    def predict(case: Case) -> int | None:
        """The wrong answer this mistake leads to, or None where it cannot be made."""

    @staticmethod
    def says(case: Case, wrong: int) -> str:
        """What the teacher reads: the error, what the child probably did, what to ask."""


@cache
def ids() -> tuple[str, ...]:
    """The ids of all known mistakes, sorted by name."""
    return catalog.entry_names(FOLDER, ".py")


@cache
def get(mistake_id: str) -> Mistake:
    """The mistake of that id. Raises RequestError, naming the valid ids, for any other."""
    if mistake_id not in ids():
        raise RequestError(unknown_value("mistake", mistake_id, ids()))
    return cast(Mistake, catalog.module_entries(__name__, FOLDER)[mistake_id])


@cache
def _by_order() -> tuple[tuple[str, Mistake], ...]:
    return tuple(sorted(((name, get(name)) for name in ids()), key=lambda one: one[1].ORDER))


def predictions(case: Case) -> dict[int, tuple[str, ...]]:
    """The wrong answers of 0 or more with the mistakes behind each, most specific first.

    The right answer may be among the keys: a mistake that hides is of interest to `told_apart`.
    A problem that asks for all pairs has none.
    """
    if case.situation.both_parts:
        return {}
    found: dict[int, tuple[str, ...]] = {}
    for name, mistake in _by_order():
        if case.parts and not hasattr(mistake, "MANY_PARTS"):
            continue
        wrong = mistake.predict(case)
        if wrong is not None and wrong >= 0:
            found[wrong] = (*found.get(wrong, ()), name)
    return found


def watch_for(case: Case) -> tuple[WatchFor, ...]:
    """The wrong answers to watch for, one entry a number, the most specific mistake first."""
    return tuple(
        WatchFor(wrong, names, _sentences(case, wrong, names))
        for wrong, names in predictions(case).items()
        if wrong != case.answer
    )


def told_apart(case: Case) -> bool:
    """Whether a wrong answer shows which mistake was made.

    At least three entries, none equal to the answer, none that joins two mistakes; the twins
    landing-not-jumps and number-from-story, one thing seen twice, may be joined. Counting by
    ones never qualifies: its own wrong answers lie one away, as any slip of counting does. Our
    own design.
    """
    jumps = case.solution.jumps
    if jumps and all(abs(jump.by) == 1 for jump in jumps):
        return False
    found = predictions(case)
    if len(found) < FEWEST_FOR_DIAGNOSIS or case.answer in found:
        return False
    return all(len(names) == 1 or TWINS.issuperset(names) for names in found.values())


def _sentences(case: Case, wrong: int, names: tuple[str, ...]) -> str:
    first, *others = names
    text = get(first).says(case, wrong)
    if others:
        titles = " or ".join(f'"{get(name).TITLE}"' for name in others)
        text += f" The same number also comes from {titles}."
    return text
