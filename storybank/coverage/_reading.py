"""Reads what coverage needs of problems in the format of sets."""

import re
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from storybank import situations
from storybank.cleaning import clean_text
from storybank.errors import PackError, RequestError
from storybank.model.coverage import Covered, CoveredStep
from storybank.set_file import MAKE_AGAIN, read_nodes, shown_name

_ID = re.compile(r"[a-z0-9][a-z0-9-]{0,59}")
_NAME = re.compile(r"\w[\w .-]{0,59}")
_CODE = 40
_OPERATIONS = ("+", "-")


def read_sets(paths: Sequence[Path]) -> tuple[Covered, ...]:
    """What coverage needs of the problems of all sets in the files `paths`, in order.

    Raises RequestError for a file that is not there or named twice, and PackError, naming file,
    problem and key, for one that holds no set in our JSON.
    """
    seen: dict[Path, Path] = {}
    for path in paths:
        if path.resolve() in seen:
            raise RequestError(
                f'"{shown_name(path)}" is named twice, so its problems would count twice. Name '
                "each set once."
            )
        seen[path.resolve()] = path
    return tuple(one for path in paths for one in _read_set(path))


def covered(node: Any, where: str = "the problem") -> Covered:
    """What coverage needs of one problem with the keys of the set format.

    `where` stands in the messages. Raises PackError for a key that is missing or holds something
    else than it should.
    """
    if not isinstance(node, dict):
        raise PackError(f"{where} is no object with keys. {MAKE_AGAIN}")
    parts, levels = _objects(node, "steps", where), _objects(node, "levels", where)
    steps = [_step(one, where) for one in parts]
    number_sets = _objects(node, "number_sets", where)
    further = [_step({**one, "situation": node.get("situation")}, where) for one in number_sets[1:]]
    strategies = [one["strategy"] for one in (*parts, *number_sets) if one.get("strategy")]
    if not strategies and node.get("strategy"):
        strategies = [node["strategy"]]
    text, standards, unit = node.get("text"), node.get("standards"), node.get("unit")
    if not isinstance(text, str) or not text.strip():
        raise PackError(f'{where} has no "text". {MAKE_AGAIN}')
    if not isinstance(standards, list) or not all(isinstance(one, str) for one in standards):
        raise PackError(f'{where}: "standards" is no list of codes. {MAKE_AGAIN}')
    return Covered(
        text=text,
        standards=tuple(dict.fromkeys(clean_text(one, _CODE)[0] for one in standards)),
        strategies=tuple(dict.fromkeys(_id(one, "strategy", where) for one in strategies)),
        levels=tuple(dict.fromkeys(_name(one.get("vocabulary"), where) for one in levels)),
        steps=tuple(steps),
        unit=None if unit is None else _id(unit, "unit", where),
        further=tuple(further),
    )


def _read_set(path: Path) -> list[Covered]:
    shown = shown_name(path)
    problems = read_nodes(path)["problems"]
    return [covered(one, f"{shown}, problem {at}") for at, one in enumerate(problems, start=1)]


def _objects(node: dict[str, Any], key: str, where: str) -> list[dict[str, Any]]:
    """The objects that stand under a key of a problem; the problem itself where it has none."""
    found = node.get(key) or [node]
    if not isinstance(found, list) or not all(isinstance(one, dict) for one in found):
        raise PackError(f'{where}: "{key}" is no list of objects. {MAKE_AGAIN}')
    return found


def _step(node: dict[str, Any], where: str) -> CoveredStep:
    situation = _id(node.get("situation"), "situation", where)
    numbers = node.get("numbers")
    found = list(numbers.values()) if isinstance(numbers, dict) else []
    if not found or not all(type(one) is int and one >= 0 for one in found):
        raise PackError(f'{where}: "numbers" holds no whole numbers by role. {MAKE_AGAIN}')
    *parts, whole = sorted(found)
    operation = _operation(node, situation)
    if operation == "list":
        return CoveredStep(situation, operation, (), whole)
    if sum(parts) != whole:
        raise PackError(
            f'{where}: the "numbers" {", ".join(map(str, found))} do not add up: the largest must '
            f"be the sum of the others. {MAKE_AGAIN}"
        )
    return CoveredStep(situation, operation, tuple(parts), whole)


def _operation(node: dict[str, Any], situation: str) -> str:
    """The operation that solves a step: as worked, or else as its situation has it."""
    solution = node.get("solution")
    found = solution.get("operation") if isinstance(solution, dict) else None
    if found in _OPERATIONS:
        return str(found)
    known = situations.get(situation).operation if situation in situations.ids() else "list"
    return known if known in _OPERATIONS else "list"


def _id(value: Any, key: str, where: str) -> str:
    if isinstance(value, str) and _ID.fullmatch(value):
        return value
    shown = clean_text(str(value), 60)[0]
    raise PackError(f'{where}: "{key}" is "{shown}", which is no {key}. {MAKE_AGAIN}')


def _name(value: Any, where: str) -> str:
    """The name of a vocabulary, which may be a teacher's own."""
    if isinstance(value, str) and _NAME.fullmatch(value):
        return value
    shown = clean_text(str(value), 60)[0]
    raise PackError(f'{where}: "vocabulary" is "{shown}", which is no vocabulary. {MAKE_AGAIN}')
