"""Reads the plan of a week, and says by line what is wrong in it."""

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from types import MappingProxyType
from typing import Any

from storybank import catalog, vocabulary
from storybank.cleaning import clean_text
from storybank.errors import PackError, RequestError, StorybankError, unknown_value
from storybank.located import At, Faults, MappingAt
from storybank.model.week import PARTS
from storybank.week import _fields as fields
from storybank.week._beside import Beside
from storybank.week._plan import (
    CHOOSE,
    DAYS,
    NO_STRATEGY,
    USUAL_PARTS,
    WARM_UPS,
    DayPlan,
    Plan,
)

FEWEST_DAYS, MOST_DAYS = 3, 5
PASTED = "plan"
"""What a plan is called that is in no file."""
_NO_THEMES: Mapping[str, str] = MappingProxyType({})
_OWN = ("title", "theme", "seed", "groups", "people", "before", "each_day", "days")
_OF_DAY = ("strategy", "situations", "goal", "warm_up", "again", "pages", *PARTS)


def read_plan(path: Path, *, group: str = vocabulary.DEFAULT) -> Plan:
    """The plan in a file, with every default filled in.

    `group` is the vocabulary of a plan that names no groups, one of ours or one's own by its file.
    Raises RequestError where there is no such file and PackError with every fault by line.
    """
    if not path.is_file():
        raise RequestError(
            f'There is no plan "{clean_text(str(path), 200)[0]}". Check its name and folder, or '
            f"write one to begin with: storybank new-week {clean_text(path.stem, 60)[0]}"
        )
    faults = Faults(path.name)
    node = _one_plan(catalog.read_documents(path), path.name)
    plan = _Reader(faults, group, path.parent, {}).plan(node)
    faults.stop()
    assert plan is not None
    return plan


def read_plan_text(
    text: str,
    *,
    name: str = PASTED,
    group: str = vocabulary.DEFAULT,
    own_themes: Mapping[str, str] = _NO_THEMES,
) -> Plan:
    """The plan in a text that lies in no folder, and so may name no file.

    `name` stands in the messages, `own_themes` are the files of a teacher's themes by name.
    Raises PackError with every fault by line.
    """
    faults = Faults(name)
    node = _one_plan(catalog.parse_documents(text, name), name)
    plan = _Reader(faults, group, None, own_themes).plan(node)
    faults.stop()
    assert plan is not None
    return plan


def plan_of(
    node: MappingAt,
    faults: Faults,
    *,
    group: str = vocabulary.DEFAULT,
    own_themes: Mapping[str, str] = _NO_THEMES,
) -> Plan | None:
    """The plan of keys and values that are read already, as `read_plan_text`.

    None where `faults` were noted, each at the `line` of its value.
    """
    return _Reader(faults, group, None, own_themes).plan(node)


def _one_plan(documents: Sequence[Any], name: str) -> MappingAt:
    node = documents[0] if documents else None
    if len(documents) > 1 or not isinstance(node, MappingAt):
        raise PackError(
            f'{name}, line 1: a plan is one list of keys with values, such as "theme: '
            f'autumn-harvest". Choose keys from: {", ".join((*_OWN, *fields.FOR_ALL))}.'
        )
    return node


class _Reader:
    """Reads one plan and collects its faults; files are sought in `folder`, without one refused."""

    def __init__(
        self, faults: Faults, group: str, folder: Path | None, own_themes: Mapping[str, str]
    ) -> None:
        self.faults = faults
        self.group = group
        self.files = Beside(folder, own_themes)

    def plan(self, node: MappingAt) -> Plan | None:
        known = (*_OWN, *fields.FOR_ALL)
        self.only(node, known, "plan")
        for key in ("theme", "days"):
            if key not in node:
                self.faults.add(node, f'the plan lacks "{key}". Write it, e.g. {_EXAMPLES[key]}.')
        usual = self.amounts(node.get("each_day"), "each_day")
        days = self.days(node.get("days"), {**USUAL_PARTS, **usual})
        values: dict[str, Any] = {
            "title": self.value(node, "title", fields.title, "Our week"),
            "theme": self.value(node, "theme", self.listed(self.files.theme), ()),
            "groups": self.value(node, "groups", self.files.groups, (self.group,)),
            "people": self.value(node, "people", fields.number(2, 30), 8),
            "seed": self.value(node, "seed", fields.number(0, 10**9), None),
            "before": self.value(node, "before", self.listed(fields.strategy), ()),
            "request": self.further(node, {**fields.FOR_ALL, "names_from": self.files.names_from}),
        }
        if "names" in node and "names_from" in node:
            self.faults.add(
                node["names_from"],
                "names and names_from are both given. Keep one: a class list, or a list by name.",
            )
        return None if self.faults.found else Plan(days=days, **values)

    def days(self, node: Any, usual: Mapping[str, int]) -> tuple[DayPlan, ...]:
        if node is None:
            return ()
        if not isinstance(node, MappingAt):
            self.faults.add(node, f"days are written one below the other, e.g. {_EXAMPLES['days']}")
            return ()
        if not FEWEST_DAYS <= len(node) <= MOST_DAYS:
            self.faults.add(
                node,
                f"the plan has {len(node)} day{'s' * (len(node) != 1)}. A week has {FEWEST_DAYS} "
                f"to {MOST_DAYS}.",
            )
        found: list[DayPlan] = []
        written: dict[str, Any] = {}
        for name, entry in node.items():
            before = written.setdefault(name.lower(), name)
            if before is not name:
                shown = clean_text(name, 40)[0]
                self.faults.add(
                    name,
                    f'the day "{shown}" is written in line {before.line} too, as "{before}". Give '
                    "one of the two another name, or delete it.",
                )
            elif name.lower() not in DAYS:
                shown = clean_text(name, 40)[0]
                self.faults.add(name, unknown_value("day", shown, DAYS))
            elif isinstance(entry, MappingAt):
                found.append(self.day(name, entry, usual))
            else:
                self.faults.add(
                    name,
                    f'the day "{name}" has nothing below it. Write its keys indented, such as '
                    '"strategy: count-up", or "strategy: none".',
                )
        return tuple(found)

    def day(self, name: str, node: MappingAt, usual: Mapping[str, int]) -> DayPlan:
        wishes = {**fields.FOR_A_DAY, **fields.KINDS}
        self.only(node, (*_OF_DAY, *wishes), f'day "{name}"')
        strategy = self.value(node, "strategy", fields.strategy_of_a_day, NO_STRATEGY)
        own = {part: node[part] for part in PARTS if part in node}
        parts = {**usual, **self.amounts(own, name)}
        if strategy == CHOOSE and "review" not in node:
            parts["review"] = 0
        odd = [key for key in fields.KINDS if key in node]
        if strategy == CHOOSE and odd:
            self.faults.add(
                odd[0],
                f'on the day "{name}" the child chooses a strategy, and {odd[0]} asks for a kind '
                "of story of its own. Give it to another day.",
            )
        if not any(parts[part] for part in PARTS):
            self.faults.add(name, f'the day "{name}" has no problem in any part. Give some.')
        return DayPlan(
            name=name.lower(),
            strategy=strategy,
            situations=self.value(node, "situations", self.listed(fields.situation), ()),
            goal=self.value(node, "goal", fields.title, None),
            warm_up=self.value(node, "warm_up", self.warm_up, (10,)),
            parts=parts,
            again=self.again(node.get("again")),
            pages=self.value(node, "pages", self.listed(str), ()),
            request=self.further(node, wishes),
        )

    def further(self, node: MappingAt, known: Mapping[str, Callable[[Any], Any]]) -> dict[str, Any]:
        """Wishes that are handed on to the request, under its own names."""
        found = {}
        for key, read in known.items():
            if key in node:
                value = self.value(node, key, read, None)
                if value is not None and key in fields.FILES:
                    value = self.beside(node[key], key, value)
                found[key] = value
        return found

    def value(self, node: MappingAt, key: str, read: Callable[[Any], Any], otherwise: Any) -> Any:
        """What `read` makes of a key; its fault is noted at the line of the value."""
        if key not in node:
            return otherwise
        item = node[key]
        try:
            return read(item)
        except StorybankError as error:
            where = item if hasattr(item, "line") else node
            self.faults.add(where, f"{key}: {error}")
            return otherwise

    def only(self, node: MappingAt, known: Sequence[str], of: str) -> None:
        for key in node:
            if key not in known:
                self.faults.add(
                    key, unknown_value(f"key of the {of}", clean_text(key, 60)[0], known)
                )

    def amounts(self, node: Any, where: str) -> dict[str, int]:
        """How many problems the parts named have."""
        if node is None:
            return {}
        if not isinstance(node, dict):
            self.faults.add(node, f'{where} is written as parts with numbers, e.g. "alone: 4".')
            return {}
        found = {}
        for part, item in node.items():
            if part not in PARTS:
                self.faults.add(
                    part, unknown_value("part of a day", clean_text(part, 40)[0], PARTS)
                )
                continue
            try:
                found[part] = fields.amount(item)
            except StorybankError as error:
                self.faults.add(item, f"{part}: {error}")
        return found

    def again(self, node: Any) -> dict[str, int]:
        """How often parts were renewed: a number for all of the day, or one for each part."""
        if isinstance(node, dict):
            return self.amounts(node, "again")
        if node is None:
            return {}
        try:
            return dict.fromkeys(PARTS, fields.amount(node))
        except StorybankError as error:
            self.faults.add(node, f"again: {error}")
            return {}

    def warm_up(self, node: Any) -> tuple[int, ...]:
        found = []
        for text in fields.texts(node, may_be_empty=True):
            number = fields.number(1, 100)(At(text))
            if number not in WARM_UPS:
                valid = ", ".join(map(str, WARM_UPS))
                raise RequestError(f"no counting by {number}. Choose from: {valid}.")
            found.append(number)
        return tuple(found)

    def listed(self, read: Callable[[str], str]) -> Callable[[Any], tuple[str, ...]]:
        return lambda node: tuple(dict.fromkeys(read(one) for one in fields.texts(node)))

    def beside(self, where: Any, key: str, name: str) -> str | None:
        """The path of a file named in the plan, which lies beside it."""
        try:
            path = self.files.own(name)
        except RequestError as error:
            self.faults.add(where, f"{key}: {error}")
            return None
        if Path(path).is_file():
            return path
        shown = clean_text(name, 100)[0]
        self.faults.add(
            where, f'{key}: there is no file "{shown}" beside {self.faults.name}. Check its name.'
        )
        return None


_EXAMPLES = {"theme": "`theme: autumn-harvest`", "days": "`days:` and below it `monday:`"}
