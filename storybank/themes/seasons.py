"""Which packs are in season on a day, the best first."""

import re
from calendar import monthrange
from collections.abc import Iterable
from datetime import date

from storybank.errors import RequestError
from storybank.model.words import Header

_ISO = re.compile(r"\d{4}-\d{2}-\d{2}")
_YEAR = 12


def day_of(text: str) -> date:
    """The day written `2027-01-18` (ISO 8601). Raises RequestError for anything else."""
    try:
        if _ISO.fullmatch(text):
            return date.fromisoformat(text)
    except ValueError as error:
        raise RequestError(
            f'The day "{text}" is in no calendar ({error}). Write year, month and day, such as '
            "2027-01-18."
        ) from error
    raise RequestError(
        f'The day "{text}" cannot be read. Write year, month and day with hyphens, such as '
        "2027-01-18."
    )


def in_climate(headers: Iterable[Header], climate: str | None) -> tuple[Header, ...]:
    """The packs that suit a climate, or all where it is None; those for any climate suit all."""
    return tuple(
        head for head in headers if climate in (None, head.climate) or head.climate == "any"
    )


def in_season(head: Header, day: date) -> bool:
    """Whether the months of the pack hold the day's."""
    return day.month in head.months


def best_first(headers: Iterable[Header], day: date) -> tuple[Header, ...]:
    """The packs in season on the day, those tied to an observance last.

    A month in the middle of a pack's months comes before its first or last, and there the day
    that is nearer to their middle; packs for the whole year come after those of a season. Our
    own design.
    """
    found = [(_order(head, day), head) for head in headers if in_season(head, day)]
    return tuple(head for _, head in sorted(found, key=lambda one: one[0]))


def _order(head: Header, day: date) -> tuple[bool, bool, bool, float, str]:
    months = _in_order(head.months)
    at, count = months.index(day.month), len(months)
    edge = count > 1 and at in (0, count - 1)
    place = at + (day.day - 1) / monthrange(day.year, day.month)[1]
    off = abs(place - count / 2) / count
    return head.observance is not None, count == _YEAR, edge, round(off, 6), head.id


def _in_order(months: Iterable[int]) -> tuple[int, ...]:
    """The months in the order of their season, which may go over the end of the year."""
    known = sorted(set(months))
    gaps = [(known[n] - known[n - 1]) % _YEAR or _YEAR for n in range(len(known))]
    first = gaps.index(max(gaps))
    return (*known[first:], *known[:first])
