"""Exit tickets: one problem for the end of the lesson, twice on a page that is cut in half."""

from storybank.documents._layout import Layout
from storybank.documents._page import Group, Heading, Page, Paragraph, Picture, Piece, Title
from storybank.documents._support import line_to_draw_on, shape_of
from storybank.documents.kinds.student import FIND_ALL, equations_to_write, story
from storybank.drawings import handwriting
from storybank.model import Problem, ProblemSet

TITLE = "Exit ticket: the last problem, twice on a page"
FOR_CHILDREN = True
_NAME = "Name ____________________    Date __________"


def page(problem_set: ProblemSet, layout: Layout) -> Page:
    """One page with the last problem of the set that has a strategy, twice; once in large print.

    A set without one gives its last problem.
    """
    numbered = list(enumerate(problem_set.problems, start=1))
    number, chosen = next(
        (pair for pair in reversed(numbered) if pair[1].strategy is not None), numbered[-1]
    )
    halves = [
        _half(number, chosen, layout, second=half > 0)
        for half in range(1 if layout.large_print else 2)
    ]
    return Page(
        title="Exit Ticket", top=shape_of(problem_set), blocks=(Title("Exit Ticket"), *halves)
    )


def _half(number: int, problem: Problem, layout: Layout, *, second: bool) -> Group:
    blocks: list[Piece] = []
    if second:
        blocks.append(Paragraph("cut", "\N{BLACK SCISSORS}\N{VARIATION SELECTOR-15}"))
    blocks += [
        Heading(1, problem.code, number=number, counted=False),
        Paragraph("fill", _NAME),
        *story(problem),
    ]
    if problem.unknown == "parts":
        blocks.append(Paragraph("work", FIND_ALL))
        return Group(tuple(blocks))
    # Half a page has room for one number line, or for the equations of two steps.
    line = None if problem.steps else line_to_draw_on(problem, layout)
    if line:
        blocks.append(Picture(line))
    blocks += [
        *equations_to_write(problem, layout, "Equation:"),
        Paragraph("fill", "", lead="My answer:"),
        Picture(handwriting.writing_lines(1, measures=layout.measures)),
    ]
    return Group(tuple(blocks))
