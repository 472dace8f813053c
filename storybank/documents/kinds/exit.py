"""Exit tickets: one problem for the end of the lesson, twice on a page that is cut in half."""

from math import ceil

from storybank.documents import _changes
from storybank.documents._layout import Layout
from storybank.documents._page import Group, Heading, Page, Paragraph, Picture, Piece, Title
from storybank.documents._support import line_to_draw_on, shape_of
from storybank.documents.kinds.student import FIND_ALL, equations_to_write, story
from storybank.drawings import Drawing, handwriting
from storybank.model import Problem, ProblemSet

TITLE = "Exit ticket: the last problem, twice on a page"
FOR_CHILDREN = True
_LETTERS = 55  # Of a line of a story.
_NAME = "Name ____________________    Date __________"


def page(problem_set: ProblemSet, layout: Layout) -> Page:
    """One page with the last problem of the set that has a strategy, twice; once in large print.

    A set without one gives its last problem.
    """
    numbered = list(enumerate(problem_set.problems, start=1))
    number, chosen = next(
        (pair for pair in reversed(numbered) if pair[1].strategy is not None), numbered[-1]
    )
    return Page(
        title="Exit Ticket",
        top=shape_of(problem_set),
        blocks=(Title("Exit Ticket"), *tickets(number, chosen, layout)),
    )


def tickets(number: int, problem: Problem, layout: Layout) -> list[Group]:
    """A problem twice on a page that is cut in half; once in large print."""
    halves = range(1 if layout.large_print else 2)
    return [_half(number, problem, layout, second=half > 0) for half in halves]


def _is_long(problem: Problem) -> bool:
    """Whether half a page has no room for a number line under the story."""
    text = _changes.told(problem, problem.text)
    lines = sum(ceil(len(one) / _LETTERS) for one in text.split("\n"))
    if problem.number_sets or problem.extra:
        return lines > 2
    return problem.missing is not None


def _half(number: int, problem: Problem, layout: Layout, *, second: bool) -> Group:
    blocks: list[Piece] = []
    if second:
        blocks.append(Paragraph("cut", "\N{BLACK SCISSORS}\N{VARIATION SELECTOR-15}"))
    blocks += [
        Heading(1, problem.code, number=number, counted=False),
        Paragraph("fill", _NAME),
        *story(problem),
    ]
    # Half a page has room for one number line, or for the equations of two steps.
    cramped = bool(problem.steps) or (_is_long(problem) and not layout.large_print)
    line = None if cramped else line_to_draw_on(problem, layout)
    return Group((*blocks, *_to_answer(problem, layout, line)))


def _to_answer(problem: Problem, layout: Layout, line: Drawing | None) -> list[Piece]:
    """Room to work and to answer; for all pairs of parts only what to find."""
    if problem.unknown == "parts":
        return [Paragraph("work", FIND_ALL)]
    blocks = _changes.to_ask(problem, layout.measures)
    if line:
        blocks.append(Picture(line))
    blocks += [
        *equations_to_write(problem, layout, "Equation:"),
        Paragraph("fill", "", lead="My answer:"),
        Picture(handwriting.writing_lines(1, measures=layout.measures)),
    ]
    return blocks
