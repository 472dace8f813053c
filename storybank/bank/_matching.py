"""Which shelves and problems of a bank meet a request for a set."""

import json
import sqlite3
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from storybank.bank._drawing import Grouped, ShelfOf
from storybank.bank._finding import Kept
from storybank.number_choice import SMALL
from storybank.request import Settled

_SAME = (
    "allow", "forbid", "home_language", "translations", "standards", "number_sets",
    "extra_number", "missing", "levels_side_by_side",
)  # fmt: skip
"""What must have been asked of a problem exactly as it is asked for now."""
_NOTHING: tuple[object, ...] = ("", None, False, [])
_REMEMBERED = 256


@dataclass(frozen=True, slots=True)
class _Shelf:
    """A shelf as it stands in the bank."""

    number: int
    theme: str
    scene: str
    situation: str
    strategy: str
    vocabulary: str
    terms: Mapping[str, Any]


class Shelves:
    """All shelves of a bank, read once; new ones are read when there are any."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        """Nothing is read yet."""
        self._connection = connection
        self._read: dict[int, _Shelf] = {}
        self._met: dict[str, Grouped] = {}

    def meeting(self, settled: Settled) -> Grouped:
        """The shelves whose problems meet all wishes but those about numbers, by situation."""
        self._refresh()
        asked = {**settled.to_json(), "seed": None, "count": None, "names": None, "within": None}
        key = f"{sorted(asked.items())}{settled.scene_keys()}"
        if key not in self._met:
            if len(self._met) >= _REMEMBERED:
                self._met.clear()
            self._met[key] = self._found(_Meets(settled))
        return self._met[key]

    def _found(self, meets: "_Meets") -> Grouped:
        found: dict[str, list[ShelfOf]] = {}
        for one in self._read.values():
            if meets(one):
                shelf = ShelfOf(one.number, f"{one.theme}/{one.scene}")
                found.setdefault(one.situation, []).append(shelf)
        return {situation: tuple(some) for situation, some in found.items()}

    def _refresh(self) -> None:
        """Reads the shelves that are new; a shelf once there stays, if only as an empty one."""
        rows = self._connection.execute(
            "SELECT shelf.id, theme, scene, situation, strategy, vocabulary, terms.terms "
            "FROM shelf JOIN terms ON terms.id = shelf.terms WHERE shelf.id > ? ORDER BY shelf.id",
            (max(self._read, default=0),),
        )
        known: dict[str, Mapping[str, Any]] = {}
        for number, theme, scene, situation, strategy, vocabulary, terms in rows:
            if terms not in known:
                known[terms] = json.loads(terms)
            self._read[number] = _Shelf(
                number, theme, scene, situation, strategy, vocabulary, known[terms]
            )
            self._met.clear()


class _Meets:
    """Whether a shelf meets a request."""

    def __init__(self, settled: Settled) -> None:
        self._settled = settled
        self._asked = settled.to_json()
        self._scenes = frozenset(settled.scene_keys())
        self._pairs = frozenset("/".join(one) for one in settled.step_pairs)
        self._kinds = frozenset(_kinds(settled))
        self._terms: dict[int, bool] = {}

    def __call__(self, shelf: _Shelf) -> bool:
        settled = self._settled
        if f"{shelf.theme}/{shelf.scene}" not in self._scenes:
            return False
        if shelf.vocabulary != settled.vocabulary.id:
            return False
        if self._pairs:
            if shelf.situation not in self._pairs:
                return False
        elif shelf.situation not in settled.situations:
            return False
        wished = settled.strategies_for.get(shelf.situation) or settled.strategies
        if wished != ("any",) and not set(shelf.strategy.split("/")) <= set(wished):
            return False
        known = id(shelf.terms)
        if known not in self._terms:
            self._terms[known] = self._agree(shelf.terms)
        return self._terms[known]

    def _agree(self, terms: Mapping[str, Any]) -> bool:
        """Whether problems made under these terms are as the request wants them."""
        asked = self._asked
        if terms.get("fact_families") or terms.get("pair"):
            return False
        if terms.get("kind", "") not in self._kinds:
            return False
        if any(_said(terms.get(key)) != _said(asked.get(key)) for key in _SAME):
            return False
        if not set(asked["without"]) <= set(terms.get("without", ())):
            return False
        if asked["keywords"] == "none" and terms.get("keywords") != "none":
            return False
        return bool(terms.get("diagnose")) or not asked["diagnose"]


def _said(value: Any) -> Any:
    """A value of the request; all ways of asking for nothing are alike."""
    return None if value in _NOTHING else value


def _kinds(settled: Settled) -> Iterator[str]:
    if settled.step_pairs:
        yield "two steps"
    elif settled.addends > 2:
        yield f"{settled.addends} addends"
    elif settled.units:
        yield from settled.units
    else:
        yield ""


class Suits:
    """Whether a problem of a shelf meets what a request says of its numbers beyond their size.

    Its JSON is read only where that is asked for. The numbers of its number sets must not be
    those of one that suited before.
    """

    def __init__(self, settled: Settled, crossing: str) -> None:
        """For problems that regroup always, never or as they do (any)."""
        self._settled = settled
        self._crossing = crossing
        self._used: set[tuple[int, ...]] = set()

    def __call__(self, one: Kept) -> bool:
        settled = self._settled
        if self._crossing == "any" and not settled.small and not settled.number_sets:
            return True
        node = one.node
        if self._crossing != "any" and regroups(node.get("numbers")) is not (
            self._crossing == "always"
        ):
            return False
        if settled.small and not _is_small(node):
            return False
        sets = {tuple(sorted(one["numbers"].values())) for one in node.get("number_sets") or ()}
        if sets & self._used:
            return False
        self._used |= sets
        return True


def regroups(numbers: Mapping[str, int] | None) -> bool | None:
    """Whether three numbers regroup; None where that cannot be said, as of two steps.

    The rule is that of `number_choice`: the ones of the whole are fewer than those of a part.
    """
    if numbers is None or len(numbers) != 3:
        return None
    whole, part = max(numbers.values()), min(numbers.values())
    return bool(whole % 10 < part % 10)


def _is_small(node: Mapping[str, Any]) -> bool:
    """Whether each part of two steps is a single digit, but for what the first step gives."""
    for place, step in enumerate(node["steps"]):
        *parts, _ = step["numbers"].values()
        if place and node["hidden"] in parts:
            parts.remove(node["hidden"])
        if max(parts) > SMALL:
            return False
    return True
