"""What is printed beside a story to support a child who is learning English.

Which of it is printed is data: the `support` of the vocabulary pack, which the story carries.
"""

from storybank.drawings import Drawing, tape_diagram
from storybank.model import Problem

_ROLES_TO_PLACE = ("start", "part1", "smaller", "bigger", "end", "whole")


def number_to_place(problem: Problem) -> int | None:
    """The given number that a started line shows, or None when the start is asked for."""
    for role in _ROLES_TO_PLACE:
        if role == problem.unknown and role == "start":
            return None
        if role in problem.numbers and role != problem.unknown:
            return problem.numbers[role]
    return None


def bar(problem: Problem) -> Drawing | None:
    """The bar diagram of a story of parts or a comparison, or None for any other story.

    Where both parts are asked for there is none, since it would show one way as the only one.
    """
    if problem.unknown == "parts":
        return None
    told = {role: None if role == problem.unknown else n for role, n in problem.numbers.items()}
    if set(told) == {"part1", "part2", "whole"}:
        return tape_diagram.parts(told["part1"], told["part2"], told["whole"])
    if set(told) == {"smaller", "difference", "bigger"}:
        return tape_diagram.compare(told["smaller"], told["difference"], told["bigger"])
    return None


def sentence_starter(frame: str) -> str:
    """The beginning of an answer frame up to its blank; the whole frame if it begins with it."""
    starter = frame.partition("___")[0].strip()
    return f"{starter} {'_' * 12}" if starter else frame
