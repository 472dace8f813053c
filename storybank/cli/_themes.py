"""`storybank list themes`: packs with season, climate and observance, or those for a day."""

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from datetime import date

    from storybank.model.words import Header

_COLUMNS = ("id", "title", "season", "climate", "observance")


def entries(day_text: str | None = None, climate: str | None = None) -> list[dict[str, Any]]:
    """The packs as objects; for a day the ones in season first, the best at the front."""
    from storybank import themes
    from storybank.themes import seasons

    heads = seasons.in_climate(themes.headers(), climate)
    if day_text is None:
        return [_entry(head, None) for head in heads]
    day = seasons.day_of(day_text)
    best = seasons.best_first(heads, day)
    return [_entry(head, day) for head in (*best, *(one for one in heads if one not in best))]


def lines(found: Sequence[dict[str, Any]], day_text: str | None = None) -> list[str]:
    """The packs as a table with a head; for a day those in season, festivals behind a line."""
    if day_text is None:
        return _table(found)
    now = [one for one in found if one["in_season"]]
    free = [one for one in now if one["observance"] is None]
    tied = [one for one in now if one["observance"] is not None]
    out = _table(free) if free else [f"No theme pack is in season on {day_text}."]
    if tied:
        names = ", ".join(f"{one['id']} ({one['observance']})" for one in tied)
        out.append(f"Tied to an observance, told only where you ask for it: {names}")
    return out


def _table(found: Sequence[dict[str, Any]]) -> list[str]:
    rows = [_COLUMNS, *(tuple(one[key] or "-" for key in _COLUMNS) for one in found)]
    widths = [max(len(row[at]) for row in rows) for at in range(len(_COLUMNS))]
    return [
        "  ".join(f"{cell:<{width}}" for cell, width in zip(row, widths, strict=True)).rstrip()
        for row in rows
    ]


def _entry(head: "Header", day: "date | None") -> dict[str, Any]:
    entry: dict[str, Any] = {
        "id": head.id,
        "title": head.title,
        "more": f"({head.season}{f', {head.observance}' if head.observance else ''})",
        "season": head.season,
        "months": list(head.months),
        "climate": head.climate,
        "observance": head.observance,
    }
    if day is not None:
        from storybank.themes import seasons

        entry["in_season"] = seasons.in_season(head, day)
    return entry
