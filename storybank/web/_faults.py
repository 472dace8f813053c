"""What is wrong with the wishes of a form, beside the field that it is about."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import islice

from storybank.errors import StorybankError
from storybank.problem_set import make_set
from storybank.web._fields import as_on_the_page
from storybank.web._house import House
from storybank.web._open_page import OpenPage
from storybank.web._wishes import CHANGE, FieldError, Wishes

_MOST_TRIED = 100
"""A larger set is not tried before it is asked for."""
_FEW = 24
"""So many are tried to find which wish is to blame; if all these can be told, the count is."""
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
    error = _error(page, house, _MOST_TRIED)
    if error is None:
        return None
    if isinstance(error, FieldError):
        return Found(str(error), (error.field,))
    return Found(as_on_the_page(str(error)), tuple(islice(_blamed(page, house), 2)))


def _blamed(page: OpenPage, house: House) -> Iterator[str]:
    """The wishes without any one of which the others go together, the first to blame first."""
    if page.wishes.has("count") and _error(page, house, _FEW) is None:
        yield "count"
        return
    for key in _DROPPED:
        if page.wishes.has(key) and _error(_without(page, key), house, _FEW) is None:
            yield key


def _without(page: OpenPage, key: str) -> OpenPage:
    values = {name: one for name, one in page.wishes.values.items() if name != key}
    return replace(page, wishes=Wishes(values))


def _error(page: OpenPage, house: House, most: int) -> StorybankError | None:
    try:
        request = page.wishes.request(house.usual_request, house.own_themes(), page.roster())
        make_set(replace(request, count=min(request.count, most)))
        page.wishes.layout(house.usual_layout)
    except StorybankError as error:
        return error
    return None
