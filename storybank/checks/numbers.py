"""The triple adds up, stays from 1 to the limit, and the answer is the number asked for."""

from dataclasses import replace

from storybank import situations
from storybank.checks import _by_step
from storybank.checks._context import Context
from storybank.model import Problem

TITLE = "Numbers"
LARGEST_WHOLE = 20


def judge(problem: Problem, context: Context) -> list[str]:
    """What is wrong with the numbers of a problem by themselves.

    Sources: "within n" bounds the largest number; answer keys of both-parts-unknown list all
    ordered pairs, zero included (CCSS-M K.OA.3); a whole of at most 20 there is our own design.
    """
    return _by_step.judged(_judge, problem, context)


def _judge(problem: Problem, context: Context) -> list[str]:
    situation = situations.get(problem.situation)
    numbers, answer = problem.numbers, problem.answer
    told = ", ".join([f"{role} {number}" for role, number in numbers.items()])
    if situation.both_parts:
        return _both_parts(problem, context, told)
    found = []
    if tuple(numbers) != situation.roles:
        roles = ", ".join(situation.roles)
        return [f"The numbers are {told}; {situation.id} has the roles {roles}, in this order."]
    a, b, c = numbers.values()
    if a + b != c:
        found.append(f"The numbers do not add up: {told}.")
    if a < 1 or b < 1:
        found.append(f"A number is below 1: {told}. Every number is at least 1.")
    if c > context.limit or max(a, b) > context.limit:
        found.append(f"A number is beyond the limit of {context.limit}: {told}.")
    if problem.unknown != situation.unknown:
        found.append(f'{situation.id} asks for "{situation.unknown}", not "{problem.unknown}".')
    if answer != numbers[situation.unknown]:
        found.append(f"The answer is {answer}, and the {situation.unknown} of {told} is another.")
    return found


def _both_parts(problem: Problem, context: Context, told: str) -> list[str]:
    whole = problem.numbers.get("whole", 0)
    found = []
    if set(problem.numbers) != {"whole"} or problem.unknown != "parts":
        found.append(f'Both parts are unknown: one number "whole" and "parts" asked, not {told}.')
    if not 2 <= whole <= min(LARGEST_WHOLE, context.limit):
        most = min(LARGEST_WHOLE, context.limit)
        found.append(f"The whole is {whole}; it must be from 2 to {most}.")
    if problem.answer != tuple([(one, whole - one) for one in range(whole + 1)]):
        found.append(f"The answer must be all {whole + 1} ordered pairs of {whole}, 0 included.")
    if problem.strategy is not None:
        found.append(f'No strategy lists all pairs; "{problem.strategy}" must be none.')
    return found


def spoil(problem: Problem) -> list[Problem]:
    """Samples that do not add up, leave the limits, or answer something else."""
    return _by_step.spoiled(_spoil, problem)


def _spoil(problem: Problem) -> list[Problem]:
    if problem.unknown == "parts":
        return [
            replace(problem, numbers={"whole": 40}),
            replace(problem, answer=problem.answer[1:] if isinstance(problem.answer, tuple) else 0),
            replace(problem, strategy="doubles"),
        ]
    first, second, third = problem.numbers
    a, b, c = problem.numbers.values()
    assert isinstance(problem.answer, int)
    changed = ((a, b, c + 1), (a + 5000, b, c + 5000), (0, c, c), (-1, c + 1, c))
    return [
        *(replace(problem, numbers={first: x, second: y, third: z}) for x, y, z in changed),
        replace(problem, numbers={first: a, third: c}),
        replace(problem, answer=problem.answer + 1),
        replace(problem, unknown=first if problem.unknown != first else second),
    ]
