"""Cards to cut out: a story on each, with its code, so that the key stays matched."""

from storybank.documents import _changes
from storybank.documents._layout import Layout
from storybank.documents._page import Block, Cards, Heading, Page, Paragraph, Title
from storybank.documents._support import shape
from storybank.documents.kinds.student import FIND_ALL
from storybank.model import Problem, ProblemSet

TITLE = "Cards to cut out, a story on each"
FOR_CHILDREN = True
_A_PAGE, _COLUMNS = 6, 2
_A_PAGE_LARGE = 3


def page(problem_set: ProblemSet, layout: Layout) -> Page:
    """Six cards a page, three in large print; rows grow with long stories."""
    per_page = _A_PAGE_LARGE if layout.large_print else _A_PAGE
    columns = 1 if layout.large_print else _COLUMNS
    cards = [_card(number, one) for number, one in enumerate(problem_set.problems, start=1)]
    blocks: list[Block] = [Title("Story Cards")]
    for start in range(0, len(cards), per_page):
        some = tuple(cards[start : start + per_page])
        last = start + len(some)
        name = f"Cards {start + 1} to {last}" if len(some) > 1 else f"Card {last}"
        blocks += [Heading(1, name, new_page=start > 0), Cards(some, columns)]
    return Page(title="Story Cards", top="", blocks=tuple(blocks))


def _card(number: int, problem: Problem) -> tuple[Paragraph, ...]:
    told, _, question = _changes.told(problem, problem.text).partition("\n")
    name = Paragraph(
        "card-name",
        f"Problem {number} \N{MIDDLE DOT} {problem.code}    {shape(problem.vocabulary)}",
    )
    card: tuple[Paragraph, ...] = (name, Paragraph("card", told))
    if question:
        card = (*card, Paragraph("card", question))
    if problem.missing:
        card = (*card, Paragraph("card", _changes.ASK))
    return (*card, Paragraph("card", FIND_ALL)) if problem.unknown == "parts" else card
