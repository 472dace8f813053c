"""A note home: the strategies of the week drawn and said plainly, with room for other words."""

from collections.abc import Iterator

from storybank.documents._layout import Layout
from storybank.documents._notation import mathematics, steps_text
from storybank.documents._page import Block, Group, Page, Paragraph, Picture, Piece, Title
from storybank.drawings import SMALL, Measures, worked
from storybank.model import Problem
from storybank.model.week import Way, Week

_HELLO = (
    "Dear family, this week your child learned ways to add and take away. Here is how they go. Any "
    "correct way is fine: let your child show you, and ask, "
    "\N{LEFT DOUBLE QUOTATION MARK}How did you do it?\N{RIGHT DOUBLE QUOTATION MARK} "
    "(The number lines are not to scale.)"
)
_IN_YOUR_LANGUAGE = "In your language:"
_WAYS_IN_FULL_SIZE = 3


def page(week: Week, layout: Layout) -> Page:
    """The strategies that the days teach, each with an example of the week."""
    blocks: list[Block] = [Title("What We Learned This Week"), Paragraph("note", _HELLO)]
    small = len(week.ways) > _WAYS_IN_FULL_SIZE and not layout.large_print
    measures = SMALL if small else layout.measures
    last: str | None = None
    for way in week.ways:
        example = _example(week, way, last)
        if example is not None:
            blocks.append(Group(tuple(_way(way, example, layout, measures))))
            last = example.solution.operation
    return Page(title="What We Learned This Week", top=week.title, blocks=tuple(blocks))


def _way(way: Way, example: Problem, layout: Layout, measures: Measures) -> Iterator[Piece]:
    equation = mathematics(example.equations.solution.replace("?", str(example.answer)))
    yield Paragraph(
        "note", f"{way.at_home} For example: {equation}.", lead=f"{way.in_short.capitalize()}."
    )
    drawing = worked(way.id, example.solution, measures=measures)
    if drawing:
        yield Picture(drawing)
    if drawing is None or not example.solution.jumps:
        yield Paragraph("fact", mathematics(steps_text(example.solution)))
    yield Paragraph("fill", "_" * (20 if layout.large_print else 42), lead=_IN_YOUR_LANGUAGE)


def _example(week: Week, way: Way, last: str | None) -> Problem | None:
    """The first problem that is worked in this way, with another operation than `last` if any.

    One whose answer is where the jumps land is easier to see than a sum of jumps.
    """
    found = [one for one in week.problems if one.strategy == way.id]
    other = [one for one in found if one.solution.operation != last] or found
    landing = [one for one in other if one.solution.answer_is == "landing"]
    return next(iter(landing or other), None)
