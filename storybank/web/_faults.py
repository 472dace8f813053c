"""What is wrong with the wishes of a form, beside the field that it is about."""

from dataclasses import dataclass, replace

from storybank.errors import StorybankError
from storybank.problem_set import make_set
from storybank.web._fields import as_on_the_page
from storybank.web._house import House
from storybank.web._open_page import OpenPage
from storybank.web._wishes import CHANGE, FieldError, Wishes

_MOST_TRIED = 100
"""A larger set is not tried before it is asked for."""
_DROPPED = (
    "situation", "strategy", "pair", "then", "steps", "addends", "units", "fact-families",
    "number-sets", "extra-number", "missing", "levels-side-by-side", "diagnose", "crossing",
    "keywords", "within", "count", "theme", "without", "vocabulary", "allow", "forbid",
    "home-language", "names-from",
)  # fmt: skip
"""The wishes in the order in which one is blamed, where without it the others go together."""


@dataclass(frozen=True, slots=True)
class Found:
    """A fault: its sentence, and the fields that it stands beside."""

    text: str
    fields: tuple[str, ...]


def fault_of(page: OpenPage, house: House) -> Found | None:
    """What keeps a set from being made, or None; it is tried, and each wish left out in turn."""
    wishes = page.wishes.with_(**{CHANGE: None, "seed": page.wishes.get("seed") or "0"})
    page = replace(page, wishes=wishes)
    error = _error(page, house)
    if error is None:
        return None
    if isinstance(error, FieldError):
        return Found(str(error), (error.field,))
    blamed = tuple(
        key for key in _DROPPED if wishes.has(key) and _error(_without(page, key), house) is None
    )
    return Found(as_on_the_page(str(error)), blamed[:2])


def _without(page: OpenPage, key: str) -> OpenPage:
    values = {name: one for name, one in page.wishes.values.items() if name != key}
    return replace(page, wishes=Wishes(values))


def _error(page: OpenPage, house: House) -> StorybankError | None:
    try:
        request = page.wishes.request(house.usual_request, house.own_themes(), page.roster())
        make_set(replace(request, count=min(request.count, _MOST_TRIED)))
        page.wishes.layout(house.usual_layout)
    except StorybankError as error:
        return error
    return None
