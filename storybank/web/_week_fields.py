"""The fields of a week's form: as an address, as the keys of a plan, and a plan as fields again."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any
from urllib.parse import urlencode

import yaml

from storybank.cleaning import clean_text
from storybank.errors import RequestError
from storybank.located import At, Faults, ListAt, MappingAt
from storybank.model.week import PARTS
from storybank.web._house import House
from storybank.web._wishes import FieldError
from storybank.week import Plan, plan_of

MOST_DAYS = 5
MOST_LETTERS = 200
MOST_VALUES = 60
_WEEK = (
    "title", "theme", "seed", "groups", "people", "before", "within", "crossing", "keywords",
    "without", "festivals", "home_language", "names_from",
)  # fmt: skip
_DAY = (
    "strategy", "situations", "goal", "warm_up", *PARTS, "pages", "within", "crossing", "keywords",
    "steps", "then", "addends", "units", "number_sets", "extra_number", "missing",
)  # fmt: skip
_LISTS = (
    "theme", "groups", "before", "without", "festivals", "home_language", "situations", "warm_up",
    "pages", "then", "units", "number_sets",
)  # fmt: skip
_SPLIT = ("home_language", "number_sets")
"""Lists that are typed in one field."""
_USUAL = {"crossing": "any", "keywords": "mixed", "steps": "1", "addends": "2"}
_AGAIN = "again"


def _day_keys(at: int) -> tuple[str, ...]:
    keys = (*(("name", *_DAY)), *(f"{_AGAIN}-{part}" for part in PARTS))
    return tuple(f"{at}-{key}" for key in keys)


KEYS = (*_WEEK, *(key for at in range(1, MOST_DAYS + 1) for key in _day_keys(at)))
"""All fields, in the order in which an address has them."""


@dataclass(frozen=True)
class WeekFields:
    """What the form says: the values under each key; those of a day behind its place, `2-goal`."""

    values: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    @classmethod
    def of(cls, pairs: Iterable[tuple[str, str]]) -> "WeekFields":
        """The fields of the pairs of an address or a form; empty and usual ones are left out.

        Raises FieldError for a key that no week has, and for values too long or too many.
        """
        found: dict[str, list[str]] = {}
        for key, value in pairs:
            if key not in KEYS:
                raise FieldError(
                    "",
                    f'This address asks for "{clean_text(key, 40)[0]}", which no week has. Choose '
                    "again below.",
                )
            if len(value) > MOST_LETTERS:
                raise FieldError(key, f"This is too long. Write at most {MOST_LETTERS} letters.")
            told = _plain(key)
            parts = value.replace(",", " ").split() if told in _SPLIT else [value.strip()]
            if told not in _LISTS:
                found[key] = []
            found.setdefault(key, []).extend(one for one in parts if one)
            if len(found[key]) > MOST_VALUES:
                raise FieldError(key, f"{len(found[key])} values are too many. Choose fewer.")
        said = {key: tuple(found[key]) for key in KEYS if found.get(key)}
        named = {str(at) for at in range(1, MOST_DAYS + 1) if f"{at}-name" in said}
        return cls(
            {
                key: one
                for key, one in said.items()
                if one != (_USUAL.get(_plain(key)),)
                and ("-" not in key or key.partition("-")[0] in named)
            }
        )

    def get(self, key: str, otherwise: str = "") -> str:
        """The value under a key, else what is usual there."""
        values = self.values.get(key)
        return values[-1] if values else _USUAL.get(_plain(key), otherwise)

    def all(self, key: str) -> tuple[str, ...]:
        """All values under a key."""
        return self.values.get(key, ())

    def has(self, key: str, value: str | None = None) -> bool:
        """Whether the key is there, or has the value."""
        return key in self.values if value is None else value in self.values.get(key, ())

    def with_(self, **changed: str | int) -> "WeekFields":
        """The fields with other values."""
        new = {key: (str(value),) for key, value in changed.items()}
        return WeekFields.of(_pairs({**self.values, **new}))

    def once_more(self, at: int, part: str) -> "WeekFields":
        """The fields with a part of the day at a place renewed once more."""
        key = f"{at}-{_AGAIN}-{part}"
        return self.with_(**{key: int(self.get(key, "0")) + 1})

    @property
    def query(self) -> str:
        """The fields as the query of an address, always in the same order."""
        return urlencode(_pairs(self.values))

    @property
    def days(self) -> tuple[int, ...]:
        """The places of the form whose day is named."""
        return tuple(at for at in range(1, MOST_DAYS + 1) if self.has(f"{at}-name"))

    def plan(self, house: House) -> Plan:
        """The plan that the fields say, read as a plan in a file is.

        Raises FieldFaults with what is wrong by field.
        """
        faults = Faults("the week")
        plan = plan_of(self._node(faults), faults, group=house.group, own_themes=house.own_themes())
        if plan is None:
            raise FieldFaults([(KEYS[line or 0], text) for line, text in faults.found])
        return plan

    def as_yaml(self) -> str:
        """The plan as a file for the command line."""
        node = _as_plain(self._node(Faults("")))
        text: str = yaml.safe_dump(
            node, sort_keys=False, allow_unicode=True, width=100, default_flow_style=None
        )
        return text

    def _node(self, faults: Faults) -> MappingAt:
        """The keys of a plan, each value with the place of its field as its line."""
        node = self._keys("", _WEEK)
        days = MappingAt()
        days.line = KEYS.index("1-name")
        for at in self.days:
            name = _at(self.get(f"{at}-name"), f"{at}-name")
            if name in days:
                faults.add(name, f"{name.capitalize()} is there twice. Choose another day.")
            day = self._keys(f"{at}-", _DAY)
            day.setdefault(_at("warm_up", f"{at}-warm_up"), _list((), f"{at}-warm_up"))
            again = self._keys(f"{at}-{_AGAIN}-", PARTS)
            if again:
                day[_at(_AGAIN, f"{at}-name")] = again
            days[name] = day
        node[_at("days", "1-name")] = days
        return node

    def _keys(self, before: str, keys: Sequence[str]) -> MappingAt:
        node = MappingAt()
        node.line = KEYS.index(f"{before}{keys[0]}" if before else "theme")
        for key in keys:
            name = f"{before}{key}"
            if name in self.values:
                values = self.values[name]
                several = key in _LISTS
                node[_at(key, name)] = _list(values, name) if several else _at(values[-1], name)
        return node


class FieldFaults(RequestError):
    """What is wrong in a form: each field with its sentence."""

    def __init__(self, found: Sequence[tuple[str, str]]) -> None:
        super().__init__("\n".join(text for _, text in found))
        self.found = tuple(found)


def fields_of(plan: Plan) -> WeekFields:
    """The fields of a form that say a plan."""
    own = {**plan.to_json(), "theme": [_theme(one) for one in plan.theme]}
    pairs = [*_said("", {key: own.get(key) for key in _WEEK})]
    for at, day in enumerate(plan.days, start=1):
        told = day.to_json()
        pairs += [(f"{at}-name", day.name), *_said(f"{at}-", {key: told.get(key) for key in _DAY})]
        pairs += _said(f"{at}-{_AGAIN}-", day.again)
    return WeekFields.of(pairs)


def _said(before: str, values: Mapping[str, Any]) -> Iterable[tuple[str, str]]:
    for key, value in values.items():
        for one in value if isinstance(value, list | tuple) else (value,):
            if one is True:
                yield f"{before}{key}", "yes"
            elif one is not None and one is not False:
                yield f"{before}{key}", str(one)


def _theme(name: str) -> str:
    """The id of a theme, of a file the one that it is called by."""
    return name.replace("\\", "/").rsplit("/", 1)[-1].removesuffix(".yaml")


def _plain(key: str) -> str:
    return key.rpartition("-")[2]


def _pairs(values: Mapping[str, Sequence[str]]) -> list[tuple[str, str]]:
    return [(key, one) for key in KEYS for one in values.get(key, ())]


def _at(text: str, name: str) -> At:
    found = At(text)
    found.line = KEYS.index(name)
    return found


def _list(values: Sequence[str], name: str) -> ListAt:
    found = ListAt(_at(one, name) for one in values)
    found.line = KEYS.index(name)
    return found


def _as_plain(node: Any) -> Any:
    """The node as plain values, numbers as such."""
    if isinstance(node, Mapping):
        return {str(key): _as_plain(value) for key, value in node.items()}
    if isinstance(node, list):
        return [_as_plain(one) for one in node]
    plain = node.isascii() and node.isdigit() and len(node) < 12
    return int(node) if plain and str(int(node)) == node else str(node)
