"""A problem of two steps as two problems of one, so that the laws of one step judge each."""

from collections.abc import Callable
from dataclasses import replace

from storybank.checks._context import Context
from storybank.model import Problem, Step

Judge = Callable[[Problem, Context], list[str]]
Spoil = Callable[[Problem], list[Problem]]


def is_sum(problem: Problem) -> bool:
    """Whether a problem has three or more parts."""
    return "part3" in problem.numbers


def alone(problem: Problem) -> Problem:
    """The second step by itself; a problem of one step as it is."""
    return replace(problem, steps=(), hidden=None) if problem.steps else problem


def first_alone(problem: Problem) -> Problem:
    """The first step of two by itself, with the story of both."""
    first = problem.steps[0]
    return replace(
        problem,
        situation=first.situation,
        strategy=first.strategy,
        numbers=first.numbers,
        unknown=first.unknown,
        answer=first.answer,
        equations=first.equations,
        related_facts=first.related_facts,
        solution=first.solution,
        second_way=None,
        steps=(),
        hidden=None,
    )


def judged(judge: Judge, problem: Problem, context: Context) -> list[str]:
    """What `judge` finds in each step of a problem.

    A sum of three or four parts has no second number to work with: it has a check of its own.
    """
    if is_sum(problem):
        return []
    if not problem.steps:
        return judge(problem, context)
    first = judge(first_alone(problem), context)
    return [f"First step: {one}" for one in first] + judge(alone(problem), context)


def spoiled(spoil: Spoil, problem: Problem) -> list[Problem]:
    """The samples that `spoil` makes of each step, put back into the problem."""
    if is_sum(problem):
        return []
    if not problem.steps:
        return spoil(problem)
    others = problem.steps[1:]
    samples = [
        replace(one, steps=problem.steps, hidden=problem.hidden) for one in spoil(alone(problem))
    ]
    for one in spoil(first_alone(problem)):
        if isinstance(one.answer, int):
            samples.append(replace(problem, steps=(_step(one), *others), story=one.story))
    return [one for one in samples if one != problem]


def _step(one: Problem) -> Step:
    assert isinstance(one.answer, int)
    return Step(
        one.situation,
        one.strategy or "",
        one.numbers,
        one.unknown,
        one.answer,
        one.equations,
        one.related_facts,
        one.solution,
    )
