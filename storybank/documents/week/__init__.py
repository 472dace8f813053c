"""The pages of a week: an overview, a note home, and for each day plan, sheets and key."""

from collections.abc import Iterator, Mapping, Sequence

from storybank.documents._layout import Layout
from storybank.documents._page import Page
from storybank.documents.week import _children, _covered, _key, _note_home, _overview, _plan
from storybank.model.week import Day, Week

__all__ = ["names", "pages"]


def pages(week: Week, layout: Layout, days: Sequence[Day] | None = None) -> Mapping[str, Page]:
    """The pages of a week by the names of their files; of `days` only those of these days.

    Every group has a sheet of each day, told at its level of English.
    """
    return dict(_pages(week, layout, days))


def names(days: Sequence[str], groups: Sequence[str], *, whole: bool) -> tuple[str, ...]:
    """The names that `pages` gives, without suffix, for days of these ids and such groups.

    `whole` adds those of the week as a whole.
    """
    of_the_week = ("overview", "note-home", "coverage") if whole else ()
    return (
        *of_the_week,
        *(
            name
            for day in days
            for name in (f"{day}-plan", *(sheet_name(day, one) for one in groups), f"{day}-key")
        ),
    )


def sheet_name(day: str, group: str) -> str:
    """The name of a group's sheet of the day."""
    return f"{day}-{group}"


def _pages(week: Week, layout: Layout, days: Sequence[Day] | None) -> Iterator[tuple[str, Page]]:
    if days is None:
        yield "overview", _overview.page(week, layout)
        yield "note-home", _note_home.page(week, layout)
        yield "coverage", _covered.page(week, layout)
    for day in week.days if days is None else days:
        yield f"{day.id}-plan", _plan.page(week, day, layout)
        for group in week.groups:
            yield sheet_name(day.id, group), _children.page(week, day, group, layout)
        yield f"{day.id}-key", _key.page(week, day, layout)
