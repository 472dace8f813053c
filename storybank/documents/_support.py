"""What is printed beside a story to support a child who is learning English."""

from dataclasses import dataclass

from storybank.model import Problem

_ROLES_TO_PLACE = ("start", "part1", "smaller", "bigger", "end", "whole")


@dataclass(frozen=True, slots=True)
class Support:
    """What a sheet prints: word bank, started line, answer frame or its beginning, talk frames."""

    word_bank: bool
    my_word: bool
    started_line: bool
    whole_frame: bool
    starter: bool
    talk: bool


def support_for(problem: Problem) -> Support:
    """The support of a problem's vocabulary level, the number at the end of the pack's id.

    A pack without a number prints what its problems bring. Source of the table: WIDA 2012
    and published scaffolds for directions, our own design for the steps.
    """
    digits = problem.vocabulary.rsplit("-", 1)[-1]
    level = int(digits) if digits.isdigit() else 3
    return Support(
        word_bank=level <= 3,
        my_word=level == 1,
        started_line=level <= 2,
        whole_frame=level <= 2,
        starter=level == 3,
        talk=level <= 3,
    )


def number_to_place(problem: Problem) -> int | None:
    """The given number that a started line shows, or None when the start is asked for."""
    for role in _ROLES_TO_PLACE:
        if role == problem.unknown and role == "start":
            return None
        if role in problem.numbers and role != problem.unknown:
            return problem.numbers[role]
    return None


def sentence_starter(frame: str) -> str:
    """The beginning of an answer frame up to its blank; the whole frame if it begins with it."""
    starter = frame.partition("___")[0].strip()
    return f"{starter} {'_' * 12}" if starter else frame
