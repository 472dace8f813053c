"""The second way is another strategy, and its solution is true."""

from dataclasses import replace

from storybank import strategies
from storybank.checks import _worked
from storybank.checks._context import Context
from storybank.checks.solution import spoiled
from storybank.model import Problem, SecondWay

TITLE = "The second way"


def judge(problem: Problem, context: Context) -> list[str]:
    """What is wrong with the second way of a problem."""
    second = problem.second_way
    if second is None:
        return []
    if isinstance(problem.answer, tuple):
        return ["All pairs are asked for, so there is no second way."]
    found = []
    if second.strategy == problem.strategy:
        found.append(f'The second way is by "{second.strategy}" too; it must be another strategy.')
    if second.strategy not in strategies.ids():
        found.append(f'The second way is by "{second.strategy}", which is no strategy.')
    faults = _worked.faults(second.solution, second.strategy, problem, context.limit)
    return found + [f'In the second way of "{problem.story.text}": {one}' for one in faults]


def spoil(problem: Problem) -> list[Problem]:
    """Samples with the same strategy, an unknown one, and untrue solutions."""
    second = problem.second_way
    if second is None:
        return []
    ways = [
        SecondWay("guess", second.solution),
        *(SecondWay(second.strategy, one) for one in spoiled(second.solution)),
    ]
    if problem.strategy is not None:
        ways.append(SecondWay(problem.strategy, problem.solution))
    return [replace(problem, second_way=way) for way in ways]
