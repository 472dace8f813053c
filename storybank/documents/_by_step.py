"""A problem of two steps as two problems of one, each to be drawn and worked by itself."""

from dataclasses import replace

from storybank.model import Problem


def by_step(problem: Problem) -> tuple[Problem, ...]:
    """The steps of a problem in order, each with the story of both; one alone as it is."""
    return tuple(
        replace(
            problem,
            situation=step.situation,
            strategy=step.strategy,
            numbers=step.numbers,
            unknown=step.unknown,
            answer=step.answer,
            equations=step.equations,
            related_facts=step.related_facts,
            solution=step.solution,
            steps=(),
            hidden=None,
        )
        for step in problem.steps
    ) or (problem,)


def step_name(at: int) -> str:
    """What one of two steps is called; `at` counts from 1."""
    return ("First step", "Second step")[at - 1]
