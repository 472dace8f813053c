"""The key of a day: all answers, the warm-up, the pairs to choose between, each problem worked."""

from storybank.documents import _counting
from storybank.documents._layout import Layout
from storybank.documents._notation import mathematics
from storybank.documents._page import Block, Group, Heading, Page, Paragraph, Table, Title
from storybank.documents._words import set_words
from storybank.documents.kinds.key import (
    NOT_TO_SCALE,
    PLANS_FIRST,
    problem_worked,
    rows,
    shapes,
)
from storybank.documents.week._parts import ALOUD, NAMES, numbered
from storybank.model.week import Chosen, Day, Week


def page(week: Week, day: Day, layout: Layout) -> Page:
    """All that a teacher needs to look answers up, in the order of the sheets."""
    whole = day.as_set()
    table = tuple(
        (NAMES[part], *row)
        for part, number, one in numbered(day)
        for row in rows("aloud" if number is None else str(number), one, layout.sign)
    )
    blocks: list[Block] = [
        Title(f"{day.name}: Answer Key"),
        Paragraph("note", PLANS_FIRST),
        *shapes(whole),
        Heading(1, "All answers"),
        Table(("Part", "Number", "Code", "Equation", "Answer"), table, (22, 16, 16, 26, 20)),
    ]
    if day.counts:
        blocks += [Heading(1, "Warm up"), *_counting.for_teacher(day.counts, layout)]
    if day.choices:
        told = [_choice(one, day) for one in day.choices]
        blocks += [Heading(1, "Which way, and why"), Group(tuple(told))]
    blocks.append(Paragraph("note", NOT_TO_SCALE))
    for at, part in enumerate(day.parts):
        blocks.append(Heading(1, NAMES[part], new_page=at == 0))
        for name, number, one in numbered(day):
            if name == part:
                blocks += problem_worked(number, one, layout, counted=False)
    words = set_words(whole, narrow=layout.large_print)
    if words:
        blocks += [Heading(1, "Words of the day", new_page=True), *words]
    return Page(
        title=f"{day.name}, answer key",
        top=f"{week.title} \N{MIDDLE DOT} {day.name} \N{MIDDLE DOT} Answer Key",
        blocks=tuple(blocks),
    )


def _choice(chosen: Chosen, day: Day) -> Paragraph:
    numbers = {one.code: number for part, number, one in numbered(day) if part != ALOUD}
    number = numbers.get(chosen.code)
    called = f"Problem {number}" if number is not None else "Worked aloud"
    return Paragraph(
        "fact",
        f"{chosen.way.in_short.capitalize()}. {mathematics(chosen.why)}",
        lead=f"{called} ({chosen.code}):",
    )
