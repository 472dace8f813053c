"""The worked solution is true: jumps start, join and add up, lines are true equations."""

from collections.abc import Iterator
from dataclasses import replace

from storybank.checks import _by_step, _worked
from storybank.checks._context import Context
from storybank.model import Jump, Problem, Solution

TITLE = "The solution"


def judge(problem: Problem, context: Context) -> list[str]:
    """What is wrong with the worked solution of a problem."""
    return _by_step.judged(_judge, problem, context)


def _judge(problem: Problem, context: Context) -> list[str]:
    found = _worked.faults(problem.solution, problem.strategy, problem, context.limit)
    return [f'In the solution of "{problem.story.text}": {fault}' for fault in found]


def spoil(problem: Problem) -> list[Problem]:
    """Samples with each part of the solution changed so that it is no longer true."""
    return _by_step.spoiled(_spoil, problem)


def _spoil(problem: Problem) -> list[Problem]:
    return [replace(problem, solution=one) for one in spoiled(problem.solution)]


def spoiled(good: Solution) -> Iterator[Solution]:
    """A good solution made wrong in every way that the check knows."""
    if good.answer_is == "all lines":
        yield replace(good, lines=good.lines[1:])
        yield replace(good, answer_is="last line")
        return
    yield replace(good, operation="+" if good.operation == "-" else "-")
    yield replace(good, a=None)
    yield replace(good, says=good.says[:-1])
    yield replace(good, says=(good.says[0].rstrip("."), *good.says[1:]))
    yield replace(good, jumps=(), lines=())
    if good.lines:
        yield replace(good, start=good.a)
        yield replace(good, lines=(*good.lines[:-1], good.lines[-1] + "0"))
        yield replace(good, lines=(*good.lines[:-1], "7 = 7"))
        yield replace(good, lines=(*good.lines[:-1], "1 + 1 = 2"))
        yield replace(good, lines=(*good.lines[:-1], "9000 + 1 = 9001"))
        return
    first, *rest = good.jumps
    yield replace(good, start=(good.start or 0) + 1)
    yield replace(good, answer_is="sum of jumps" if good.answer_is == "landing" else "landing")
    yield replace(good, answer_is="last line")
    yield replace(good, jumps=(replace(first, by=first.by + 1), *rest))
    yield replace(good, jumps=(replace(first, by=first.by + 1, to=first.to + 1), *rest))
    yield replace(good, jumps=(replace(first, why=""), *rest))
    yield replace(good, jumps=(*good.jumps, Jump(good.jumps[-1].to, good.jumps[-1].to, 0, "none")))
    around = (Jump(first.start, first.start - first.by, -first.by, "the wrong way"),
              Jump(first.start - first.by, first.to, 2 * first.by, "and far back"))  # fmt: skip
    yield replace(good, jumps=(*around, *rest), says=(*good.says, "One more."))
