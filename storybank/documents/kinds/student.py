"""The student pages as blocks, with room to work.

Two problems a page; one in large print, beside a word bank or with a long story, since two would
not fit. In large print the talk frames stand on the page of words only.
"""

import re
from math import ceil

from storybank.documents import _changes
from storybank.documents._by_step import by_step
from storybank.documents._layout import Layout
from storybank.documents._page import Group, Heading, Page, Paragraph, Picture, Piece, Title
from storybank.documents._support import (
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
_CHOICE = -5.0
"""Points of the ways to choose from, less those of the line on what to do."""
_ANSWER_AND_WHY = "____________    This way is easy because"
_TO_CHOOSE, _TO_ASK, _FURTHER = 4.0, 76.0, 130.0
"""Points of what a story with several sets of numbers, with one left out, or with a second step has
under it."""
_LONG_BANK = 4
"""So many words take the room to work beside them."""
_BLANK = re.compile(r"(?<!_)___(?!_)")
_WAYS = 5
FIND_ALL = "Find all the ways. You may use 0, too."


def page(problem_set: ProblemSet, layout: Layout) -> Page:
    """The pages for children; no level, strategy or group stands on them, but a shape."""
    return Page(
        title="Story Problems",
        top=for_name_and_date(problem_set, layout),
        blocks=(Title("Story Problems"), *problems(problem_set, layout)),
    )


def problems(
    problem_set: ProblemSet,
    layout: Layout,
    *,
    first: int = 1,
    level: int = 1,
    choice: str | None = None,
) -> list[Group]:
    """The problems of a set below a title, a page for as many as there is room for.

    They are numbered from `first` under headings of that `level`. `choice` are the ways to
    choose from: one is to be circled and a reason given in place of the answer sentence, and the
    line on what to do is left out.
    """
    groups: list[Group] = []
    filled = _TITLE_HEIGHT
    for number, problem in enumerate(problem_set.problems, start=first):
        height = _height(problem, layout) + (_CHOICE if choice else 0.0)
        new_page = number > first and filled + height > layout.text_height
        filled = height if new_page else filled + height
        heading = Heading(level, problem.code, number=number, new_page=new_page)
        languages = languages_of(problem_set, problem)
        blocks = _problem(problem, languages, layout, choice)
        groups.append(Group((heading, *blocks)))
    return groups


def _height(problem: Problem, layout: Layout) -> float:
    """How much of a page a problem takes, in points: a whole one, or by the length of its story."""
    if layout.large_print or has_word_bank(problem):
        return layout.text_height
    told = _changes.told(problem, problem.text)
    besides = _TO_ASK if problem.missing else _TO_CHOOSE if problem.number_sets else 0.0
    besides += _FURTHER * len(problem.steps[1:])
    return _HEIGHT + besides + sum(_LINE * ceil(len(one) / _LETTERS) for one in told.split("\n"))


def _problem(
    problem: Problem, languages: tuple[str, ...], layout: Layout, choice: str | None
) -> list[Piece]:
    support = problem.story.support
    blocks: list[Piece] = story(problem)
    word_bank = has_word_bank(problem)
    if word_bank:
        blocks.append(word_table(problem, languages, narrow=layout.large_print))
    if problem.unknown == "parts":
        return [*blocks, *_all_ways(problem, layout)]
    blocks.extend(_changes.to_ask(problem, layout.measures))
    first = by_step(problem)[0]
    # Two number lines and equations beside a word bank fill the page.
    has_bar = "bar" in support and not (problem.steps and word_bank)
    diagram = _changes.bar_for_children(first, layout.measures) if has_bar else None
    if diagram:
        blocks.append(Picture(diagram))
    asks = problem.missing is not None and not (word_bank or layout.large_print)
    roomy = word_bank != layout.large_print
    if word_bank and len(problem.story.word_bank) >= _LONG_BANK:
        roomy = False
    if problem.steps:
        roomy = not word_bank and not layout.large_print
    sign = to_find(layout)
    told, lead = show_your_work(layout), "Equation:"
    if layout.large_print:
        told, lead = "Show your work.", f"Equation, with {sign}:"
    if choice is None or word_bank:
        blocks.append(Paragraph("tall" if (roomy or asks) and not diagram else "work", told))
    changed = problem.missing is not None or bool(problem.extra)
    if not (changed and layout.large_print and diagram):
        blocks += lines_to_draw_on(problem, layout)
    if "talk-frames" in support and not layout.large_print and not choice:
        blocks.extend(Paragraph("help", frame_to_fill(one)) for one in problem.story.talk_frames)
    blocks += equations_to_write(problem, layout, lead)
    if choice:
        blocks += [
            Paragraph("note", choice, lead="Circle:"),
            Paragraph("fill", _ANSWER_AND_WHY, lead="Answer:"),
        ]
    else:
        blocks.append(Paragraph("fill", answer_to_write(problem), lead="Answer:"))
    # Where the whole sentence is printed there is only its number to write.
    lines = 2 if choice and word_bank else int(bool(choice) or "answer-frame" not in support)
    if lines:
        blocks.append(Picture(handwriting.writing_lines(lines, measures=layout.measures)))
    return blocks


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
    told, _, question = _changes.told(problem, problem.story.text).partition("\n")
    blocks: list[Piece] = [Paragraph("story", told)]
    if question:
        blocks.append(Paragraph("question", question))
    return [*blocks, *_changes.for_children(problem)]


def answer_to_write(problem: Problem) -> str:
    """What stands behind "Answer:": as much of the answer sentence as the level prints."""
    support, frame = problem.story.support, problem.story.answer_frame
    if "answer-frame" in support:
        return frame.replace("___", "_" * 8)
    if "sentence-starter" in support:
        return sentence_starter(frame)
    return "Write it in a sentence."


def show_your_work(layout: Layout) -> str:
    """What to do on a page with room to work."""
    return f"Show your work. In the equation, put {to_find(layout)} for what you do not know."


def frame_to_fill(frame: str) -> str:
    """A talk frame with blanks that a child can write in, a long one for a reason."""
    wide = frame.replace("because ___", f"because {'_' * 24}")
    return _BLANK.sub("_" * 8, wide)


def to_find(layout: Layout) -> str:
    """The sign for the number to find where the child writes into boxes: never another box."""
    return "?" if layout.unknown == "box" else layout.sign
