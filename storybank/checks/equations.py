"""Both equations follow the situation, hold the numbers of the story and solve to the answer."""

from dataclasses import replace
from functools import lru_cache

from storybank import situations
from storybank.checks import _arithmetic, _by_step
from storybank.checks._context import Context
from storybank.model import Equations, Problem

TITLE = "Equations"


def judge(problem: Problem, context: Context) -> list[str]:
    """What is wrong with the two equations of a problem."""
    return _by_step.judged(_judge, problem, context)


def _judge(problem: Problem, context: Context) -> list[str]:
    found: list[str] = []
    numbers = tuple(problem.numbers.values())
    if isinstance(problem.answer, tuple):
        expected = (f"{numbers[0]} = ? + ?",) * 2 if numbers else ("", "")
    elif len(numbers) != 3:
        return ["The equations need three numbers. Give one for each role."]
    else:
        situation, solution = _patterns(problem.situation)
        values = {"A": numbers[0], "B": numbers[1], "C": numbers[2]}
        expected = (situation.format_map(values), solution.format_map(values))
    equations = problem.equations
    said = (equations.situation, equations.solution)
    for name, one, other in zip(("situation", "solution"), said, expected, strict=True):
        if one != other:
            found.append(f'The {name} equation is "{one}"; for these numbers it is "{other}".')
        elif isinstance(problem.answer, int) and not _solves(one, problem.answer):
            found.append(f'The {name} equation "{one}" is not solved by {problem.answer}.')
    return found


@lru_cache(maxsize=64)
def _patterns(situation_id: str) -> tuple[str, str]:
    situation = situations.get(situation_id)
    patterns = (situation.situation_equation, situation.solution_equation)
    first, second = ["".join(f"{{{c}}}" if c in "ABC" else c for c in one) for one in patterns]
    return first, second


def _solves(equation: str, answer: int) -> bool:
    left, _, right = equation.partition(" = ")
    value = str(answer)
    sides = (_arithmetic.value(left.replace("?", value)),
             _arithmetic.value(right.replace("?", value)))  # fmt: skip
    return equation.count("?") == 1 and sides[0] is not None and sides[0] == sides[1]


def spoil(problem: Problem) -> list[Problem]:
    """Samples with another sign, another number, no unknown, and the wrong way round."""
    return _by_step.spoiled(_spoil, problem)


def _spoil(problem: Problem) -> list[Problem]:
    both = problem.equations
    flip = str.maketrans("+-", "-+")
    typeset = str.maketrans("+-", "\N{FULLWIDTH PLUS SIGN}\N{MINUS SIGN}")
    changed = (
        Equations(both.situation.translate(flip), both.solution),
        Equations(both.situation, both.solution.translate(flip)),
        Equations(both.situation.replace("?", "x"), both.solution),
        Equations(both.situation, both.solution.replace("= ?", "= 5").replace("? +", "5 +")),
        Equations(both.situation.replace(" ", ""), both.solution),
        Equations(both.situation.translate(typeset), both.solution),
    )
    return [replace(problem, equations=one) for one in changed]
