"""The fifteen situations: who holds what, what changes, which role is asked; no English."""

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from storybank import catalog
from storybank.compiled import compiled
from storybank.errors import PackError, RequestError, unknown_value
from storybank.model import Situation
from storybank.model.measures import LENGTHS, MONEY

FOLDER = Path(__file__).parent
_GRADE_ORDER = {"K": 0, "1": 1, "2": 2}


@cache
def ids() -> tuple[str, ...]:
    """The ids of all situations, sorted by name."""
    return catalog.entry_names(FOLDER, ".yaml")


def get(situation_id: str) -> Situation:
    """The situation of that id. Raises RequestError, naming the valid ids, for any other."""
    found = _all().get(situation_id)
    if found is None:
        raise RequestError(unknown_value("situation", situation_id, ids()))
    return found


@cache
def _all() -> Mapping[str, Situation]:
    files = {name: FOLDER / f"{name}.yaml" for name in ids()}
    return compiled(
        "situations",
        files.values(),
        lambda: {name: _read(name, path) for name, path in files.items()},
    )


@cache
def in_grade_order() -> tuple[Situation, ...]:
    """All situations, by grade of expected mastery, then by id."""
    return tuple(
        sorted((get(name) for name in ids()), key=lambda one: (_GRADE_ORDER[one.grade], one.id))
    )


def standards(situation: Situation, whole: int, measured: str | None = None) -> tuple[str, ...]:
    """The CCSS-M codes practised by a problem of this situation whose largest number is `whole`.

    `measured` is the kind of quantity of a measured story: lengths within 100 are 2.MD.5, money
    is 2.MD.8; minutes and points are practised as things to count are.

    Source: CCSS-M K.OA.2, K.OA.3, 1.OA.1, 1.OA.6, 2.OA.1, 2.OA.2, 2.NBT.5, 2.NBT.7. A
    kindergarten situation counts for kindergarten within 10 only.
    """
    if measured == LENGTHS and whole <= 100:
        return ("2.MD.5",)
    if measured == MONEY:
        return ("2.MD.8",)
    if situation.both_parts:
        return ("K.OA.3",) if whole <= 10 else ("1.OA.1",)
    if whole <= 10 and situation.grade == "K":
        return ("K.OA.2",)
    if whole <= 20 and situation.grade != "2":
        return ("1.OA.1", "1.OA.6")
    if whole <= 20:
        return ("2.OA.1", "2.OA.2")
    if whole <= 100:
        return ("2.OA.1", "2.NBT.5")
    return ("2.NBT.7",)


def standards_of_sum(addends: int, whole: int) -> tuple[str, ...]:
    """The CCSS-M codes practised by a sum of three or four addends.

    Source: CCSS-M 1.OA.2 (three whole numbers whose sum is at most 20), 2.NBT.6 (up to four
    two-digit numbers).
    """
    return ("1.OA.2",) if addends == 3 and whole <= 20 else ("2.NBT.6",)


def _read(situation_id: str, path: Path) -> Situation:
    (node,) = catalog.read_documents(path)
    entry: dict[str, Any] = dict(node)
    expected = {
        "title", "family", "roles", "unknown", "situation_equation",
        "solution_equation", "operation", "grade", "sought", "wording",
    }  # fmt: skip
    if set(entry) != expected:
        odd = sorted(set(entry) ^ expected)
        raise PackError(f"{path.name}: the keys {', '.join(odd)} are missing or unknown.")
    first, second, third = entry.pop("roles")
    sought = entry.pop("sought") == "yes"
    texts = {key: str(value) for key, value in entry.items()}
    roles = (str(first), str(second), str(third))
    return Situation(id=situation_id, roles=roles, sought=sought, **texts)
