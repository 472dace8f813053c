"""Related facts: the three numbers of each problem, and its family with one number missing.

Each fact stands with the equal sign behind and in front, since it means "the same as" either way
(CCSS-M 1.OA.7).
"""

from itertools import cycle

from storybank.documents._by_step import by_step
from storybank.documents._layout import Layout
from storybank.documents._notation import mathematics
from storybank.documents._page import Block, Group, Heading, Page, Paragraph, Piece, Title
from storybank.documents._support import for_name_and_date
from storybank.model import Problem, ProblemSet

TITLE = "Related facts: each family with a number missing"
FOR_CHILDREN = True
_WHEN = "To be done after the story problems: here stand their numbers."
_NONE = "No problem of this set has related facts."
_MISSING = (2, 0, 1)
"""Which of the three numbers of a fact is missing, in turn: the last, the first, the middle one."""


def page(problem_set: ProblemSet, layout: Layout) -> Page:
    """A family for each three numbers of the set, each once; problems without one are left out."""
    families: dict[tuple[str, ...], tuple[int, Problem]] = {}
    for number, problem in enumerate(problem_set.problems, start=1):
        for one in by_step(problem):
            if one.related_facts:
                families.setdefault(tuple(sorted(one.related_facts)), (number, one))
    groups = [_family(number, problem, layout) for number, problem in families.values()]
    blocks: list[Block] = [*groups] or [Paragraph("note", _NONE)]
    return Page(
        title="Related Facts",
        top=for_name_and_date(problem_set, layout),
        blocks=(Title("Related Facts"), Paragraph("note", _WHEN), *blocks),
    )


def _family(number: int, problem: Problem, layout: Layout) -> Group:
    triple = sorted(int(one) for one in problem.related_facts[0].split() if one.isdigit())
    named = ", ".join(str(one) for one in triple)
    blocks: list[Piece] = [
        Heading(1, problem.code, number=number, counted=False),
        Paragraph("story", f"The numbers are {named}. Write the number that is missing."),
    ]
    for fact, missing in zip(problem.related_facts, cycle(_MISSING), strict=False):
        first, sign, second, _, third = fact.split()
        numbers = [first, second, third]
        numbers[missing] = "?"
        forward = f"{numbers[0]} {sign} {numbers[1]} = {numbers[2]}"
        turned = f"{numbers[2]} = {numbers[0]} {sign} {numbers[1]}"
        blocks.append(Paragraph("sum", mathematics(f"{forward}\t{turned}", layout.sign)))
    return Group(tuple(blocks))
