"""The answer key as blocks: a table of all answers, then each problem worked."""

from dataclasses import replace

from storybank.documents import _changes
from storybank.documents._by_step import by_step, step_name
from storybank.documents._layout import Layout
from storybank.documents._notation import mathematics, quoted, steps_text
from storybank.documents._page import (
    Block,
    Group,
    Heading,
    Page,
    Paragraph,
    Picture,
    Piece,
    Table,
    Title,
)
from storybank.documents._support import bar, level_name, shape, strategy_name
from storybank.documents._words import set_words
from storybank.drawings import worked
from storybank.model import Problem, ProblemSet

TITLE = "Answer key, all answers first, then each problem worked"
FOR_CHILDREN = False

PLANS_FIRST = (
    "Your school\N{RIGHT SINGLE QUOTATION MARK}s own curriculum, language-support plans and "
    "accommodation plans come first."
)
NOT_TO_SCALE = "Number lines and bars are not to scale."


def page(problem_set: ProblemSet, layout: Layout) -> Page:
    """The key: number, code, equation and answer in a line a problem, then every problem worked."""
    problems = tuple(enumerate(problem_set.problems, start=1))
    answers = Table(
        ("Problem", "Code", "Equation", "Answer"),
        tuple(row for number, one in problems for row in rows(str(number), one, layout.sign)),
        (22, 18, 32, 28),
    )
    blocks: list[Block] = [
        Title("Answer Key"),
        Paragraph("note", PLANS_FIRST),
        *shapes(problem_set),
        Heading(1, "All answers"),
        answers,
        Heading(1, "Worked problems", new_page=True),
        Paragraph("note", NOT_TO_SCALE),
    ]
    for number, one in problems:
        blocks.extend(problem_worked(number, one, layout))
    words = set_words(problem_set, narrow=layout.large_print)
    if words:
        blocks.extend((Heading(1, "Words in this set", new_page=True), *words))
    top = "Story Problems \N{MIDDLE DOT} Answer Key"
    return Page(title="Answer Key", top=top, blocks=tuple(blocks))


def rows(number: str, problem: Problem, sign: str) -> list[tuple[str, str, str, str]]:
    """The line of a problem in the table of answers, or one for each of its number sets."""
    if problem.number_sets:
        return _changes.answers(number, problem, sign)
    return [(number, problem.code, told_as(problem, sign), answer(problem))]


def told_as(problem: Problem, sign: str) -> str:
    """The equation that follows the story, of two steps both."""
    told = ", ".join(mathematics(one.equations.situation, sign) for one in by_step(problem))
    # A sum of several addends may be longer than its column.
    return told.replace("\N{NO-BREAK SPACE}", " ") if "part3" in problem.numbers else told


def answer(problem: Problem) -> str:
    """The answer as it stands in a table."""
    if isinstance(problem.answer, tuple):
        return f"{len(problem.answer)} ways, listed below"
    return str(problem.answer)


def shapes(problem_set: ProblemSet) -> list[Paragraph]:
    """What the shapes on the sheets for children stand for."""
    told = [one for problem in problem_set.problems for one in (problem, *problem.levels)]
    levels = dict.fromkeys(one.vocabulary for one in told)
    said = ", ".join(f"{shape(level)} {level_name(level)}" for level in sorted(levels))
    return [Paragraph("note", f"The shape on the sheets for children: {said}.")] if said else []


def problem_worked(
    number: int | None, problem: Problem, layout: Layout, *, counted: bool = True
) -> tuple[Group, ...]:
    """A problem that stays together; in large print in parts, since a page is too short.

    So is a problem of two steps, or with several sets of numbers. One without a `number` is
    called by its code alone; a `counted` one counts itself.
    """
    told: list[Piece] = [
        Paragraph("note", _changes.told(one, one.text).replace("\n", " "), lead=lead)
        for lead, one in _told(problem)
    ]
    told.extend(_changes.for_the_key(problem))
    parts: list[list[Piece]] = [told, *(solved(one, layout) for one in by_step(problem))]
    for at, part in enumerate(parts[1:], start=1):
        if problem.steps:
            equation, *facts = equations_and_facts(by_step(problem)[at - 1], layout)
            part[:] = [replace(equation, lead=f"{step_name(at)}:"), *part, *facts]
    parts = [[*parts[0], *parts[1]], *parts[2:], _about(problem, layout)]
    sets = _changes.other_sets(problem, layout.sign)
    name = Heading(2, problem.code, number=number, counted=counted)
    again = Heading(2, f"{problem.code}, continued", number=number, counted=False)
    if layout.large_print:
        parts += [sets] if sets else []
        return Group((name, *parts[0])), *(Group((again, *part)) for part in parts[1:])
    opening, further = parts[0], [piece for part in parts[1:] for piece in part]
    if problem.number_sets:
        return Group((name, *opening)), Group((again, *further, *sets))
    if problem.steps:
        # Two steps with tall drawings are longer than a page.
        return Group((name, *opening)), Group(tuple(further))
    return (Group((name, *opening, *further)),)


def solved(problem: Problem, layout: Layout) -> list[Piece]:
    """One step drawn and worked, with what to say."""
    solution = problem.solution
    drawings = (
        bar(problem, layout.measures),
        worked(problem.strategy, solution, measures=layout.measures),
    )
    blocks: list[Piece] = [Picture(drawing) for drawing in drawings if drawing]
    blocks.append(Paragraph("fact", mathematics(steps_text(solution)), lead="Steps:"))
    if solution.says:
        blocks.append(Paragraph("fact", quoted(mathematics(" ".join(solution.says))), lead="Say:"))
    return blocks


def equations_and_facts(problem: Problem, layout: Layout) -> list[Paragraph]:
    """The equations as told and to solve, and the related facts."""
    blocks = [Paragraph("fact", _equations(problem, layout.sign), lead="Equation:")]
    if problem.related_facts:
        facts = mathematics(",   ".join(problem.related_facts))
        blocks.append(Paragraph("fact", facts, lead="Related facts:"))
    return blocks


def _about(problem: Problem, layout: Layout) -> list[Piece]:
    """Equations, facts, the answer, wrong answers to watch for, and another way.

    Of two steps the equations and facts stand with each step.
    """
    blocks: list[Piece] = []
    if not problem.steps:
        blocks.extend(equations_and_facts(problem, layout))
    blocks.append(Paragraph("fact", problem.story.answer_sentence, lead="Answer:"))
    blocks.extend(to_watch_for(problem))
    blocks.extend(further(problem))
    return blocks


def to_watch_for(problem: Problem) -> list[Paragraph]:
    """The wrong answers to watch for, each with what is behind it."""
    return [
        Paragraph("fact", f"{entry.answer}. {quoted(mathematics(entry.says))}", lead="Watch for")
        for entry in problem.watch_for
    ]


def further(problem: Problem) -> list[Piece]:
    """Another way, the name of the way shown, and the standards."""
    blocks: list[Piece] = []
    if problem.second_way:
        way = problem.second_way
        text = f"{strategy_name(way.strategy)}. {steps_text(way.solution)}"
        blocks.append(Paragraph("fact", mathematics(text), lead="Second way:"))
    if problem.strategy:
        names = dict.fromkeys(one.strategy or "" for one in by_step(problem))
        name = " and ".join(quoted(f'"{strategy_name(one)}"') for one in names)
        text = f"Any correct way counts; the way shown is {name}."
        blocks.append(Paragraph("fact", text))
    if problem.standards:
        blocks.append(Paragraph("fact", ", ".join(problem.standards), lead="Standards:"))
    return blocks


def _told(problem: Problem) -> list[tuple[str, Problem]]:
    """The story, or the same story at each of its levels, each with its lead-in."""
    if not problem.levels:
        return [("Story:", problem)]
    return [(f"{level_name(one.vocabulary)}:", one) for one in problem.levels]


def _equations(problem: Problem, sign: str) -> str:
    story, solved = problem.equations.situation, problem.equations.solution
    if story == solved:
        return mathematics(story, sign)
    return f"{mathematics(story, sign)} (as told), {mathematics(solved, sign)} (to solve)"
