"""The values of a plan: how each key is read, and which wishes are handed on to the stories."""

from collections.abc import Callable, Mapping
from typing import Any

from storybank import situations, strategies
from storybank.asked import crossing
from storybank.cleaning import clean_text
from storybank.errors import RequestError, unknown_value
from storybank.located import At, ListAt
from storybank.request import KEYWORDS, WITHIN
from storybank.themes import selection
from storybank.week._plan import CHOOSE, MOST_OF_A_PART, NO_STRATEGY

_LETTERS = 80


def text(node: Any) -> str:
    """One text of one line."""
    if not isinstance(node, At) or not node.strip():
        raise RequestError("one value must stand here, not a list and not nothing.")
    return str(node)


def title(node: Any) -> str:
    """A text that is printed, cleaned of signs that cannot be."""
    cleaned, _ = clean_text(text(node), _LETTERS)
    if not cleaned.strip():
        raise RequestError("this text holds no sign that can be printed. Write some words.")
    return cleaned


def texts(node: Any, *, may_be_empty: bool = False) -> list[str]:
    """A list of texts; a single value counts as a list of one."""
    if isinstance(node, At):
        return [text(node)]
    if not isinstance(node, ListAt) or not all(isinstance(one, At) for one in node):
        raise RequestError('a list must stand here, such as "[level-2, level-4]".')
    if not node and not may_be_empty:
        raise RequestError("the list is empty. Write a value, or leave the key out.")
    return [str(one) for one in node]


def number(low: int, high: int) -> Callable[[Any], int]:
    """A reader of whole numbers from `low` to `high`."""

    def read(node: Any) -> int:
        shown = clean_text(text(node), 40)[0]
        if not (shown.isascii() and shown.isdigit() and len(shown) <= 10):
            raise RequestError(f'"{shown}" is no whole number. Write one from {low} to {high}.')
        if not low <= int(shown) <= high:
            raise RequestError(f"{shown} is out of range. Write a number from {low} to {high}.")
        return int(shown)

    return read


amount = number(0, MOST_OF_A_PART)
"""How many problems a part has."""


def yes_or_no(node: Any) -> bool:
    """Whether `yes` stands there."""
    said = text(node)
    if said not in ("yes", "no"):
        raise RequestError(f'"{clean_text(said, 40)[0]}" is neither. Write yes or no.')
    return said == "yes"


def _crossing(node: Any) -> str:
    return crossing(text(node))


def _keywords(node: Any) -> str:
    said = text(node)
    if said not in KEYWORDS:
        raise RequestError(unknown_value("choice of keywords", said, KEYWORDS))
    return said


def _subjects(node: Any) -> tuple[str, ...]:
    return selection.subjects(texts(node))


def _festivals(node: Any) -> tuple[str, ...]:
    return selection.festivals(texts(node))


def _texts(node: Any) -> tuple[str, ...]:
    return tuple(texts(node))


def _steps(node: Any) -> int:
    return number(1, 2)(node)


def _limits(node: Any) -> tuple[int, ...]:
    return tuple(number(*WITHIN)(At(one)) for one in texts(node))


def _situations(node: Any) -> tuple[str, ...]:
    return tuple(situations.get(one).id for one in texts(node))


def strategy(name: str) -> str:
    """A strategy by its id."""
    return strategies.get(name).id


def situation(name: str) -> str:
    """A situation by its id."""
    return situations.get(name).id


def strategy_of_a_day(node: Any) -> str:
    """A strategy, or that the child chooses, or none."""
    name = text(node)
    if name in (CHOOSE, NO_STRATEGY):
        return name
    if name not in strategies.ids():
        raise RequestError(
            unknown_value("strategy", name, (*strategies.ids(), CHOOSE, NO_STRATEGY))
        )
    return name


FILES = ("names", "translations", "standards")
"""What names a file beside the plan."""
FOR_A_DAY: dict[str, Callable[[Any], Any]] = {
    "within": number(*WITHIN),
    "crossing": _crossing,
    "keywords": _keywords,
}
"""Wishes about the stories of a day, under the names of `Request`."""
KINDS: dict[str, Callable[[Any], Any]] = {
    "steps": _steps,
    "then": _situations,
    "addends": number(2, 4),
    "units": _texts,
    "number_sets": _limits,
    "extra_number": yes_or_no,
    "missing": yes_or_no,
}
"""Wishes for a kind of story of its own on a day."""
FOR_ALL: dict[str, Callable[[Any], Any]] = {
    **FOR_A_DAY,
    "without": _subjects,
    "festivals": _festivals,
    "home_language": _texts,
    "names": text,
    "names_from": text,
    "translations": text,
    "standards": text,
}
"""Wishes about the stories of all days."""


def without_kinds(request: Mapping[str, Any]) -> dict[str, Any]:
    """The wishes for a day without those for a kind of story of its own."""
    return {key: value for key, value in request.items() if key not in KINDS}
