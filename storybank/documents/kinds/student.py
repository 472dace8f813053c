"""The student pages as blocks, with room to work.

Two problems a page; one in large print, beside a word bank or with a long story, since two would
not fit. In large print the talk frames stand on the page of words only.
"""

from math import ceil

from storybank.documents._by_step import by_step
from storybank.documents._layout import Layout
from storybank.documents._page import Group, Heading, Page, Paragraph, Picture, Piece, Title
from storybank.documents._support import (
    bar,
    for_name_and_date,
    has_word_bank,
    line_to_draw_on,
    sentence_starter,
)
from storybank.documents._words import languages_of, word_table
from storybank.drawings import handwriting, open_number_line
from storybank.model import Problem, ProblemSet

TITLE = "Student pages, with room to work"
FOR_CHILDREN = True
_TITLE_HEIGHT, _HEIGHT, _LINE, _LETTERS = 38.0, 283.0, 15.4, 55
"""Points of the title, of a problem without its story, of a line of it; the letters of a line."""
_FURTHER = 130.0
"""Points of a further number line and equation, for the second of two steps."""
_WAYS = 5
FIND_ALL = "Find all the ways. You may use 0, too."


def page(problem_set: ProblemSet, layout: Layout) -> Page:
    """The pages for children; no level, strategy or group stands on them, but a shape."""
    groups: list[Group] = []
    filled = _TITLE_HEIGHT
    for number, problem in enumerate(problem_set.problems, start=1):
        height = _height(problem, layout)
        new_page = number > 1 and filled + height > layout.text_height
        filled = height if new_page else filled + height
        languages = languages_of(problem_set, problem)
        groups.append(_problem(number, problem, languages, layout, new_page=new_page))
    return Page(
        title="Story Problems",
        top=for_name_and_date(problem_set, layout),
        blocks=(Title("Story Problems"), *groups),
    )


def _height(problem: Problem, layout: Layout) -> float:
    """How much of a page a problem takes, in points: a whole one, or by the length of its story."""
    if layout.large_print or has_word_bank(problem):
        return layout.text_height
    further = _FURTHER * len(problem.steps[1:])
    return (
        _HEIGHT
        + further
        + sum(_LINE * ceil(len(one) / _LETTERS) for one in problem.text.split("\n"))
    )


def _problem(
    number: int, problem: Problem, languages: tuple[str, ...], layout: Layout, *, new_page: bool
) -> Group:
    support = problem.story.support
    blocks: list[Piece] = [Heading(1, problem.code, number=number, new_page=new_page)]
    blocks.extend(story(problem))
    word_bank = has_word_bank(problem)
    if word_bank:
        blocks.append(word_table(problem, languages, narrow=layout.large_print))
    if problem.unknown == "parts":
        return Group((*blocks, *_all_ways(problem, layout)))
    diagram = bar(by_step(problem)[0], layout.measures) if "bar" in support else None
    if diagram:
        blocks.append(Picture(diagram))
    roomy = word_bank != layout.large_print
    if problem.steps:
        # Two number lines and equations beside a word bank fill the page.
        roomy = not word_bank and not layout.large_print
    sign = to_find(layout)
    told, lead = (
        f"Show your work. In the equation, put {sign} for what you do not know.",
        "Equation:",
    )
    if layout.large_print:
        told, lead = "Show your work.", f"Equation, with {sign}:"
    blocks.append(Paragraph("tall" if roomy and not diagram else "work", told))
    blocks += lines_to_draw_on(problem, layout)
    if "talk-frames" in support and not layout.large_print:
        blocks.extend(Paragraph("help", frame) for frame in problem.story.talk_frames)
    blocks += [
        *equations_to_write(problem, layout, lead),
        Paragraph("fill", answer_to_write(problem), lead="Answer:"),
        Picture(handwriting.writing_lines(1, measures=layout.measures)),
    ]
    return Group(tuple(blocks))


def lines_to_draw_on(problem: Problem, layout: Layout) -> list[Piece]:
    """A number line for each step, the first as its level has it, the others blank; or none.

    In large print there is room for one.
    """
    line = line_to_draw_on(problem, layout)
    if not line:
        return []
    if layout.large_print:
        return [Picture(line)]
    blank = open_number_line.blank(measures=layout.measures)
    return [Picture(line), *(Picture(blank) for _ in problem.steps[1:])]


def equations_to_write(problem: Problem, layout: Layout, lead: str) -> list[Piece]:
    """Boxes for the equation, of two steps for both."""
    addends = max(2, len(problem.numbers) - 1)
    drawn = handwriting.equation_boxes(measures=layout.measures, addends=addends)
    boxes = Picture(drawn, lead=lead)
    again = Picture(handwriting.equation_boxes(measures=layout.measures), lead="Next equation:")
    return [boxes, *(again for _ in problem.steps[1:])]


def _all_ways(problem: Problem, layout: Layout) -> list[Piece]:
    """Room for all pairs of parts, more or fewer than there are: their number is to be found."""
    if "answer-frame" in problem.story.support:
        frame = Paragraph("fill", answer_to_write(problem))
        return [Paragraph("work", FIND_ALL), *[frame] * _WAYS]
    lines = handwriting.writing_lines(_WAYS, measures=layout.measures)
    return [Paragraph("work", FIND_ALL), Picture(lines)]


def story(problem: Problem) -> list[Piece]:
    """The story, and the question by itself where the level gives it a line of its own."""
    told, _, question = problem.story.text.partition("\n")
    blocks: list[Piece] = [Paragraph("story", told)]
    if question:
        blocks.append(Paragraph("question", question))
    return blocks


def answer_to_write(problem: Problem) -> str:
    """What stands behind "Answer:": as much of the answer sentence as the level prints."""
    support, frame = problem.story.support, problem.story.answer_frame
    if "answer-frame" in support:
        return frame.replace("___", "_" * 8)
    if "sentence-starter" in support:
        return sentence_starter(frame)
    return "Write it in a sentence."


def to_find(layout: Layout) -> str:
    """The sign for the number to find where the child writes into boxes: never another box."""
    return "?" if layout.unknown == "box" else layout.sign
