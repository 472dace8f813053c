"""Three or four addends: they add up, one pair is friendly, and the lines add it first."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations

from storybank.checks import _arithmetic
from storybank.checks._by_step import is_sum
from storybank.checks._context import Context
from storybank.model import Equations, Problem

TITLE = "Three or four addends"
STRATEGY = "friendly-pair"
OF_SUMS = "whole-unknown"
_MOST = 4


def judge(problem: Problem, context: Context) -> list[str]:
    """What is wrong with the numbers and the solution of a sum of three or four parts.

    Sources: CCSS-M 1.OA.2 and 2.NBT.6; one pair that makes a multiple of ten is our own design.
    """
    if not is_sum(problem):
        if problem.strategy == STRATEGY:
            return [f"{STRATEGY} is for three or four addends, and the problem has fewer."]
        return []
    *parts, whole = problem.numbers.values()
    return [
        *_numbers(problem, parts, whole, context.limit),
        *_equations(problem, parts),
        *_solution(problem, parts, whole),
    ]


def _numbers(problem: Problem, parts: list[int], whole: int, limit: int) -> Iterator[str]:
    roles = (*(f"part{at}" for at in range(1, len(parts) + 1)), "whole")
    if tuple(problem.numbers) != roles or len(parts) > _MOST or problem.situation != OF_SUMS:
        yield f"The numbers are {problem.numbers}; parts of a whole are {', '.join(roles)}."
    if min(parts) < 1 or sum(parts) != whole or whole > limit:
        yield f"{parts} make {sum(parts)}, said to be {whole}, within {limit}."
    if problem.answer != whole or problem.unknown != "whole":
        yield f"The answer is {problem.answer}; the whole is {whole}."
    if len(_friendly(parts)) != 1:
        yield f"{parts} must have one pair that makes a multiple of ten."
    if problem.related_facts or problem.second_way or problem.steps:
        yield "A sum of several addends has no related facts, no second way and no steps."
    if problem.strategy != STRATEGY:
        yield f'The strategy is "{problem.strategy}"; such a sum is taught by {STRATEGY}.'


def _friendly(parts: list[int]) -> list[tuple[int, int]]:
    return [pair for pair in combinations(parts, 2) if sum(pair) % 10 == 0]


def _equations(problem: Problem, parts: list[int]) -> Iterator[str]:
    told = f"{' + '.join(map(str, parts))} = ?"
    if problem.equations != Equations(told, told):
        yield f'The equations are {problem.equations}; both must be "{told}".'


def _solution(problem: Problem, parts: list[int], whole: int) -> Iterator[str]:
    solution = problem.solution
    if solution.jumps or solution.start is not None or solution.a or solution.b:
        yield "A sum of several addends is worked in lines, without jumps and without a and b."
    if solution.operation != "+" or solution.answer_is != "last line":
        yield 'Its operation is "+", and its answer the "last line".'
    if len(solution.lines) != len(parts) - 1:
        yield f"{len(solution.lines)} lines do not add {len(parts)} parts, one at a time."
        return
    left, at = list(parts), 0
    for place, line in enumerate(solution.lines):
        value = _arithmetic.line_value(line, whole)
        first, _, rest = line.partition(" + ")
        second = rest.partition(" = ")[0]
        numbers = [int(one) for one in (first, second) if one.isdigit()]
        if value is None or len(numbers) != 2:
            yield f'"{line}" is no true sum of two numbers.'
            return
        taken = numbers if place == 0 else numbers[1:]
        if Counter(taken) - Counter(left) or (place and numbers[0] != at):
            yield f'"{line}" does not go on with one of {left} from {at}.'
            return
        for one in taken:
            left.remove(one)
        at = value
        if place == 0 and value % 10:
            yield f'"{line}" must add the friendly pair first.'
    says = solution.says
    if at != whole or len(says) != len(solution.lines) or not all(says):
        yield f"The lines come to {at} with {len(says)} sentences; the whole is {whole}."


def spoil(problem: Problem) -> list[Problem]:
    """Samples with wrong sums, another order of adding, facts, another strategy."""
    if not is_sum(problem):
        return [replace(problem, strategy=STRATEGY)] if problem.strategy else []
    solution, numbers = problem.solution, dict(problem.numbers)
    first, *others = solution.lines
    return [
        replace(problem, numbers={**numbers, "part1": numbers["part1"] + 1}),
        replace(problem, numbers={**numbers, "whole": numbers["whole"] + 5000}),
        replace(problem, answer=numbers["whole"] - 1),
        replace(problem, strategy="make-a-ten"),
        replace(problem, related_facts=("1 + 1 = 2",)),
        replace(problem, equations=Equations("1 + 2 = ?", "1 + 2 = ?")),
        replace(problem, solution=replace(solution, lines=(first,))),
        replace(problem, solution=replace(solution, lines=(*others, first))),
        replace(problem, solution=replace(solution, lines=(first + "0", *others))),
        replace(problem, solution=replace(solution, says=solution.says[1:])),
        replace(problem, solution=replace(solution, operation="-")),
    ]
