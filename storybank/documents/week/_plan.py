"""The teacher's plan of a day, on one page."""

from collections.abc import Iterator

from storybank.documents._layout import Layout
from storybank.documents._notation import mathematics, quoted
from storybank.documents._page import Block, Group, Page, Paragraph, Picture, Piece, Title
from storybank.documents.kinds.key import answer
from storybank.documents.week._parts import ALOUD, NAMES, numbered
from storybank.drawings import SMALL, worked
from storybank.model import Problem
from storybank.model.week import Day, Week

_CHOOSE = (
    "The child chooses. Stories stand in pairs: a strategy pays for one and not for the other."
)


def page(week: Week, day: Day, layout: Layout) -> Page:
    """Goal, words, warm-up, the problems worked aloud with what to say, and what follows."""
    blocks: list[Block] = [Title(f"{day.name}: Plan"), Group(tuple(_goal(day)))]
    for at, problem in enumerate(day.parts[ALOUD].problems if ALOUD in day.parts else (), 1):
        blocks.append(Group(tuple(_aloud(at, problem, day, layout))))
    blocks.append(Group((*_then(day, layout), _practices(day))))
    return Page(title=f"{day.name}, plan", top=week.title, blocks=tuple(blocks))


def _goal(day: Day) -> Iterator[Paragraph]:
    yield Paragraph("fact", day.goal, lead="Goal:")
    if day.way:
        yield Paragraph("fact", f"{day.way.title}. {day.way.teacher}", lead="Strategy:")
    elif day.pairs:
        yield Paragraph("fact", _CHOOSE, lead="Strategy:")
    words = "; ".join(f"{one.word}: {one.meaning}" for one in day.words)
    if words:
        yield Paragraph("fact", f"{words}.", lead="Words:")
    if day.counts:
        said = " ".join(count.says[0] for count in day.counts)
        yield Paragraph("fact", quoted(said), lead="Warm up:")


def _practices(day: Day) -> Paragraph:
    standards = sorted({code for one in day.problems for code in one.standards})
    return Paragraph("fact", f"{', '.join(standards)}.", lead="Practices:")


def _aloud(at: int, problem: Problem, day: Day, layout: Layout) -> Iterator[Piece]:
    """A problem worked aloud: story, drawing, what to say."""
    story = problem.text.replace("\n", " ")
    yield Paragraph("fact", story, lead=f"Work aloud {at} ({problem.code}):")
    measures = layout.measures if layout.large_print else SMALL
    drawing = worked(problem.strategy, problem.solution, measures=measures)
    if drawing:
        yield Picture(drawing)
    said = mathematics(" ".join((*problem.solution.says, problem.story.answer_sentence)))
    yield Paragraph("fact", quoted(said), lead="Say:")
    for pair in day.pairs:
        if problem.code in (pair.fits, pair.other):
            way, why = (
                (pair.way, pair.why) if problem.code == pair.fits else (pair.instead, pair.why_not)
            )
            yield Paragraph("fact", mathematics(f"{way.title}. {why}"), lead="Why this way:")


def _then(day: Day, layout: Layout) -> Iterator[Paragraph]:
    """The other parts, each in a line: numbers on the sheets, equations, answers."""
    for part in day.parts:
        if part == ALOUD:
            continue
        told = [
            f"{number})\N{NO-BREAK SPACE}{_sum(one, layout)}"
            for name, number, one in numbered(day)
            if name == part
        ]
        yield Paragraph("fact", ",   ".join(told), lead=f"{NAMES[part]}:")


def _sum(problem: Problem, layout: Layout) -> str:
    """The equation with its answer, in one piece."""
    equation = mathematics(problem.equations.situation, layout.sign)
    return f"{equation}\N{NO-BREAK SPACE}({answer(problem)})".replace(" ", "\N{NO-BREAK SPACE}")
