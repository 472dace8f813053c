"""Where the names of people stand in a story, be they short, parts of one another, or words."""

import re
from collections.abc import Callable, Mapping
from functools import lru_cache

from storybank.model.measures import UNITS

_WITHIN = "_'\u2019-"
"""What joins a name to a word before it."""
_SENTENCE_ENDS = (". ", "? ", "\n")
_ARTICLES = frozenset({"A", "An", "Each", "Every", "Some", "The", "This"})
_OPENERS = _ARTICLES | {
    "After", "All", "Altogether", "At", "Before", "Both", "But", "By", "During", "First", "For",
    "From", "How", "In", "Later", "Near", "Next", "Now", "On", "So", "Still", "That", "Then",
    "There", "These", "Today", "Tomorrow", "Under", "When", "With", "Yesterday",
}  # fmt: skip
"""Words that open sentences of stories, with their capital: a child's name may be one of them."""
_DAYS = frozenset({"Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"})
_ON_DAY = re.compile(r"\b[Oo]n (?:[A-Z][a-z]+day and )?$")
_NEXT = re.compile(r" ([^\W\d_]+|\d+|\S)(?: ?([^\W\d_]+|\d+|\S))?")
_ASKS = re.compile(r"[^.?\n]*\?")
_LONG = re.compile(r" [a-z]+(?:ed|[^su]s) [a-z]+ (?:for|some|more|fewer|minutes|___|\d)")
"""An act that takes a while: watered plants for 14 minutes."""
_DOES = frozenset({"also", "and", "had", "has", "have", "still"})
"""What stands behind a person who opens a sentence, beside the forms of an act."""
_NOT_DONE = frozenset(
    {
        "a", "all", "an", "are", "at", "be", "each", "every", "few", "fewer", "first", "he", "how",
        "in", "is", "it", "many", "more", "of", "on", "one", "she", "some", "that", "the", "there",
        "these", "they", "this", "to", "today", "total", "was", "were",
    }
)  # fmt: skip
"""What never stands there."""
_DONE_TO = frozenset(
    {
        "_", "a", "an", "at", "away", "back", "down", "each", "fewer", "for", "from", "in", "into",
        "more", "off", "on", "onto", "out", "some", "the", "to", "up", "with",
    }
)  # fmt: skip
"""What stands behind the form of an act, and not behind a noun that opens a sentence."""


def marked(text: str, name: str, mark: str, others: tuple[str, ...] = ()) -> str:
    """The text with the mark wherever the name stands by itself, as a name.

    A name is no part of a word, and has its capitals; where a word of the language opens a
    sentence (On Monday, How many), or a day is told, it is no name even if a child is called so.
    `others` are names, or their marks, that may stand behind such a word.
    """
    if not name:
        return text
    if name in _OPENERS or name in _DAYS:
        known = tuple(filter(None, (name, *others)))
        return as_word(name).sub(lambda found: name if _is_word(found, known) else mark, text)
    parts = text.split(name)
    rest = parts[1:]
    alone = "" not in rest[:-1]
    for part in parts[:-1]:
        alone = alone and not (part and (part[-1].isalnum() or part[-1] in _WITHIN))
    for part in rest:
        alone = alone and not (part and (part[0].isalnum() or part[0] == "_"))
    return mark.join(parts) if alone else as_word(name).sub(mark, text)


def replacing(names: Mapping[str, str]) -> Callable[[str], str]:
    """A function that gives a text with other names for the `names` that stand in it, all at once.

    Names are found as `marked` finds them, the longest first.
    """
    known = tuple(sorted(filter(None, names), key=len, reverse=True))
    if not known:
        return lambda text: text
    pattern = as_word(*known)

    def other(found: re.Match[str]) -> str:
        name = found[0]
        return name if _is_word(found, known) else names[name]

    return lambda text: pattern.sub(other, text)


@lru_cache(maxsize=8192)
def as_word(*names: str) -> re.Pattern[str]:
    """A pattern for each of the names that stands by itself, as a word with its capitals."""
    either = "|".join(map(re.escape, names))
    return re.compile(rf"(?<![\w'\u2019-])(?:{either})(?!\w)")


def _is_word(found: re.Match[str], names: tuple[str, ...]) -> bool:
    """Whether what was found is the word that a child is called by, not the child."""
    name, text = found[0], found.string
    if name in _DAYS:
        return _ON_DAY.search(text, max(0, found.start() - 20), found.start()) is not None
    if name not in _OPENERS:
        return False
    if found.start() and not text.endswith(_SENTENCE_ENDS, 0, found.start()):
        return False
    return not _acts(name, text[found.end() :], names)


def _acts(name: str, rest: str, names: tuple[str, ...]) -> bool:
    """Whether `rest` of a sentence goes on as behind a person who opens it."""
    behind = _NEXT.match(rest)
    if behind is None or rest.startswith(names, 1) or _ASKS.match(rest):
        return False
    act, then = behind[1], behind[2] or ""
    if act in _DOES:
        return True
    if act in {"can", "could"}:
        return then != "be"
    if not act.islower() or act in _NOT_DONE or then == ",":
        return False
    if name not in _ARTICLES or then.isdigit() or then in _DONE_TO or then in UNITS:
        return True
    return rest.startswith(names, behind.end(1) + 1) or _LONG.match(rest) is not None
