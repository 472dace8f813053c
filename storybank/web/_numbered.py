"""A text with its lines numbered, and the lines that have a fault."""

import re
from collections.abc import Iterable

_LINE = re.compile(r", line (\d{1,7}): ")
_MOST = 1500
_LONGEST = 400


def marked_lines(faults: Iterable[str]) -> frozenset[int]:
    """The numbers of the lines that faults name, as our readers name them."""
    return frozenset(int(found[1]) for one in faults if (found := _LINE.search(one)))


def numbered(text: str) -> list[str]:
    """The lines of a text to be shown with their numbers; of a very long one its beginning."""
    lines = text.replace("\r\n", "\n").split("\n")[:_MOST]
    return [one if len(one) <= _LONGEST else f"{one[:_LONGEST]} ..." for one in lines]
