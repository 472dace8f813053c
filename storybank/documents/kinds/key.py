"""The answer key as blocks: a table of all answers, then each problem worked."""

from storybank.documents._notation import mathematics
from storybank.documents._page import Block, Group, Heading, Page, Paragraph, Picture, Table, Title
from storybank.documents._words import set_words
from storybank.drawings import open_number_line
from storybank.model import Problem, ProblemSet, Solution

_PLANS_FIRST = (
    "Your school\N{RIGHT SINGLE QUOTATION MARK}s own curriculum, language-support plans and "
    "accommodation plans come first."
)
_NOT_TO_SCALE = "Number lines are not to scale."


def key_page(problem_set: ProblemSet) -> Page:
    """The key: number, code, equation and answer in a line a problem, then every problem worked."""
    problems = tuple(enumerate(problem_set.problems, start=1))
    answers = Table(
        ("Problem", "Code", "Equation", "Answer"),
        tuple(
            (str(number), one.code, mathematics(one.equations.situation), _answer(one))
            for number, one in problems
        ),
        (16, 20, 34, 30),
    )
    blocks: list[Block] = [
        Title("Answer Key"),
        Paragraph("note", _PLANS_FIRST),
        Heading(1, "All answers"),
        answers,
        Heading(1, "Worked problems", new_page=True),
        Paragraph("note", _NOT_TO_SCALE),
    ]
    blocks.extend(_problem(number, one) for number, one in problems)
    words = set_words(problem_set)
    if words:
        blocks.extend((Heading(1, "Words in this set", new_page=True), *words))
    top = "Story Problems \N{MIDDLE DOT} Answer Key"
    return Page(title="Answer Key", top=top, blocks=tuple(blocks))


def strategy_name(strategy: str) -> str:
    """A strategy's id as words: `friendly-then-compensate` as "friendly, then compensate"."""
    return strategy.replace("-then-", ", then ").replace("-", " ")


def level_name(vocabulary: str) -> str:
    """A vocabulary's id as words: `level-1` as "Level 1"."""
    return vocabulary.replace("-", " ").capitalize()


def steps_text(solution: Solution) -> str:
    """The steps of a solution as equations in one line of text, in plain signs."""
    if solution.lines:
        return ", ".join(solution.lines)
    steps = [
        f"{jump.start} {'+' if jump.by > 0 else '-'} {abs(jump.by)} = {jump.to}"
        for jump in solution.jumps
    ]
    text = ", ".join(steps)
    if solution.answer_is == "sum of jumps" and len(solution.jumps) > 1:
        sizes = str(solution.jumps[0].by) + "".join(
            f" {'+' if jump.by > 0 else '-'} {abs(jump.by)}" for jump in solution.jumps[1:]
        )
        text = f"{text}; the jumps make {sizes} = {sum(jump.by for jump in solution.jumps)}"
    elif solution.answer_is == "sum of jumps":
        text = f"{text}; the answer is the jump, {solution.jumps[0].by}"
    return text


def _answer(problem: Problem) -> str:
    if isinstance(problem.answer, tuple):
        return f"{len(problem.answer)} ways, listed below"
    return str(problem.answer)


def _problem(number: int, problem: Problem) -> Group:
    solution = problem.solution
    blocks: list[Heading | Paragraph | Picture | Table] = [
        Heading(2, problem.code, number=number),
        *(
            Paragraph("note", one.story.text.replace("\n", " "), lead=lead)
            for lead, one in _told(problem)
        ),
    ]
    if solution.jumps:
        blocks.append(Picture(open_number_line.worked(solution)))
    blocks.append(Paragraph("fact", mathematics(steps_text(solution)), lead="Steps:"))
    if solution.says:
        blocks.append(Paragraph("fact", mathematics(" ".join(solution.says)), lead="Say:"))
    blocks.append(Paragraph("fact", _equations(problem), lead="Equation:"))
    if problem.related_facts:
        facts = mathematics(",   ".join(problem.related_facts))
        blocks.append(Paragraph("fact", facts, lead="Related facts:"))
    blocks.append(Paragraph("fact", problem.story.answer_sentence, lead="Answer:"))
    blocks.extend(
        Paragraph("fact", f"{entry.answer}. {mathematics(entry.says)}", lead="Watch for")
        for entry in problem.watch_for
    )
    if problem.second_way:
        way = problem.second_way
        text = f"{strategy_name(way.strategy)}. {steps_text(way.solution)}"
        blocks.append(Paragraph("fact", mathematics(text), lead="Second way:"))
    if problem.strategy:
        blocks.append(
            Paragraph(
                "fact",
                "Any correct way counts; today we practice "
                f"\N{LEFT DOUBLE QUOTATION MARK}{strategy_name(problem.strategy)}"
                "\N{RIGHT DOUBLE QUOTATION MARK}.",
            )
        )
    return Group(tuple(blocks))


def _told(problem: Problem) -> list[tuple[str, Problem]]:
    """The story, or the same story at each of its levels, each with its lead-in."""
    if not problem.levels:
        return [("Story:", problem)]
    return [(f"{level_name(one.vocabulary)}:", one) for one in problem.levels]


def _equations(problem: Problem) -> str:
    story, solved = problem.equations.situation, problem.equations.solution
    if story == solved:
        return mathematics(story)
    return f"{mathematics(story)} (as told), {mathematics(solved)} (to solve)"
