"""Where things stand in a pack's file, and how a message lists them."""

from collections.abc import Sequence
from typing import Any

from storybank.located import At, MappingAt


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
            line = next(one.line for one in node if isinstance(one, At) and one == key)
            node = node[key]
        return line


def listing(items: Sequence[str], joint: str = "and") -> str:
    """The items as English writes a list: one, two and three."""
    if len(items) < 2:
        return "".join(items)
    return f"{', '.join(items[:-1])} {joint} {items[-1]}"
