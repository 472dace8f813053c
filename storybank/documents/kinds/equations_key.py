"""The key of "Which equation fits": the letter and the equation of each story."""

from storybank.documents._choices import LETTERS, Choices, choices
from storybank.documents._layout import Layout
from storybank.documents._notation import mathematics
from storybank.documents._one_step import NONE_HERE, one_step
from storybank.documents._page import Block, Page, Paragraph, Table, Title
from storybank.model import Problem, ProblemSet

TITLE = "Key of the page equations: which equation fits each story"
FOR_CHILDREN = False
_NAME = "Answer Key: Which Equation Fits?"
_SPACE = "\N{NO-BREAK SPACE}"
_COUNTS = (
    "Where another equation finds the same number, ask the child to show in it what happens first: "
    "both are worth talking about."
)


def page(problem_set: ProblemSet, layout: Layout) -> Page:
    """A line a problem: number, code, letter, equation, and which others find the same number."""
    problems = one_step(problem_set)
    offered = choices([one for _, one in problems])
    rows = tuple(
        _row(number, one, given, layout.sign)
        for (number, one), given in zip(problems, offered, strict=True)
    )
    blocks: list[Block] = [Paragraph("note", NONE_HERE)]
    if rows:
        header = ("Problem", "Code", "Equation", "To talk about")
        blocks = [Paragraph("note", _COUNTS), Table(header, rows, (22, 18, 30, 30))]
    top = "Which Equation Fits? \N{MIDDLE DOT} Answer Key"
    return Page(title=_NAME, top=top, blocks=(Title(_NAME), *blocks))


def _row(number: int, problem: Problem, given: Choices, sign: str) -> tuple[str, str, str, str]:
    fitting = mathematics(given.equations[given.right], sign)
    letters = " and ".join(LETTERS[at] for at in given.also_solve)
    said = _SPACE
    if letters:
        verb = "find" if len(given.also_solve) > 1 else "finds"
        said = f"{letters} {verb} the number, too, but not in the order of the story."
    return str(number), problem.code, f"{LETTERS[given.right]}.{_SPACE * 2}{fitting}", said
