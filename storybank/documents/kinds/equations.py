"""Which equation fits: each one-step story with four equations, of which one follows it.

Children write an equation with a symbol for the unknown to represent the problem (CCSS-M 1.OA.1,
2.OA.1); here they tell it from others made of the same numbers.
"""

from storybank.documents._choices import LETTERS, Choices, choices, told_in_order
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
from storybank.documents.kinds.student import story
from storybank.drawings import handwriting
from storybank.model import Problem, ProblemSet

TITLE = "Which equation fits: each story with four equations to choose from"
FOR_CHILDREN = True
_NAME = "Which Equation Fits?"
_ORDER = "Which equation tells what happens, in order? Circle its letter."
_FITS = "Which equation fits the story? Circle its letter."
_WHY = "How do you know?"
_A_PAGE, _A_PAGE_LARGE = 2, 1
_LINES = 2
_GAP = "\N{NO-BREAK SPACE}" * 2


def page(problem_set: ProblemSet, layout: Layout) -> Page:
    """Each one-step story with four equations, and a line to say why one of them fits."""
    problems = one_step(problem_set)
    offered = choices([one for _, one in problems])
    per_page = _A_PAGE_LARGE if layout.large_print else _A_PAGE
    groups = [
        _problem(number, one, given, layout, new_page=at > 0 and at % per_page == 0)
        for at, ((number, one), given) in enumerate(zip(problems, offered, strict=True))
    ]
    blocks: list[Block] = [*groups] or [Paragraph("note", NONE_HERE)]
    return Page(
        title=_NAME, top=for_name_and_date(problem_set, layout), blocks=(Title(_NAME), *blocks)
    )


def _problem(
    number: int, problem: Problem, given: Choices, layout: Layout, *, new_page: bool
) -> Group:
    blocks: list[Piece] = [
        Heading(1, problem.code, number=number, new_page=new_page, counted=False),
        *story(problem),
        Paragraph("help", _ORDER if told_in_order(problem) else _FITS),
    ]
    blocks += [
        Paragraph("story", f"{_GAP}{mathematics(equation, layout.sign)}", lead=f"{letter}.")
        for letter, equation in zip(LETTERS, given.equations, strict=True)
    ]
    blocks += [
        Paragraph("help", _WHY),
        Picture(handwriting.writing_lines(_LINES, measures=layout.measures)),
    ]
    return Group(tuple(blocks))
