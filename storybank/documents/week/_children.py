"""A group's sheet of the day: warm-up, a look back, problems together, alone and at home, ticket.

Every part begins on a page of its own, so that it can be printed or handed out alone.
"""

from storybank.documents import _counting
from storybank.documents._layout import Layout
from storybank.documents._page import Block, Heading, Page, Paragraph, Title
from storybank.documents._support import for_name_and_date
from storybank.documents.kinds import student
from storybank.documents.week._parts import ALOUD, NAMES, first_number
from storybank.model.week import Day, Week

_CHOOSE = "Look at the numbers. Choose a way that is easy for them."
_PAIRS = "The stories stand in pairs. What is easy for one is not easy for the other."
_AT_HOME = "Show somebody at home how you did it. Any correct way is fine."


def page(week: Week, day: Day, group: str, layout: Layout) -> Page:
    """The sheet of a group, told at its level of English."""
    blocks: list[Block] = [Title(day.name), Paragraph("help", day.goal, lead="Today:")]
    if day.counts:
        blocks += [Heading(1, "Warm Up"), *_counting.for_children(day.counts, layout)]
    ways = " \N{MIDDLE DOT} ".join(one.in_short for one in week.ways)
    for part, made in day.parts.items():
        if part == ALOUD:
            continue
        blocks.append(Heading(1, NAMES[part], new_page=len(blocks) > 2))
        if part == "home":
            blocks.append(Paragraph("note", _AT_HOME))
        choice = ways if day.choices and part != "review" else None
        if choice:
            said = f"{_CHOOSE} {_PAIRS}" if len(made.problems) > 1 else _CHOOSE
            blocks.append(Paragraph("note", said))
        told, first = week.at(made, group), first_number(day, part)
        blocks += student.problems(told, layout, first=first, level=2, choice=choice)
    top = for_name_and_date(week.at(next(iter(day.parts.values())), group), layout)
    return Page(title=day.name, top=top, blocks=tuple(blocks))
