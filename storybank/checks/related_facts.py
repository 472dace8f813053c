"""The related facts are the four true equations of the triple, or the two of equal parts."""

from dataclasses import replace

from storybank.checks import _arithmetic, _by_step
from storybank.checks._context import Context
from storybank.model import Problem

TITLE = "Related facts"


def judge(problem: Problem, context: Context) -> list[str]:
    """What is wrong with the related facts of a problem.

    Source: fact families of four, and of two for doubles, are common classroom practice.
    """
    return _by_step.judged(_judge, problem, context)


def _judge(problem: Problem, context: Context) -> list[str]:
    facts = problem.related_facts
    if isinstance(problem.answer, tuple):
        return [f"All pairs are asked for, so no facts are listed, not {facts}."] if facts else []
    if len(problem.numbers) != 3:
        return ["The related facts need three numbers. Give one for each role."]
    a, b, c = problem.numbers.values()
    expected = {f"{a} + {b} = {c}", f"{b} + {a} = {c}", f"{c} - {a} = {b}", f"{c} - {b} = {a}"}
    if len(facts) == len(expected) and set(facts) == expected:
        return []
    untrue = [fact for fact in facts if _arithmetic.line_value(fact, max(a, b, c)) is None]
    return [
        f"The related facts are {', '.join(facts) or 'none'}"
        f"{', of which not true: ' + ', '.join(untrue) if untrue else ''}. They must be "
        f"{', '.join(sorted(expected))}."
    ]


def spoil(problem: Problem) -> list[Problem]:
    """Samples with an untrue fact, the same fact twice, and one too few or too many."""
    return _by_step.spoiled(_spoil, problem)


def _spoil(problem: Problem) -> list[Problem]:
    facts = problem.related_facts
    if not facts:
        return [replace(problem, related_facts=("6 + 6 = 12",))]
    changed = (
        (facts[0].replace("+", "-"), *facts[1:]),
        (*facts[:-1], facts[0]),
        facts[1:],
        (*facts, "1 + 1 = 2"),
    )
    return [replace(problem, related_facts=one) for one in changed]
