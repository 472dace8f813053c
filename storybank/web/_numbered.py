"""A text with its lines numbered, and the lines that have a fault."""

import re
from collections.abc import Iterable

_LINE = re.compile(r", line (\d{1,7}): ")
_MOST = 1500
_LONGEST = 400


def by_line(faults: Iterable[str]) -> list[tuple[str, int | None]]:
    """Each fault with the number of the line that it names, as our readers name it."""
    found = [(one, _LINE.search(one)) for one in faults]
    return [(one, int(line[1]) if line else None) for one, line in found]


def numbered(text: str) -> list[str]:
    """The lines of a text to be shown with their numbers; of a very long one its beginning."""
    lines = text.replace("\r\n", "\n").split("\n")[:_MOST]
    return [one if len(one) <= _LONGEST else f"{one[:_LONGEST]} ..." for one in lines]
