"""Four equations to choose from for a story: the one that follows it, and three that do not."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from operator import itemgetter

from storybank import luck
from storybank.model import Problem

LETTERS = "abcd"
_IN_ORDER = (
    "join-result-unknown", "join-start-unknown",
    "separate-result-unknown", "separate-change-unknown", "separate-start-unknown",
)  # fmt: skip
"""Stories of something that happens, in which one equation only tells it in its order.

Of parts and of comparisons, and of what somebody still needs (a change unknown), an equation with
the same number to find fits as well (8 + ? = 13 and 13 - 8 = ?), so none is printed as a wrong one.
"""


@dataclass(frozen=True, slots=True)
class Choices:
    """The equations in the order in which they are printed, and the place of the right one.

    `also_solve` are the places of those that find the same number without telling the story.
    """

    equations: tuple[str, ...]
    right: int
    also_solve: tuple[int, ...]


def told_in_order(problem: Problem) -> bool:
    """Whether something happens in the story, so that one equation tells it in its order."""
    return problem.situation in _IN_ORDER


def choices(problems: Sequence[Problem]) -> tuple[Choices, ...]:
    """The choices of each problem; of any four in a row each has the right one elsewhere.

    Order and wrong equations hang on the problems' codes alone.
    """
    found = []
    for at, problem in enumerate(problems):
        row = problems[at - at % len(LETTERS)].code
        places = luck.ordered(range(len(LETTERS)), f"{row}/places", str)
        found.append(_choices(problem, places[at % len(LETTERS)]))
    return tuple(found)


def _choices(problem: Problem, place: int) -> Choices:
    fitting = problem.equations.situation
    wrong = luck.ordered(_wrong(problem), f"{problem.code}/wrong", itemgetter(0))
    equations = [equation for equation, _ in wrong]
    same = {equation for equation, solves in wrong if solves}
    equations.insert(place, fitting)
    also = tuple(at for at, one in enumerate(equations) if one in same)
    return Choices(tuple(equations), place, also)


def _wrong(problem: Problem) -> list[tuple[str, bool]]:
    """Three equations that do not follow the story, each with whether it finds its number.

    One has the other operation. Where the story tells what happens, one is a related fact that
    does not follow it and one has the unknown elsewhere; else all have another number to find.
    """
    fitting, key = problem.equations.situation, problem.code
    less, more = sorted(problem.story.given)
    adding = (f"{less} + {more} = ?", f"{more} + {less} = ?",
              f"? - {less} = {more}", f"? - {more} = {less}")  # fmt: skip
    taking = (f"{less} + ? = {more}", f"? + {less} = {more}",
              f"{more} - {less} = ?", f"{more} - ? = {less}")  # fmt: skip
    same, other = (adding, taking) if fitting in adding else (taking, adding)
    opposite = _best(
        [one for one in other if ("+" in one) != ("+" in fitting)], f"{key}/opposite", fitting
    )
    if told_in_order(problem):
        turned = adding[:2] if fitting in adding[:2] else ()
        facts = [one for one in same if one != fitting and one not in turned]
        solved = problem.equations.solution
        fact = solved if solved in facts else luck.highest(facts, f"{key}/fact", str)
        rest = [one for one in (*other, *facts) if one not in (opposite, fact)]
    else:
        fact = ""
        rest = list(other)
    chosen = [one for one in (opposite, fact) if one]
    for one in luck.ordered(dict.fromkeys(rest), f"{key}/rest", str):
        if len(chosen) == len(LETTERS) - 1:
            break
        if one not in chosen and not _twin(one, chosen) and _place(one) != _place(fitting):
            chosen.append(one)
    for one in luck.ordered(dict.fromkeys(rest), f"{key}/rest", str):
        if len(chosen) < len(LETTERS) - 1 and one not in chosen and not _twin(one, chosen):
            chosen.append(one)
    return [(one, one in same) for one in chosen]


def _best(found: Sequence[str], key: str, fitting: str) -> str:
    """One with the unknown in the same place where there is one, and the same first number."""
    placed = [one for one in found if _place(one) == _place(fitting)] or list(found)
    alike = [one for one in placed if one.split()[0] == fitting.split()[0]] or placed
    return luck.highest(alike, key, str)


def _place(equation: str) -> int:
    return equation.split().index("?")


def _twin(equation: str, others: Iterable[str]) -> bool:
    """Whether one of the others is the same sum with its numbers turned round."""
    return any(
        _place(one) == _place(equation) == 4 and sorted(one.split()) == sorted(equation.split())
        for one in others
    )
