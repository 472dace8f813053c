"""What a week covers, and what its plan asked beside what it holds."""

from storybank.documents import _coverage
from storybank.documents._layout import Layout
from storybank.documents._page import Block, Heading, Page, Paragraph, Table, Title
from storybank.model.week import Week

TITLE = "What the Week Covers"


def page(week: Week, layout: Layout) -> Page:
    """The coverage of all problems, then how the wishes of the plan are met."""
    odd = [one for one in week.kept if one.asked != one.given]
    rows = tuple(
        (one.day, one.wish, one.asked, one.given if one.met else f"{one.given} (not met)")
        for one in odd
    )
    met = sum(one.met for one in week.kept)
    blocks: list[Block] = [
        Title(TITLE),
        *_coverage.blocks(week.coverage, layout),
        Heading(1, "Asked and given"),
        Paragraph("note", f"The plan has {len(week.kept)} wishes; {met} of them are met, and "
                  f"{len(week.kept) - len(odd)} to the number. The others are:"),
    ]  # fmt: skip
    if rows:
        blocks.append(Table(("Day", "Wish", "Asked", "Given"), rows, (16, 40, 20, 24)))
    return Page(title=TITLE, top=week.title, blocks=tuple(blocks))
