"""Reads the fields of a pack one by one and collects every fault with its line."""

import re
from collections.abc import Iterable, Sequence
from typing import Any

from storybank.catalog import At, ListAt, MappingAt
from storybank.model.words import Noun, Range, Verb


class Faults:
    """The faults found in one file, each with its line."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.found: list[tuple[int, str]] = []

    def add(self, where: Any, message: str) -> None:
        """Notes a fault at the line of `where`."""
        self.found.append((getattr(where, "line", 1), message))

    def lines(self) -> list[str]:
        """The faults as lines of text, in the order of the file."""
        return [f"{self.name}, line {line}: {text}" for line, text in sorted(set(self.found))]


class Fields:
    """A mapping of a pack whose keys are taken out one by one; what remains is unknown."""

    def __init__(self, node: Any, what: str, faults: Faults) -> None:
        self.what = what
        self.faults = faults
        self.node: MappingAt = node if isinstance(node, MappingAt) else MappingAt()
        if not isinstance(node, MappingAt):
            faults.add(node, f"{what} must be a mapping of keys and values.")
        self.left = dict(self.node)

    def __enter__(self) -> "Fields":
        return self

    def __exit__(self, *_: object) -> None:
        for key in self.left:
            valid = ", ".join(sorted(set(self.node) - set(self.left)) or ["none"])
            self.faults.add(key, f'{self.what} has the unknown key "{key}". Known here: {valid}.')

    def has(self, key: str) -> bool:
        """Whether the key stands in the mapping."""
        return key in self.node

    def take(self, key: str, *, needed: bool = True) -> Any:
        """The node under `key`, or None; a missing needed key is a fault."""
        value = self.left.pop(key, None)
        if value is None and needed:
            self.faults.add(
                self._place(), f'{self.what} lacks "{key}". Write it, e.g. `{key}: ...`.'
            )
        return value

    def text(self, key: str, default: str = "", *, needed: bool = True) -> str:
        """The text under `key`."""
        value = self.take(key, needed=needed)
        if value is None:
            return default
        if not isinstance(value, At) or not value.strip():
            self.faults.add(value, f'{self.what}: "{key}" must be text.')
            return default
        return " ".join(str(value).split())

    def optional(self, key: str) -> str | None:
        """The text under `key`, or None where it is not written."""
        return self.text(key, needed=False) or None

    def texts(
        self, key: str, default: Sequence[str] = (), *, needed: bool = False
    ) -> tuple[str, ...]:
        """The list of texts under `key`."""
        value = self.take(key, needed=needed)
        if value is None:
            return tuple(default)
        if not isinstance(value, ListAt) or not all(isinstance(item, At) for item in value):
            self.faults.add(value, f'{self.what}: "{key}" must be a list such as [one, other].')
            return tuple(default)
        return tuple(str(item) for item in value)

    def choice(self, key: str, choices: Iterable[str]) -> str:
        """The text under `key`, which must be one of `choices`."""
        value = self.node.get(key)
        text = self.text(key)
        valid = list(choices)
        if text and text not in valid:
            self.faults.add(
                value, f'{self.what}: "{key}" is "{text}". Choose from: {", ".join(valid)}.'
            )
        return text

    def known(
        self, key: str, ids: Iterable[str], kind: str, default: Sequence[str]
    ) -> tuple[str, ...]:
        """The list of ids under `key`, each of which must be known; `default` where missing."""
        value = self.node.get(key)
        valid = list(ids)
        found = self.texts(key, default)
        for name in found:
            if name not in valid:
                self.faults.add(
                    value,
                    f'{self.what}: there is no {kind} "{name}". Choose from: {", ".join(valid)}.',
                )
        return tuple(name for name in found if name in valid)

    def range(self, key: str, default: Range | None = None) -> Range:
        """The range under `key`, written `2-60`."""
        value = self.take(key, needed=default is None)
        return default or (1, 1) if value is None else self.to_range(value)

    def to_range(self, value: Any) -> Range:
        """The two whole numbers of a range such as `2-60`."""
        match = re.fullmatch(r"(\d{1,4})-(\d{1,4})", str(value))
        low, high = (int(match[1]), int(match[2])) if match else (0, 0)
        if not 1 <= low <= high <= 1000:
            self.faults.add(
                value,
                f'{self.what}: the range "{value}" must be two numbers from 1 to 1000, as 2-60.',
            )
            return (1, 1)
        return (low, high)

    def verb(self, key: str = "verb", default: Verb | None = None) -> Verb:
        """The four forms of the verb under `key`, written `pick picks picked picked`."""
        value = self.node.get(key)
        if value is None and default is not None:
            return default
        forms = self.text(key).split()
        if len(forms) != 4:
            self.faults.add(
                value,
                f"{self.what}: a verb needs its four forms, e.g. `{key}: take takes took taken`.",
            )
            return Verb("do", "does", "did", "done")
        return Verb(*forms)

    def _place(self) -> Any:
        return self.node


def entries(node: Any, what: str, faults: Faults) -> list[tuple[str, Any]]:
    """The named entries of a mapping; none where it is missing or no mapping."""
    if node is None:
        return []
    if not isinstance(node, MappingAt):
        faults.add(node, f'"{what}" must be a mapping: a name, then what belongs to it.')
        return []
    return [(str(name), item) for name, item in node.items()]


def noun(fields: Fields) -> Noun:
    """The noun with its two forms, taken out of `fields`."""
    one = fields.text("one", "a thing")
    if " " not in one:
        fields.faults.add(
            fields.node, f'{fields.what}: "one" needs its article, e.g. `one: a {one}`.'
        )
        one = f"a {one}"
    return Noun(one=one, many=fields.text("many", "things"))
