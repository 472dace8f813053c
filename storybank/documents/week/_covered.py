"""What a week covers, and what its plan asked beside what it holds."""

from storybank.documents import _coverage
from storybank.documents._layout import Layout
from storybank.documents._page import Block, Heading, Page, Paragraph, Table, Title
from storybank.model.week import Week

TITLE = "What the Week Covers"


def page(week: Week, layout: Layout) -> Page:
    """The coverage of all problems, then how the wishes of the plan are met."""
    lacking = [one for one in week.kept if not one.met]
    said = f"All {len(week.kept)} wishes of the plan are met."
    if lacking:
        said = f"Of {len(week.kept)} wishes of the plan these are not met:"
    blocks: list[Block] = [
        Title(TITLE),
        *_coverage.blocks(week.coverage, layout),
        Heading(1, "Asked and given"),
        Paragraph("note", said),
    ]
    if lacking:
        rows = tuple((one.day, one.wish, one.asked, one.given) for one in lacking)
        blocks.append(Table(("Day", "Wish", "Asked", "Given"), rows, (16, 40, 20, 24)))
    return Page(title=TITLE, top=week.title, blocks=tuple(blocks))
