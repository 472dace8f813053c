"""What a week covers, and what its plan asked beside what it holds."""

from storybank.documents import _coverage
from storybank.documents._layout import Layout
from storybank.documents._page import Heading, Page, Table, Title
from storybank.model.week import Week

TITLE = "What the Week Covers"


def page(week: Week, layout: Layout) -> Page:
    """The coverage of all problems, then a row for each wish of the plan."""
    rows = tuple(
        (one.day, one.wish, one.asked, one.given if one.met else f"{one.given} (not met)")
        for one in week.kept
    )
    return Page(
        title=TITLE,
        top=week.title,
        blocks=(
            Title(TITLE),
            *_coverage.blocks(week.coverage, layout),
            Heading(1, "Asked and given", new_page=True),
            Table(("Day", "Wish", "Asked", "Given"), rows, (16, 40, 20, 24)),
        ),
    )
