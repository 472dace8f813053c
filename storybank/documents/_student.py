"""The student pages as blocks, with room to work.

Two problems a page; one where a word bank is printed, since two would not fit.
"""

from storybank.documents._notation import BLANK
from storybank.documents._page import Group, Heading, Page, Paragraph, Picture, Table, Title
from storybank.documents._support import (
    Support,
    number_to_place,
    sentence_starter,
    support_for,
)
from storybank.drawings import Drawing, open_number_line
from storybank.model import Problem, ProblemSet

_Block = Heading | Paragraph | Picture | Table


def student_page(problem_set: ProblemSet) -> Page:
    """The pages for children; no level, strategy or group stands on them."""
    groups: list[Group] = []
    filled = 0.0
    for number, problem in enumerate(problem_set.problems, start=1):
        share = 1.0 if _has_word_bank(problem) else 0.5
        new_page = filled + share > 1
        filled = share if new_page else filled + share
        groups.append(_problem(number, problem, new_page=new_page))
    return Page(
        title="Story Problems",
        top="Name ________________________    Date ______________",
        blocks=(Title("Story Problems"), *groups),
    )


def _has_word_bank(problem: Problem) -> bool:
    return support_for(problem).word_bank and bool(problem.story.word_bank)


def _problem(number: int, problem: Problem, *, new_page: bool) -> Group:
    support = support_for(problem)
    blocks: list[_Block] = [Heading(1, problem.code, number=number, new_page=new_page)]
    blocks.extend(_story(problem))
    word_bank = _has_word_bank(problem)
    if word_bank:
        blocks.append(_word_bank(problem, support))
    if problem.unknown == "parts":
        blocks.append(Paragraph("wide", "Show all the ways you find."))
        return Group(tuple(blocks))
    blocks.append(Paragraph("tall" if word_bank else "work", "Show your work."))
    blocks.append(Picture(_line(problem, support)))
    if support.talk:
        blocks.extend(Paragraph("help", frame) for frame in problem.story.talk_frames)
    blocks.append(
        Paragraph(
            "fill", f"{BLANK}{BLANK}", lead="Equation, with \N{WHITE SQUARE} for what I find:"
        )
    )
    blocks.append(Paragraph("fill", _answer(problem, support), lead="Answer:"))
    return Group(tuple(blocks))


def _story(problem: Problem) -> list[_Block]:
    story, _, question = problem.story.text.partition("\n")
    blocks: list[_Block] = [Paragraph("story", story)]
    if question:
        blocks.append(Paragraph("question", question))
    return blocks


def _word_bank(problem: Problem, support: Support) -> Table:
    header = ["Word", "What it means"]
    rows = []
    for entry in problem.story.word_bank:
        word = f"{entry.picture} {entry.word}" if entry.picture else entry.word
        row = [word, entry.meaning]
        if support.my_word:
            row.append("\N{NO-BREAK SPACE}")
        rows.append(tuple(row))
    if support.my_word:
        header.append("My word")
    widths = (25, 45, 30) if support.my_word else (30, 70)
    return Table(tuple(header), tuple(rows), widths)


def _line(problem: Problem, support: Support) -> Drawing:
    if not support.started_line:
        return open_number_line.blank()
    placed = number_to_place(problem)
    return open_number_line.blank(placed, empty_circle=placed is None)


def _answer(problem: Problem, support: Support) -> str:
    frame = problem.story.answer_frame
    if support.whole_frame:
        return frame.replace("___", "_" * 8)
    if support.starter:
        return sentence_starter(frame)
    return f"{BLANK}{BLANK}{BLANK}"
