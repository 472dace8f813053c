"""The student pages as blocks, with room to work.

Two problems a page; one where a word bank is printed, since two would not fit.
"""

from storybank.documents._notation import BLANK
from storybank.documents._page import Group, Heading, Page, Paragraph, Picture, Table, Title
from storybank.documents._support import bar, number_to_place, sentence_starter
from storybank.documents._words import languages_of, word_table
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
        languages = languages_of(problem_set, problem)
        groups.append(_problem(number, problem, languages, new_page=new_page))
    return Page(
        title="Story Problems",
        top="Name ________________________    Date ______________",
        blocks=(Title("Story Problems"), *groups),
    )


def _has_word_bank(problem: Problem) -> bool:
    return "word-bank" in problem.story.support and bool(problem.story.word_bank)


def _problem(number: int, problem: Problem, languages: tuple[str, ...], *, new_page: bool) -> Group:
    support = problem.story.support
    blocks: list[_Block] = [Heading(1, problem.code, number=number, new_page=new_page)]
    blocks.extend(_story(problem))
    word_bank = _has_word_bank(problem)
    if word_bank:
        blocks.append(word_table(problem, languages))
    if problem.unknown == "parts":
        blocks.append(Paragraph("wide", "Find all the ways. You may use 0, too."))
        return Group(tuple(blocks))
    diagram = bar(problem) if "bar" in support else None
    if diagram:
        blocks.append(Picture(diagram))
    tall = word_bank and not diagram
    blocks.append(Paragraph("tall" if tall else "work", "Show your work."))
    blocks.append(Picture(_line(problem, support)))
    if "talk-frames" in support:
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


def _line(problem: Problem, support: tuple[str, ...]) -> Drawing:
    if "started-line" not in support:
        return open_number_line.blank()
    placed = number_to_place(problem)
    return open_number_line.blank(placed, empty_circle=placed is None)


def _answer(problem: Problem, support: tuple[str, ...]) -> str:
    frame = problem.story.answer_frame
    if "answer-frame" in support:
        return frame.replace("___", "_" * 8)
    if "sentence-starter" in support:
        return sentence_starter(frame)
    return f"{BLANK}{BLANK}{BLANK}"
