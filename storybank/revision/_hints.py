"""What the checks find in a teacher's own words, as far as it is of use to her."""

import re
from collections.abc import Iterator, Sequence

_UNKNOWN = "known-words"
_WORD = re.compile(r'the word "([^"]+)"')
_WHERE = re.compile(r'^In (?:sentence \d+|the answer sentence), ".*?":')
_COUNTED = frozenset({"answer-sentence", "density", "length", "number-words", "unfamiliar-words"})
"""The checks that do not read a sentence word by word: one that is not known does not mislead."""
_NOT_HERS = frozenset(
    {"answer-frame", "given", "labels", "number-sets", "reading-figures", "text", "word-bank"}
)
"""The checks of what a teacher's words cannot change, or of which `laws` speaks."""


def hints(found: Sequence[tuple[str, str]]) -> Iterator[tuple[str, str]]:
    """Of what checks find, behind the id of the check, what says something about her words.

    A word that is not known is named once. Its sentences cannot be read, so nothing is said of
    their grammar.
    """
    unknown: dict[str, None] = {}
    unread = set()
    for check, message in found:
        if check == _UNKNOWN:
            unknown.update(dict.fromkeys(_WORD.findall(message)))
            unread.add(_where(message))
    for check, message in found:
        if check == _UNKNOWN or check in _NOT_HERS or message.startswith("In the answer frame"):
            continue
        if check in _COUNTED or _where(message) not in unread:
            yield check, message
    if unknown:
        *first, last = (f'"{word}"' for word in unknown)
        listed, whose = f"The word {last} is", "its"
        if first:
            listed, whose = f"The words {', '.join(first)} and {last} are", "their"
        yield (
            _UNKNOWN,
            f"{listed} not on our lists, so the grammar of {whose} sentences was not checked. Do "
            "all children know what is meant?",
        )


def _where(message: str) -> str:
    """The sentence that a message is about, as it begins; the same for all messages of it."""
    found = _WHERE.match(message)
    return found[0] if found else ""
