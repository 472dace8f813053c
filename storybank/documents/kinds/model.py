"""Modelling page: one problem for the teacher to work aloud, a step at a time, with what to say."""

from dataclasses import replace

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
    """One problem of each strategy of the set, the first: the story, then a step at a time."""
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
    solution = problem.solution
    opening: list[Piece] = [
        Heading(1, problem.code, number=number, new_page=new_page, counted=False),
        *story(replace(problem, number_sets=())),
        *for_the_key(problem),
        Paragraph("note", strategy_name(problem.strategy or ""), lead="Strategy:"),
        Paragraph("note", mathematics(problem.equations.situation, layout.sign), lead="As told:"),
    ]
    if problem.standards:
        opening.append(Paragraph("note", ", ".join(problem.standards), lead="Standards:"))
    groups = [Group(tuple(opening))]
    for at, (step, says) in enumerate(zip(steps(solution), solution.says, strict=True), start=1):
        pieces: list[Piece] = [Heading(2, f"Step {at}")]
        if solution.jumps:
            line = open_number_line.worked(solution, measures=layout.measures, shown=at)
            pieces.append(Picture(line))
        pieces.append(Paragraph("say", mathematics(step)))
        pieces.append(Paragraph("say", mathematics(says), lead="Say:"))
        groups.append(Group(tuple(pieces)))
    closing: list[Piece] = [Heading(2, "The answer")]
    drawing = worked(problem.strategy, solution, measures=layout.measures)
    if drawing and not solution.jumps:
        closing.append(Picture(drawing))
    closing.append(Paragraph("say", problem.story.answer_sentence))
    return [*groups, Group(tuple(closing))]
