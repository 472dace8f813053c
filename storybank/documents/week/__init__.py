"""The pages of a week: an overview, a note home, and for each day plan, sheets and key."""

from collections.abc import Iterator, Mapping, Sequence

from storybank.documents import kinds, render_pages
from storybank.documents._layout import Layout
from storybank.documents._page import Page
from storybank.documents.week import _children, _covered, _key, _note_home, _overview, _plan
from storybank.model.week import Day, Week

__all__ = ["files", "names", "pages"]


def files(
    week: Week, layout: Layout, formats: Sequence[str], days: Sequence[Day] | None = None
) -> dict[str, bytes]:
    """The files of a week by name: its pages, then the sets of the days and the week as JSON.

    Of `days` only those of these days, without what is for the week as a whole.
    """
    for_pages = [one for one in formats if one != "json"]
    contents = render_pages(pages(week, layout, days), for_pages, layout)
    if "json" in formats:
        for day in week.days if days is None else days:
            contents[f"{day.id}.json"] = day.as_set().to_text().encode("utf-8")
        if days is None:
            contents["week.json"] = f"{week.to_text()}\n".encode()
    return contents


def pages(week: Week, layout: Layout, days: Sequence[Day] | None = None) -> Mapping[str, Page]:
    """The pages of a week by the names of their files; of `days` only those of these days.

    Every group has a sheet of each day, told at its level of English.
    """
    return dict(_pages(week, layout, days))


def names(
    days: Mapping[str, Sequence[str]], groups: Sequence[str], *, whole: bool
) -> tuple[str, ...]:
    """The names that `pages` gives, without suffix.

    `days` are ids of days, each with the further kinds of page that it has, `groups` the
    vocabularies. `whole` adds what is for the week as a whole. Raises RequestError for an unknown
    kind of page.
    """
    of_the_week = ("overview", "note-home", "coverage") if whole else ()
    return (
        *of_the_week,
        *(name for day, more in days.items() for name in _names(day, more, groups)),
    )


def _names(day: str, more: Sequence[str], groups: Sequence[str]) -> Iterator[str]:
    yield f"{day}-plan"
    for group in groups:
        yield f"{day}-{group}"
    yield f"{day}-key"
    for kind in more:
        if kinds.get(kind).FOR_CHILDREN:
            for group in groups:
                yield f"{day}-{kind}-{group}"
        else:
            yield f"{day}-{kind}"


def _pages(week: Week, layout: Layout, days: Sequence[Day] | None) -> Iterator[tuple[str, Page]]:
    if days is None:
        yield "overview", _overview.page(week, layout)
        yield "note-home", _note_home.page(week, layout)
        yield "coverage", _covered.page(week, layout)
    for day in week.days if days is None else days:
        yield from zip(
            _names(day.id, day.pages, week.groups), _pages_of(week, day, layout), strict=True
        )


def _pages_of(week: Week, day: Day, layout: Layout) -> Iterator[Page]:
    """The pages of a day in the order of their names."""
    yield _plan.page(week, day, layout)
    for group in week.groups:
        yield _children.page(week, day, group, layout)
    yield _key.page(week, day, layout)
    for kind in day.pages:
        for group in week.groups if kinds.get(kind).FOR_CHILDREN else week.groups[-1:]:
            yield kinds.page(kind, week.at(day.as_set(), group), layout)
