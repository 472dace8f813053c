"""A problem on a screen: what stands behind its story, and a step at a time for the board."""

from collections.abc import Iterator
from dataclasses import dataclass

from storybank.documents import _changes
from storybank.documents._by_step import by_step, step_name
from storybank.documents._layout import Layout
from storybank.documents._notation import mathematics, steps
from storybank.documents._page import Paragraph, Picture, Piece
from storybank.documents._support import has_word_bank, strategy_name
from storybank.documents._words import set_words
from storybank.documents.kinds import key
from storybank.drawings import open_number_line, worked
from storybank.model import Problem, ProblemSet


@dataclass(frozen=True, slots=True)
class Behind:
    """What a teacher opens behind a story, as blocks of the one page model."""

    equation: tuple[Piece, ...]
    worked: tuple[Piece, ...]
    watch_for: tuple[Piece, ...]
    words: tuple[Piece, ...]


@dataclass(frozen=True, slots=True)
class BoardStep:
    """One step of a problem worked at the board: its name and its blocks."""

    name: str
    blocks: tuple[Piece, ...]


def behind(problem: Problem, layout: Layout) -> Behind:
    """The equations, the worked solution, the wrong answers and the words of a problem."""
    equation: list[Piece] = [*_changes.for_the_key(problem)]
    solved: list[Piece] = []
    for at, one in enumerate(by_step(problem), start=1):
        if problem.steps:
            equation.append(Paragraph("note", step_name(at)))
            solved.append(Paragraph("note", step_name(at)))
        equation += key.equations_and_facts(one, layout)
        solved += key.solved(one, layout)
    if any(isinstance(one, Picture) for one in solved):
        solved.append(Paragraph("note", key.NOT_TO_SCALE))
    solved.append(Paragraph("fact", problem.story.answer_sentence, lead="Answer:"))
    solved += key.further(problem)
    sets = _changes.other_sets(problem, layout.sign)
    words: list[Piece] = []
    if has_word_bank(problem):
        words += set_words(ProblemSet({}, (problem,), ""), narrow=False)
    words += [Paragraph("fact", one) for one in problem.story.talk_frames]
    words.append(Paragraph("fact", problem.story.answer_frame, lead="Answer:"))
    return Behind(tuple(equation), (*solved, *sets), tuple(key.to_watch_for(problem)), tuple(words))


def at_the_board(problem: Problem, layout: Layout) -> tuple[BoardStep, ...]:
    """The problem a step at a time: the equation, each jump or line drawn, then the answer."""
    found: list[BoardStep] = []
    several = len(problem.steps) > 1
    for at, one in enumerate(by_step(problem), start=1):
        name = f"{step_name(at)}, " if several else ""
        equation = Paragraph("say", mathematics(one.equations.situation, layout.sign))
        way = Paragraph("note", strategy_name(one.strategy or ""), lead="Strategy:")
        told: tuple[Piece, ...] = (equation, way) if one.strategy else (equation,)
        found.append(BoardStep(f"{name}equation".capitalize(), told))
        found += _steps(one, layout, name)
    answer = Paragraph("say", problem.story.answer_sentence)
    return (*found, BoardStep("Answer", (answer,)))


def _steps(problem: Problem, layout: Layout, name: str) -> Iterator[BoardStep]:
    solution = problem.solution
    drawing = worked(problem.strategy, solution, measures=layout.measures)
    told = steps(solution)
    says = solution.says or ("",) * len(told)
    for at, (step, said) in enumerate(zip(told, says, strict=False), start=1):
        pieces: list[Piece] = []
        if solution.jumps:
            line = open_number_line.worked(solution, measures=layout.measures, shown=at)
            pieces.append(Picture(line))
        elif drawing is not None and at == len(told):
            pieces.append(Picture(drawing))
        pieces += [Paragraph("work", mathematics(before)) for before in told[: at - 1]]
        pieces.append(Paragraph("say", mathematics(step)))
        if said:
            pieces.append(Paragraph("note", mathematics(said)))
        yield BoardStep(f"{name}step {at} of {len(told)}".capitalize(), tuple(pieces))
