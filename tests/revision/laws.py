"""What must hold of every set, whatever was changed in it."""

from collections.abc import Iterator

from storybank import Request
from storybank.finished import judge
from storybank.model import Problem
from storybank.revision import Revised


def numbers(problem: Problem) -> Iterator[tuple]:
    """What no two problems of a set may share: their numbers, without an order."""
    if problem.steps:
        yield tuple(tuple(sorted(one.numbers.values())) for one in problem.steps)
        return
    yield tuple(sorted(problem.numbers.values()))
    for one in problem.number_sets[1:]:
        yield tuple(sorted(one.numbers.values()))


def faults(revised: Revised, request: Request) -> Iterator[str]:
    """What is wrong with a set; nothing with a good one."""
    made = revised.problem_set
    for place, problem in enumerate(made.problems, 1):
        yield from (f"{place}: {fault} {problem.text}" for fault in judge(problem, made.request))
    codes = [one.code for one in made.problems]
    if len(set(codes)) < len(codes):
        yield f"a code stands twice: {codes}"
    texts = [one.text for one in made.problems]
    if len(set(texts)) < len(texts):
        yield f"a story stands twice: {texts}"
    if request.pair:
        return
    if request.fact_families:
        shared = {(one.family, *numbers(one)) for one in made.problems}
        if len({family for family, _ in shared}) < len(shared):
            yield f"a family has several numbers: {shared}"
        used = [key for _, key in shared]
    else:
        used = [key for one in made.problems for key in numbers(one)]
    if len(set(used)) < len(used):
        yield f"numbers stand twice: {sorted(used)}"
