"""True or false: equations of the set's numbers with the equal sign in every place (1.OA.7).

Under them two to make true (1.OA.8). The forms and their sources stand in `_statements`.
"""

from storybank.documents._layout import Layout
from storybank.documents._notation import mathematics
from storybank.documents._page import (
    Block,
    Group,
    Heading,
    Page,
    Paragraph,
    Piece,
    Title,
)
from storybank.documents._statements import NONE_HERE, Statements, statements
from storybank.documents._support import for_name_and_date
from storybank.model import ProblemSet

TITLE = "True or false: equations with the equal sign in every place"
FOR_CHILDREN = True
_NAME = "True or False?"
_JUDGE = "Do both sides make the same number? Circle true or false."
_OPEN = "Write the number that makes it true."
_A_PAGE, _A_PAGE_LARGE = 3, 2
_GAP = "\N{NO-BREAK SPACE}"


def page(problem_set: ProblemSet, layout: Layout) -> Page:
    """Four equations to judge and two to make true for each three numbers of the set."""
    per_page = _A_PAGE_LARGE if layout.large_print else _A_PAGE
    groups = [
        _numbers(one, layout, new_page=at > 0 and at % per_page == 0)
        for at, one in enumerate(statements(problem_set))
    ]
    blocks: list[Block] = [*groups] or [Paragraph("note", NONE_HERE)]
    return Page(
        title=_NAME, top=for_name_and_date(problem_set, layout), blocks=(Title(_NAME), *blocks)
    )


def _numbers(one: Statements, layout: Layout, *, new_page: bool) -> Group:
    blocks: list[Piece] = [
        Heading(1, one.code, number=one.number, new_page=new_page, counted=False),
        Paragraph("help", _JUDGE),
    ]
    words = f"True{_GAP * 8}False"
    blocks += [Paragraph("sum", f"{mathematics(said.equation)}\t{words}") for said in one.to_judge]
    blocks.append(Paragraph("help", _OPEN))
    both = "\t".join(equation for equation, _ in one.open)
    blocks.append(Paragraph("sum", mathematics(both, layout.sign)))
    return Group(tuple(blocks))
