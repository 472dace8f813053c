"""Texts, mappings and lists that remember their line in a file, and faults noted by line."""

from typing import Any

from storybank.errors import PackError

MOST_FAULTS = 300
"""After so many a file is read no further: it is no pack, or a text that does not end."""


class At(str):
    """A text that remembers the line it stood in."""

    __slots__ = ("line",)
    line: int


class MappingAt(dict[str, Any]):
    """A mapping that remembers the line it began in; its keys are `At` texts."""

    __slots__ = ("line",)
    line: int


class ListAt(list[Any]):
    """A list that remembers the line it began in."""

    __slots__ = ("line",)
    line: int


class Faults:
    """The faults found in one file, each with its line; notes that have none stand last."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.found: dict[tuple[int | None, str], None] = {}

    def add(self, where: Any, message: str) -> None:
        """Notes a fault, once: at the line `where`, at that of a node, or with None at none.

        Raises PackError with all of them where there are more than anybody would read.
        """
        line = where if where is None or isinstance(where, int) else getattr(where, "line", 1)
        self.found.setdefault((line, message))
        if len(self.found) > MOST_FAULTS:
            self.found.setdefault(
                (None, f"more than {MOST_FAULTS} faults were found; the rest is not looked at.")
            )
            self.stop()

    def lines(self) -> list[str]:
        """The faults as lines of text, in the order of the file."""
        placed = sorted((line, text) for line, text in self.found if line is not None)
        return [
            *(f"{self.name}, line {line}: {text}" for line, text in placed),
            *(f"{self.name}: {text}" for line, text in self.found if line is None),
        ]

    def stop(self) -> None:
        """Raises PackError with every fault by line, if there are any."""
        if self.found:
            raise PackError("\n".join(self.lines()))
