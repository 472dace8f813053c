"""Launch pages: each story three times, to be read aloud and talked about before it is solved.

First without numbers and question, then with its numbers, then whole (reading a problem three times
with a purpose each is common practice, no source). One story a page, in large type.
"""

from storybank.documents._changes import ASK, told
from storybank.documents._layout import Layout
from storybank.documents._page import Group, Heading, Page, Paragraph, Piece, Title
from storybank.documents._support import shape_of
from storybank.model import Problem, ProblemSet

TITLE = "Launch pages: the story without numbers, without its question, whole"
FOR_CHILDREN = True
_FOLD = "Fold here, and show one part at a time."
_ASKED = (
    "What is this story about? What do you see in your mind?",
    "What do the numbers tell us? What could we ask?",
    "What do we want to find out? How could you begin?",
)


def page(problem_set: ProblemSet, layout: Layout) -> Page:
    """A page for each problem: three readings, each with what to talk about."""
    # In large print stories are large anyway, and three readings must fit on the page.
    style = "story" if layout.large_print else "launch"
    groups = [
        _problem(number, problem, style, new_page=number > 1)
        for number, problem in enumerate(problem_set.problems, start=1)
    ]
    return Page(
        title="Read It Three Times",
        top=shape_of(problem_set),
        blocks=(Title("Read It Three Times"), *groups),
    )


def _problem(number: int, problem: Problem, style: str, *, new_page: bool) -> Group:
    story = problem.story
    questions = 2 if problem.unknown == "parts" and len(story.sentences) > 2 else 1
    readings = [
        ("First, without numbers", story.without_numbers),
        ("Then, without the question", story.sentences[:-questions]),
        ("Now the whole story", story.sentences),
    ]
    if not story.without_numbers:
        del readings[0]
    blocks: list[Piece] = [Heading(1, problem.code, number=number, new_page=new_page)]
    for (name, sentences), asked in zip(readings, _ASKED[-len(readings) :], strict=True):
        if len(blocks) > 1:
            blocks.append(Paragraph("cut", _FOLD))
        blocks += [
            Heading(2, name),
            Paragraph(style, told(problem, " ".join(sentences))),
            Paragraph("help", asked, lead="Talk:"),
        ]
    if problem.missing:
        blocks.append(Paragraph("help", ASK, lead="Talk:"))
    return Group(tuple(blocks))
