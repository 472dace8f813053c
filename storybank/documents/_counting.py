"""Counting warm-ups as blocks: a strip to fill, jumps to draw, what comes next and why.

Each count stays together on a page. The child's page names the step only, and the key says what
the teacher says and where voices trip.
"""

from collections.abc import Sequence

from storybank.documents._heights import height, on_pages
from storybank.documents._layout import Layout
from storybank.documents._notation import quoted
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
from storybank.documents._support import name_and_date
from storybank.drawings import Drawing, counting_jumps, handwriting, number_strip
from storybank.model.counting import Count

TITLE = "Counting Warm-Ups"
KEY_TITLE = "Counting Warm-Ups: Answer Key"
_NAMES = {1: "ones", 5: "fives", 10: "tens", 100: "hundreds"}
_ON_LINE = 6
_TITLE_HEIGHT = 38.0
_TO_ANSWER = "_" * 10
_WHY = "How do you know?"


def pages(counts: Sequence[Count], layout: Layout) -> dict[str, Page]:
    """The pages for children and the teacher's, by the names of their files."""
    return {"count": page(counts, layout), "count-key": key_page(counts, layout)}


def page(counts: Sequence[Count], layout: Layout) -> Page:
    """The pages for children, with room for name and date."""
    groups = on_pages(_all_asked(counts, layout), layout, _TITLE_HEIGHT)
    return Page(title=TITLE, top=name_and_date(layout), blocks=(Title(TITLE), *groups))


def key_page(counts: Sequence[Count], layout: Layout) -> Page:
    """The teacher's pages: each count filled, with what to say."""
    made = [_taught(number, count, layout) for number, count in enumerate(counts, start=1)]
    heading = Heading(1, "What to say, and all answers")
    groups = on_pages(made, layout, _TITLE_HEIGHT + height([heading], layout))
    return Page(title=KEY_TITLE, top=KEY_TITLE, blocks=(Title(KEY_TITLE), heading, *groups))


def for_children(counts: Sequence[Count], layout: Layout) -> list[Block]:
    """A group for each count: strip with gaps, jumps to go on with, and what comes next."""
    return [Group(tuple(pieces)) for pieces in _all_asked(counts, layout)]


def for_teacher(counts: Sequence[Count], layout: Layout) -> list[Piece]:
    """For each count, under a heading of level 2: what to say, strip and jumps filled, reason."""
    return [
        piece
        for number, count in enumerate(counts, start=1)
        for piece in _taught(number, count, layout)
    ]


def _all_asked(counts: Sequence[Count], layout: Layout) -> list[list[Piece]]:
    return [_asked(number, count, layout) for number, count in enumerate(counts, start=1)]


def _asked(number: int, count: Count, layout: Layout) -> list[Piece]:
    measures = layout.measures
    jumps = len(_on_line(count)) - 2
    more = f"{jumps} more jump{'' if jumps == 1 else 's'}"
    strip = number_strip.strip(count.numbers, count.gaps, measures=measures)
    asked = count.next_asked.removesuffix(_WHY).strip()
    lines = 2 if layout.large_print else 1
    return [
        Heading(1, f"{_named(number, count)}. Write the missing numbers."),
        Picture(strip),
        Paragraph("help", f"Draw {more}. Write the numbers where you land."),
        Picture(_line(count, layout, drawn=1)),
        Paragraph("story", asked),
        Paragraph("fill", f"{_TO_ANSWER}    {_WHY}", lead="Next:"),
        Picture(handwriting.writing_lines(lines, measures=measures)),
    ]


def _taught(number: int, count: Count, layout: Layout) -> list[Piece]:
    strip = number_strip.strip(count.numbers, count.gaps, filled=True, measures=layout.measures)
    asked = count.next_asked.removesuffix(_WHY).strip()
    return [
        Heading(2, _named(number, count)),
        Paragraph("fact", " ".join(count.says), lead="Say:"),
        Picture(strip),
        Picture(_line(count, layout)),
        Paragraph("fact", f"{asked} {count.next_answer}.", lead="Next:"),
        Paragraph("fact", quoted(count.next_says), lead="Because:"),
        Paragraph("fact", f"CCSS-M {', '.join(count.standards)}", lead="Standards:"),
    ]


def _named(number: int, count: Count) -> str:
    return f"{number}. Count {'back ' if count.back else ''}by {_NAMES[count.by]}"


def _line(count: Count, layout: Layout, drawn: int | None = None) -> Drawing:
    """The jumps of a part of the count; by tens and hundreds on an open line."""
    return counting_jumps.jumps(
        _on_line(count), drawn=drawn, ticked=count.by < 10, measures=layout.measures
    )


def _on_line(count: Count) -> tuple[int, ...]:
    """The part of the count whose jumps are drawn: six numbers, a gap past a hundred among them.

    Failing that one past a ten, failing that any. The two numbers that the line tells fill no gap
    of the strip.
    """
    numbers, gaps, size = count.numbers, count.gaps, min(_ON_LINE, len(count.numbers))
    past = [
        at for unit in (100, 10) for at in gaps if numbers[at] // unit != numbers[at - 1] // unit
    ]
    aim = past[0] if past else gaps[0]
    starts = [
        at
        for at in range(len(numbers) - size + 1)
        if at not in gaps and at + 1 not in gaps and at + 2 <= aim < at + size
    ]
    start = max(starts, default=0)
    return numbers[start : start + size]
