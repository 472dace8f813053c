"""Write a story: an equation of the set, words to use, a box to draw in, lines, a checklist.

The equations are those that follow the stories, so the number to find stands in every place in
which the set has it (CCSS-M 2.OA.1: unknowns in all positions). The answer key of the set tells
that number, and one story for each.
"""

from storybank.documents._layout import Layout
from storybank.documents._notation import mathematics
from storybank.documents._one_step import NONE_HERE, one_step
from storybank.documents._page import (
    Block,
    Group,
    Heading,
    Page,
    Paragraph,
    Picture,
    Piece,
    Title,
)
from storybank.documents._support import for_name_and_date
from storybank.documents._words import thing_table
from storybank.drawings import handwriting
from storybank.model import Problem, ProblemSet

TITLE = "Write a story for an equation, with room to draw and write"
FOR_CHILDREN = True
_NAME = "Write a Story"
_LINES, _LINES_LARGE = 5, 3
_HIGH, _HIGH_LARGE = 70.0, 42.0
"""Of the box to draw in, in millimeters."""
_TO_DO = "Write a story for this equation. You may draw it first."
_CHECKED = (
    "My story tells the two numbers.",
    "My story has a question.",
    "My question asks for the number that is missing.",
)
_BOX = "\N{BALLOT BOX}"


def page(problem_set: ProblemSet, layout: Layout) -> Page:
    """A page for each one-step problem; no story of the set stands on it."""
    problems = one_step(problem_set)
    groups = [
        _problem(number, one, layout, new_page=at > 0) for at, (number, one) in enumerate(problems)
    ]
    blocks: list[Block] = [*groups] or [Paragraph("note", NONE_HERE)]
    return Page(
        title=_NAME, top=for_name_and_date(problem_set, layout), blocks=(Title(_NAME), *blocks)
    )


def _problem(number: int, problem: Problem, layout: Layout, *, new_page: bool) -> Group:
    measures = layout.measures
    blocks: list[Piece] = [
        Heading(1, problem.code, number=number, new_page=new_page, counted=False),
        Paragraph("help", _TO_DO),
        Paragraph("sum", mathematics(problem.equations.situation, layout.sign)),
    ]
    words = thing_table(problem)
    if words:
        blocks.append(words)
    high, lines = (_HIGH_LARGE, _LINES_LARGE) if layout.large_print else (_HIGH, _LINES)
    blocks += [
        Picture(handwriting.box_to_draw_in(high, measures=measures)),
        Picture(handwriting.writing_lines(lines, measures=measures)),
    ]
    blocks.extend(Paragraph("help", one, lead=_BOX) for one in _CHECKED)
    return Group(tuple(blocks))
