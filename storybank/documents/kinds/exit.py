"""Exit tickets: one problem for the end of the lesson, twice on a page that is cut in half."""

from storybank.documents._layout import Layout
from storybank.documents._page import Group, Heading, Page, Paragraph, Picture, Piece, Title
from storybank.documents._support import line_to_draw_on
from storybank.documents.kinds.student import FIND_ALL, answer_to_write, story
from storybank.drawings import handwriting
from storybank.model import Problem, ProblemSet

TITLE = "Exit ticket: one problem, twice on a page"
FOR_CHILDREN = True
_NAME = "Name ____________________    Date __________"


def page(problem_set: ProblemSet, layout: Layout) -> Page:
    """One page (two in large print) with the last problem of the set that has a strategy.

    A set without one gives its last problem.
    """
    numbered = list(enumerate(problem_set.problems, start=1))
    number, chosen = next(
        (pair for pair in reversed(numbered) if pair[1].strategy is not None), numbered[-1]
    )
    halves = [
        _half(number, chosen, layout, second=half > 0, new_page=half > 0 and layout.large_print)
        for half in range(2)
    ]
    return Page(title="Exit Ticket", top="", blocks=(Title("Exit Ticket"), *halves))


def _half(number: int, problem: Problem, layout: Layout, *, second: bool, new_page: bool) -> Group:
    blocks: list[Piece] = []
    if second and not new_page:
        blocks.append(Paragraph("cut", "\N{BLACK SCISSORS}\N{VARIATION SELECTOR-15}"))
    blocks += [
        Heading(1, problem.code, number=number, new_page=new_page, counted=False),
        Paragraph("fill", _NAME),
        *story(problem),
    ]
    if problem.unknown == "parts":
        blocks.append(Paragraph("work", FIND_ALL))
        return Group(tuple(blocks))
    line = line_to_draw_on(problem, layout)
    if line:
        blocks.append(Picture(line))
    blocks += [
        Picture(handwriting.equation_boxes(measures=layout.measures), lead="Equation:"),
        Paragraph("fill", answer_to_write(problem), lead="My answer:"),
    ]
    return Group(tuple(blocks))
