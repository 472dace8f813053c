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

_READ_BOTH = "Look at the numbers in each story. Choose a way. Tell why you chose it."
_CHOSE = "I chose to ____________________ because ____________________."


def page(week: Week, day: Day, group: str, layout: Layout) -> Page:
    """The sheet of a group, told at its level of English."""
    blocks: list[Block] = [Title(day.name)]
    if day.counts:
        blocks += [Heading(1, "Warm Up"), *_counting.for_children(day.counts, layout)]
    if day.pairs:
        blocks += _ways(week, layout)
    for part, made in day.parts.items():
        if part == ALOUD:
            continue
        told = week.at(made, group)
        blocks.append(Heading(1, NAMES[part], new_page=len(blocks) > 1))
        first = first_number(day, part)
        if part == "exit":
            for at, problem in enumerate(told.problems):
                if at:
                    blocks.append(Heading(1, NAMES[part], new_page=True))
                blocks += exit_ticket.tickets(first + at, problem, layout)
            continue
        closing = _CHOSE if day.pairs else None
        blocks += student.problems(told, layout, first=first, level=2, closing=closing)
    top = for_name_and_date(week.at(next(iter(day.parts.values())), group), layout)
    return Page(title=day.name, top=top, blocks=tuple(blocks))


def _ways(week: Week, layout: Layout) -> list[Block]:
    """The ways of the week to choose from, as children say them."""
    return [
        Heading(1, "Choose Your Way"),
        Paragraph("help", f"{_READ_BOTH} {student.show_your_work(layout)}"),
        *(Paragraph("help", f"\N{BULLET} {one.i_can}") for one in week.ways),
    ]
