"""Modelling page: one problem for the teacher to work aloud, a step at a time, with what to say."""

from dataclasses import replace

from storybank.documents._by_step import by_step, step_name
from storybank.documents._changes import for_the_key
from storybank.documents._layout import Layout
from storybank.documents._notation import mathematics, steps
from storybank.documents._page import Group, Heading, Page, Paragraph, Picture, Piece, Title
from storybank.documents._support import strategy_name
from storybank.documents.kinds.student import story
from storybank.drawings import open_number_line, worked
from storybank.model import Problem, ProblemSet

TITLE = "Modelling page: one problem, step by step, with what to say"
FOR_CHILDREN = False
_NAME = "Worked Aloud, for the Teacher"
_FOR_WHOM = (
    "One problem of each strategy of the set. Work it aloud a step at a time; the children solve "
    "the others. Number lines and bars are not to scale."
)


def page(problem_set: ProblemSet, layout: Layout) -> Page:
    """One problem of each strategy of the set, the first: the story, then a step at a time.

    A problem of two steps stands for the strategy of its second.
    """
    chosen: dict[str, tuple[int, Problem]] = {}
    for number, problem in enumerate(problem_set.problems, start=1):
        if problem.strategy is not None:
            chosen.setdefault(problem.strategy, (number, problem))
    blocks = [
        block
        for at, (number, problem) in enumerate(chosen.values())
        for block in _problem(number, problem, layout, new_page=at > 0)
    ]
    note = Paragraph("note", _FOR_WHOM)
    return Page(title=_NAME, top=_NAME, blocks=(Title(_NAME), note, *blocks))


def _problem(number: int, problem: Problem, layout: Layout, *, new_page: bool) -> list[Group]:
    heading = Heading(1, problem.code, number=number, new_page=new_page, counted=False)
    groups: list[Group] = []
    told = story(replace(problem, number_sets=()))
    opening: list[Piece] = [heading, *told, *for_the_key(problem)]
    for at, one in enumerate(by_step(problem), start=1):
        if problem.steps:
            opening.append(Heading(2, step_name(at)))
        groups += [*_worked(opening, one, layout), *_drawn(one, layout)]
        opening = []
    closing: list[Piece] = [Heading(2, "The answer")]
    if not problem.steps and groups and isinstance(groups[-1].blocks[0], Picture):
        closing.extend(groups.pop().blocks)
    closing.append(Paragraph("say", problem.story.answer_sentence))
    return [*groups, Group(tuple(closing))]


def _worked(opening: list[Piece], problem: Problem, layout: Layout) -> list[Group]:
    """The opening with the strategy and the equation of a step, then the step worked."""
    solution = problem.solution
    told: list[Piece] = [
        *opening,
        Paragraph("note", strategy_name(problem.strategy or ""), lead="Strategy:"),
        Paragraph("note", mathematics(problem.equations.situation, layout.sign), lead="As told:"),
    ]
    if opening and problem.standards:
        told.append(Paragraph("note", ", ".join(problem.standards), lead="Standards:"))
    groups = [Group(tuple(told))]
    for at, (step, says) in enumerate(zip(steps(solution), solution.says, strict=True), start=1):
        pieces: list[Piece] = [Heading(2, f"Step {at}")]
        if solution.jumps:
            line = open_number_line.worked(solution, measures=layout.measures, shown=at)
            pieces.append(Picture(line))
        pieces.append(Paragraph("say", mathematics(step)))
        pieces.append(Paragraph("say", mathematics(says), lead="Say:"))
        groups.append(Group(tuple(pieces)))
    return groups


def _drawn(problem: Problem, layout: Layout) -> list[Group]:
    """The drawing of a solution that has lines and no jumps."""
    solution = problem.solution
    drawing = worked(problem.strategy, solution, measures=layout.measures)
    return [Group((Picture(drawing),))] if drawing and not solution.jumps else []
