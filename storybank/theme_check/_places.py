"""Where things stand in a pack's file, and the warnings found there."""

from collections.abc import Sequence
from typing import Any

from storybank.catalog import MappingAt


class Places:
    """Finds the line of an entry by the keys that lead to it."""

    def __init__(self, content: Any) -> None:
        self.content = content

    def line(self, *keys: str) -> int | None:
        """The line of the entry under `keys`, or None where there is none."""
        node, line = self.content, None
        for key in keys:
            if not isinstance(node, MappingAt) or key not in node:
                return None
            line = next(one.line for one in node if one == key)  # type: ignore[attr-defined]
            node = node[key]
        return line


class Warnings:
    """The warnings on one file; those with a line come first, in the order of the file."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.found: list[tuple[int | None, str]] = []

    def add(self, line: int | None, message: str) -> None:
        """Notes a warning, once."""
        if (line, message) not in self.found:
            self.found.append((line, message))

    def lines(self) -> list[str]:
        """The warnings as lines of text."""
        placed = sorted((line, text) for line, text in self.found if line is not None)
        return [
            *(f"{self.name}, line {line}: {text}" for line, text in placed),
            *(f"{self.name}: {text}" for line, text in self.found if line is None),
        ]


def listing(items: Sequence[str], joint: str = "and") -> str:
    """The items as English writes a list: one, two and three."""
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} {joint} {items[-1]}"
