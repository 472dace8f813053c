"""Judges a worked solution by carrying it out again."""

from collections.abc import Iterator

from storybank.checks import _arithmetic
from storybank.model import Problem, Solution

_WAYS = ("landing", "sum of jumps", "last line")


def faults(solution: Solution, strategy: str | None, problem: Problem, limit: int) -> Iterator[str]:
    """What is wrong with a solution of `problem` by `strategy`."""
    answer = problem.answer
    if isinstance(answer, tuple):
        yield from _all_pairs(solution, problem)
        return
    a, b = solution.a, solution.b
    if a is None or b is None or len(problem.numbers) != 3:
        yield "it does not say which two numbers it works with."
        return
    result = a + b if solution.operation == "+" else a - b
    needed = sorted([number for role, number in problem.numbers.items() if role != problem.unknown])
    if sorted((a, b)) != needed or result != answer or solution.operation not in ("+", "-"):
        yield f"{a} {solution.operation} {b} is not how {answer} comes from {needed}."
        return
    if bool(solution.jumps) == bool(solution.lines):
        yield "exactly one of jumps and lines must be given."
        return
    if solution.answer_is not in _WAYS:
        yield f'the answer is "{solution.answer_is}"; it must be one of {", ".join(_WAYS)}.'
    if solution.lines:
        yield from _lines(solution, answer, limit)
    else:
        yield from _jumps(solution, strategy, answer, limit)
    yield from _says(solution)


def _says(solution: Solution) -> Iterator[str]:
    steps = len(solution.jumps) or len(solution.lines)
    says = solution.says
    if len(says) != steps or len(set(says)) != steps:
        yield f"{len(set(says))} different sentences go with {steps} steps; each needs its own."
    for text in says:
        if not text or text[-1] not in ".!" or not text[0].isupper():
            yield f'"{text}" is not a whole sentence with capital and full stop.'


def _lines(solution: Solution, answer: int, limit: int) -> Iterator[str]:
    if solution.start is not None or solution.answer_is != "last line":
        yield 'lines have no start, and their answer is the "last line".'
    value = None
    for line in solution.lines:
        value = _arithmetic.line_value(line, limit)
        if value is None:
            yield f'"{line}" is no true equation with an operation within 0 to {limit}.'
    if value is not None and value != answer:
        yield f'the last line "{solution.lines[-1]}" gives {value}, not the answer {answer}.'


def _jumps(solution: Solution, strategy: str | None, answer: int, limit: int) -> Iterator[str]:
    summed = solution.answer_is == "sum of jumps"
    at = solution.start
    if at != (solution.b if summed else solution.a):
        yield f"it starts at {at} and must start at {solution.b if summed else solution.a}."
    forward = summed or solution.operation == "+"
    total = 0
    last = len(solution.jumps) - 1
    for place, jump in enumerate(solution.jumps):
        if jump.start != at or jump.start + jump.by != jump.to:
            yield f"the jump from {jump.start} by {jump.by} to {jump.to} does not join or land."
        if not jump.by:
            yield f"the jump at {jump.start} goes nowhere."
        if not 0 <= jump.to <= limit or not 0 <= jump.start <= limit:
            yield f"the jump to {jump.to} leaves 0 to {limit}."
        fix = strategy == "friendly-then-compensate" and place == last
        if (jump.by > 0) != (forward != fix):
            yield f"the jump by {jump.by} goes in the wrong direction."
        if not jump.why:
            yield f"the jump by {jump.by} has no reason."
        total += jump.by
        at = jump.to
    if strategy == "friendly-then-compensate" and last < 1:
        yield "it has no jump back."
    if strategy == "count-on" and any(abs(jump.by) != 1 for jump in solution.jumps):
        yield "counting goes by hops of 1."
    end = solution.a if summed else answer
    if at != end or (summed and total != answer):
        yield f"it ends at {at} and jumps {total} in all; the end is {end}, the answer {answer}."
    if solution.answer_is == "last line":
        yield 'with jumps the answer is "landing" or "sum of jumps".'


def _all_pairs(solution: Solution, problem: Problem) -> Iterator[str]:
    whole = problem.numbers.get("whole", 0)
    expected = tuple([f"{whole} = {one} + {whole - one}" for one in range(whole + 1)])
    if solution.lines != expected or solution.answer_is != "all lines" or solution.jumps:
        yield f'its lines must be "{expected[0]}" to "{expected[-1]}", and the answer "all lines".'
