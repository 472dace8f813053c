"""The week on one page: days, goals, strategies, how many problems, groups, what to print."""

from storybank.documents._layout import Layout
from storybank.documents._page import Block, Heading, Page, Paragraph, Table, Title
from storybank.documents._support import level_name, shape
from storybank.documents.week._parts import NAMES, standards_of
from storybank.model.week import PARTS, Day, Week

_DEFERS = (
    "Your school\N{RIGHT SINGLE QUOTATION MARK}s own curriculum, language-support plans and "
    "accommodation plans come first."
)
_SHAPES = (
    "All groups get the same stories and numbers. The shape on a sheet stands in place of a name."
)
_FILES = (
    "For each day there is a plan, a sheet for each group and a key; the note home is for the "
    "whole week."
)


def page(week: Week, layout: Layout) -> Page:
    """A table of the days, then how many problems, for whom, and what is practiced."""
    days = Table(
        ("Day", "Goal", "Strategy", "Looks back at"),
        tuple((one.name, one.goal, _strategy(one), _review(week, one)) for one in week.days),
        (16, 38, 26, 20),
    )
    told = [part for part in PARTS if any(part in day.parts for day in week.days)]
    amounts = Table(
        ("Day", *(NAMES[part] for part in told)),
        tuple((day.name, *(_amount(day, part) for part in told)) for day in week.days),
        (16, *[14] * len(told)),
    )
    groups = ", ".join(f"{shape(one)} {level_name(one)} of English" for one in week.groups)
    standards = standards_of(week.problems)
    blocks: list[Block] = [
        Title(week.title),
        Paragraph("note", f"{', '.join(week.themes)}. The children in the stories: "
                  f"{', '.join(week.cast)}.", lead="Stories:"),
        days,
        Heading(1, "How many problems"),
        amounts,
        Heading(1, "For whom"),
        Paragraph("note", f"{groups}. {_SHAPES}"),
        Paragraph("note", standards, lead="Standards:"),
        Paragraph("note", _FILES),
        Paragraph("note", _DEFERS),
    ]  # fmt: skip
    return Page(title=week.title, top="The week at a glance", blocks=tuple(blocks))


def _strategy(day: Day) -> str:
    if day.way:
        return day.way.in_short.capitalize()
    return "The child chooses" if day.choices else "Any"


def _review(week: Week, day: Day) -> str:
    if "review" not in day.parts:
        return "\N{EN DASH}"
    told = {one.strategy for one in day.parts["review"].problems}
    return "; ".join(one.in_short.capitalize() for one in week.ways if one.id in told)


def _amount(day: Day, part: str) -> str:
    return str(len(day.parts[part].problems)) if part in day.parts else "\N{EN DASH}"
