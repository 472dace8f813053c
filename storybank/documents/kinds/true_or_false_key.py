"""The key of "True or false": the equations sorted, and what a false one shows."""

from collections.abc import Iterable

from storybank.documents._layout import Layout
from storybank.documents._notation import mathematics
from storybank.documents._page import Block, Heading, Page, Paragraph, Table, Title
from storybank.documents._statements import NONE_HERE, Statements, statements
from storybank.model import ProblemSet

TITLE = "Key of the page true-or-false, with what a false equation shows"
FOR_CHILDREN = False
_NAME = "Answer Key: True or False?"


def page(problem_set: ProblemSet, layout: Layout) -> Page:
    """A line for each three numbers, then an example of each way to be wrong and what it shows."""
    found = statements(problem_set)
    blocks: list[Block] = [Paragraph("note", NONE_HERE)]
    if found:
        header = ("Problem", "True", "False", "Made true")
        blocks = [
            Table(header, tuple(_row(one) for one in found), (20, 28, 28, 24)),
            Heading(1, "What may be behind a false one"),
            *_reasons(found),
        ]
    top = "True or False? \N{MIDDLE DOT} Answer Key"
    return Page(title=_NAME, top=top, blocks=(Title(_NAME), *blocks))


def _row(one: Statements) -> tuple[str, str, str, str]:
    return (
        f"{one.number} \N{MIDDLE DOT} {one.code}",
        _listed(said.equation for said in one.to_judge if said.true),
        _listed(said.equation for said in one.to_judge if not said.true),
        _listed(equation.replace("?", str(number)) for equation, number in one.open),
    )


def _listed(equations: Iterable[str]) -> str:
    return ", ".join(mathematics(one) for one in equations)


def _reasons(found: Iterable[Statements]) -> list[Paragraph]:
    """Each way to be wrong once, with the first equation of the set that shows it."""
    shown: dict[str, str] = {}
    for one in found:
        for said in one.to_judge:
            if not said.true:
                shown.setdefault(said.why, said.equation)
    return [
        Paragraph("fact", why, lead=f"{mathematics(equation)}:") for why, equation in shown.items()
    ]
