"""The strategy fits the numbers and suits the story, unless the teacher named the numbers."""

from dataclasses import replace
from functools import lru_cache

from storybank import situations, strategies
from storybank.checks import _by_step
from storybank.checks._context import Context
from storybank.model import Form, Problem, Solution

TITLE = "The strategy fits"


def judge(problem: Problem, context: Context) -> list[str]:
    """What speaks against the strategy of a problem.

    Adding is met as a + b; taking away as a - b, or as start + ? = landing where the story allows
    it and the answer is the sum of the jumps.
    """
    return _by_step.judged(_judge, problem, context)


def _judge(problem: Problem, context: Context) -> list[str]:
    name = problem.strategy
    if name is None:
        if isinstance(problem.answer, tuple):
            return []
        return ["The problem has no strategy. Only both-parts-unknown has none."]
    forms = _forms(name, problem.situation)
    if forms is None:
        return [f'"{name}" is no strategy. See `storybank list strategies`.']
    solution = problem.solution
    possible = [form for form in forms if form in _met(solution)]
    if not possible:
        return [f'"{name}" does not suit the situation {problem.situation} as it is solved here.']
    if context.asked_pair or solution.a is None or solution.b is None:
        return []
    for form in possible:
        if name in strategies.fitting(form, solution.a, solution.b, context.limit):
            return []
    return [
        f'"{name}" does not fit {solution.a} {solution.operation} {solution.b}: its rule does not '
        "hold, or that of a simpler strategy does. Choose other numbers or another strategy."
    ]


def _met(solution: Solution) -> tuple[Form, ...]:
    if solution.operation == "+":
        return (Form.ADD,)
    if solution.answer_is == "sum of jumps":
        return (Form.SUBTRACT, Form.SOUGHT)
    return (Form.SUBTRACT,)


@lru_cache(maxsize=1024)
def _forms(name: str, situation_id: str) -> tuple[Form, ...] | None:
    if name not in strategies.ids():
        return None
    suit = strategies.get(name).suit(situations.get(situation_id))
    return suit.forms if suit else ()


def spoil(problem: Problem) -> list[Problem]:
    """Samples with every strategy of another rank than the one that fits, none, and a guess."""
    return _by_step.spoiled(_spoil, problem)


def _spoil(problem: Problem) -> list[Problem]:
    if problem.strategy is None:
        return [replace(problem, strategy="doubles")]
    rank = strategies.get(problem.strategy).rank
    others = [one.id for one in strategies.by_rank() if one.rank < rank]
    return [replace(problem, strategy=name) for name in (*others, None, "guess")]
