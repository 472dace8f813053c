"""A group's sheet of the day: warm-up, a look back, problems together, alone and at home, ticket.

Every part begins on a page of its own, so that it can be printed or handed out alone.
"""

from storybank.documents import _counting
from storybank.documents._layout import Layout
from storybank.documents._page import Block, Heading, Page, Paragraph, Title
from storybank.documents._support import for_name_and_date
from storybank.documents.kinds import exit as exit_ticket
from storybank.documents.kinds import student
from storybank.documents.week._parts import ALOUD, NAMES, first_number
from storybank.model.week import Day, Week

_CHOOSE = "Look at the numbers. Choose a way that is easy for them. Tell why you chose it."
_CHOSE = "I chose ______________________ because"
_AT_HOME = "Show somebody at home how you did it. Any correct way is fine."


def page(week: Week, day: Day, group: str, layout: Layout) -> Page:
    """The sheet of a group, told at its level of English."""
    blocks: list[Block] = [Title(day.name), Paragraph("help", day.goal, lead="Today:")]
    if day.counts:
        blocks += [Heading(1, "Warm Up"), *_counting.for_children(day.counts, layout)]
    for part, made in day.parts.items():
        if part == ALOUD:
            continue
        told = week.at(made, group)
        closing = _CHOSE if day.choices and part != "review" else None
        blocks.append(Heading(1, NAMES[part], new_page=len(blocks) > 2))
        first = first_number(day, part)
        if part == "exit":
            for at, problem in enumerate(told.problems):
                if at:
                    blocks.append(Heading(1, NAMES[part], new_page=True))
                blocks.append(exit_ticket.ticket(first + at, problem, layout, closing=closing))
            continue
        if part == "home":
            blocks.append(Paragraph("note", _AT_HOME))
        if closing:
            blocks += _ways(week)
        blocks += student.problems(told, layout, first=first, level=2, closing=closing)
    top = for_name_and_date(week.at(next(iter(day.parts.values())), group), layout)
    return Page(title=day.name, top=top, blocks=tuple(blocks))


def _ways(week: Week) -> list[Block]:
    """What to do, and the ways of the week to choose from, as children call them."""
    ways = " \N{MIDDLE DOT} ".join(one.in_short for one in week.ways)
    return [Paragraph("note", f"{_CHOOSE} Ways: {ways}.")]
