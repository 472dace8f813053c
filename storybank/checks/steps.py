"""Two steps hang together: the first's answer is known to the second and never told."""

import re
from collections.abc import Iterator
from dataclasses import replace

from storybank.checks import _spoiling
from storybank.checks._context import Context
from storybank.model import Problem, Step
from storybank.situations import two_steps

TITLE = "Two steps"
_NUMERAL = re.compile(r"\d+")
_STEPS = 2


def judge(problem: Problem, context: Context) -> list[str]:
    """What is wrong with how the steps of a problem hang together.

    Source: CCSS-M 2.OA.1 asks for one and two steps; which subtypes two steps are made of is told
    in `situations.two_steps`; that the number between them is never told is our own design.
    """
    if not problem.steps:
        if problem.hidden is None:
            return []
        return [f"{problem.hidden} is a number between steps, and the problem has none."]
    if len(problem.steps) != _STEPS:
        return [f"The problem has {len(problem.steps)} steps. It must have {_STEPS}."]
    first, last = problem.steps
    return [*_pair(first, last), *_between(problem, first, last), *_last(problem, last)]


def _pair(first: Step, last: Step) -> Iterator[str]:
    why = two_steps.refusal(first.situation, last.situation)
    if why:
        yield why


def _between(problem: Problem, first: Step, last: Step) -> Iterator[str]:
    hidden = problem.hidden
    if hidden != first.answer:
        yield f"The first step gives {first.answer}, and {hidden} is said to lie between the steps."
    known = [number for role, number in last.numbers.items() if role != last.unknown]
    if hidden not in known:
        yield f"The second step knows {known}; {hidden}, which the first gives, is not among them."
    if str(hidden) in _NUMERAL.findall(problem.story.text):
        yield f'The number between the steps, {hidden}, is told in "{problem.story.text}".'
    if hidden == problem.answer:
        yield f"The number between the steps, {hidden}, is the answer too. Choose others."


def _last(problem: Problem, last: Step) -> Iterator[str]:
    said = (
        problem.situation, problem.strategy, problem.numbers, problem.unknown, problem.answer,
        problem.equations, problem.related_facts, problem.solution,
    )  # fmt: skip
    worked = (
        last.situation, last.strategy, last.numbers, last.unknown, last.answer, last.equations,
        last.related_facts, last.solution,
    )  # fmt: skip
    if said != worked:
        yield "The problem is not answered by its last step: their values differ."


def spoil(problem: Problem) -> list[Problem]:
    """Samples with steps turned round, hard ones, the number between told, other or the answer."""
    if not problem.steps:
        return [replace(problem, hidden=7)]
    first, last = problem.steps
    hidden = problem.hidden or 0
    return [
        replace(problem, hidden=None),
        replace(problem, hidden=hidden + 1),
        replace(problem, steps=(last, first)),
        replace(problem, steps=(first,)),
        replace(problem, steps=(replace(first, answer=last.answer), last), hidden=last.answer),
        *(
            replace(problem, situation=name, steps=(first, replace(last, situation=name)))
            for name in (*two_steps.HARD, "both-parts-unknown")
        ),
        replace(problem, steps=(replace(first, situation="join-start-unknown"), last)),
        replace(problem, solution=first.solution),
        *_spoiling.retold(problem, r"\d+", str(hidden)),
    ]
