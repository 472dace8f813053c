"""The teacher's plan of a day, on one page."""

from collections.abc import Iterator

from storybank.documents import _changes
from storybank.documents._by_step import by_step
from storybank.documents._layout import Layout
from storybank.documents._notation import mathematics, quoted
from storybank.documents._page import Block, Group, Page, Paragraph, Picture, Piece, Title
from storybank.documents.kinds.key import answer, told_as
from storybank.documents.week._parts import ALOUD, NAMES, numbered, standards_of
from storybank.drawings import SMALL, worked
from storybank.model import Problem
from storybank.model.week import Day, Way, Week

_CHOOSE = (
    "The child chooses. Stories stand in pairs: the numbers of each call for another way. Ask: "
    "Which way is easy here, and why not there?"
)
_NOT_TO_SCALE = "Number lines are not to scale."


def page(week: Week, day: Day, layout: Layout) -> Page:
    """Goal, words, warm-up, the problems worked aloud with what to say, and what follows."""
    blocks: list[Block] = [Title(f"{day.name}: Plan"), Group(tuple(_goal(day)))]
    for at, problem in enumerate(day.parts[ALOUD].problems if ALOUD in day.parts else (), 1):
        blocks.append(Group(tuple(_aloud(at, problem, day, layout))))
    blocks.append(Group((*_then(week, day, layout), _standards(day))))
    return Page(title=f"{day.name}, plan", top=week.title, blocks=tuple(blocks))


def _goal(day: Day) -> Iterator[Paragraph]:
    yield Paragraph("fact", day.goal, lead="Goal:")
    if day.way:
        yield Paragraph("fact", f"{_named(day.way)}. {day.way.teacher}", lead="Strategy:")
    elif day.choices:
        yield Paragraph("fact", _CHOOSE, lead="Strategy:")
    words = "; ".join(f"{one.word}: {one.meaning}" for one in day.words)
    if words:
        yield Paragraph("fact", f"{words}.", lead="Words:")
    if day.counts:
        said = " ".join(f"{count.says[0].partition('.')[0]}." for count in day.counts)
        yield Paragraph("fact", quoted(said), lead="Warm up:")


def _named(way: Way) -> str:
    """What children call a strategy, and what teachers do where that differs."""
    short, title = way.in_short.capitalize(), way.title
    return short if short == title else f"{short} ({title[0].lower()}{title[1:]})"


def _standards(day: Day) -> Paragraph:
    return Paragraph("fact", f"{standards_of(day.problems)}. {_NOT_TO_SCALE}", lead="Standards:")


def _aloud(at: int, problem: Problem, day: Day, layout: Layout) -> Iterator[Piece]:
    """A problem worked aloud: story, drawing, what to say."""
    story = _changes.told(problem, problem.text).replace("\n", " ")
    yield Paragraph("fact", story, lead=f"Worked aloud {at} ({problem.code}):")
    measures = layout.measures if layout.large_print else SMALL
    says: list[str] = []
    for step in by_step(problem):
        drawing = worked(step.strategy, step.solution, measures=measures)
        if drawing:
            yield Picture(drawing)
        says += step.solution.says
    said = mathematics(" ".join((*says, problem.story.answer_sentence)))
    yield Paragraph("fact", quoted(said), lead="Say:")
    yield from (one for one in _changes.for_the_key(problem) if isinstance(one, Paragraph))
    for one in day.choices:
        if one.code == problem.code:
            yield Paragraph(
                "fact", f"{one.way.title}. {mathematics(one.why)}", lead="Why this way:"
            )


def _then(week: Week, day: Day, layout: Layout) -> Iterator[Paragraph]:
    """The other parts, each in a line: numbers on the sheets, equations, answers."""
    for part in day.parts:
        if part == ALOUD:
            continue
        told = [
            f"{number})\N{NO-BREAK SPACE}{_sum(one, day, layout)}"
            for name, number, one in numbered(day)
            if name == part
        ]
        if part == "review":
            told.append(_ways(week, day))
        yield Paragraph("fact", ";   ".join(told), lead=f"{NAMES[part]}:")


def _ways(week: Week, day: Day) -> str:
    """The strategies that the review looks back at."""
    told = {one.strategy for one in day.parts["review"].problems}
    return " and ".join(one.in_short for one in week.ways if one.id in told)


def _sum(problem: Problem, day: Day, layout: Layout) -> str:
    """The equation with its answer, or, where it is to be chosen, the answer and the way."""
    way = next((one.way for one in day.choices if one.code == problem.code), None)
    told = f"{told_as(problem, layout.sign)} ({answer(problem)})"
    if way is not None:
        told = f"{answer(problem)}, {way.in_short}"
    return told.replace(" ", "\N{NO-BREAK SPACE}")
