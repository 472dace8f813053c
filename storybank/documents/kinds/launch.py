"""Launch pages: each story three times, to be read aloud and talked about before it is solved.

First without numbers and question, then with its numbers, then whole (reading a problem three times
with a purpose each is common practice, no source). One story a page, in large type.
"""

from storybank.documents._layout import Layout
from storybank.documents._page import Group, Heading, Page, Paragraph, Piece, Title
from storybank.model import Problem, ProblemSet

TITLE = "Launch pages: the story without numbers, without its question, whole"
FOR_CHILDREN = True
_ASKED = (
    "What is this story about? What do you see?",
    "What do the numbers tell? What could we ask?",
    "What do we want to find out? How could you begin?",
)


def page(problem_set: ProblemSet, layout: Layout) -> Page:
    """A page for each problem: three readings, each with what to talk about."""
    groups = [
        _problem(number, problem, new_page=number > 1)
        for number, problem in enumerate(problem_set.problems, start=1)
    ]
    return Page(title="Read It Three Times", top="", blocks=(Title("Read It Three Times"), *groups))


def _problem(number: int, problem: Problem, *, new_page: bool) -> Group:
    told = problem.story
    questions = 2 if problem.unknown == "parts" and len(told.sentences) > 2 else 1
    readings: list[tuple[str, list[Piece]]] = [
        ("First, without numbers", [_told(told.without_numbers)]),
        ("Then, without the question", [_told(told.sentences[:-questions])]),
        ("Now the whole story", [_told(told.sentences)]),
    ]
    if not told.without_numbers:
        del readings[0]
    blocks: list[Piece] = [Heading(1, problem.code, number=number, new_page=new_page)]
    for (name, pieces), asked in zip(readings, _ASKED[-len(readings) :], strict=True):
        blocks += [Heading(2, name), *pieces, Paragraph("help", asked, lead="Talk:")]
    return Group(tuple(blocks))


def _told(sentences: tuple[str, ...]) -> Paragraph:
    return Paragraph("launch", " ".join(sentences))
