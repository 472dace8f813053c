"""Several sets of numbers: each true and within its limit, all for one and the same text."""

from collections.abc import Iterator
from dataclasses import replace

from storybank import situations
from storybank.checks import _worked
from storybank.checks._context import Context
from storybank.model import NumberSet, Problem

TITLE = "Number sets"
_FORM_CHANGES = 1


def judge(problem: Problem, context: Context) -> list[str]:
    """What is wrong with the number sets of a problem; nothing where it has none."""
    return list(_faults(problem)) if problem.number_sets else []


def _faults(problem: Problem) -> Iterator[str]:
    first, *_ = problem.number_sets
    own = (dict(problem.numbers), problem.story.given, problem.answer, problem.solution)
    if (dict(first.numbers), first.given, first.answer, first.solution) != own:
        yield "The first number set is not that of the problem, whose numbers stand in the text."
    limits = [one.limit for one in problem.number_sets]
    if len(limits) < 2 or limits != sorted(set(limits), reverse=True):
        yield f"The sets go to {limits}; at least two are needed, the largest limit first."
    triples = [tuple(sorted(one.numbers.values())) for one in problem.number_sets]
    if len(set(triples)) < len(triples):
        yield f"Two sets have the same three numbers: {triples}."
    for one, below in zip(problem.number_sets, (*limits[1:], 0), strict=True):
        yield from (f"In the set to {one.limit}: {fault}" for fault in _of_one(one, problem, below))


def _of_one(one: NumberSet, problem: Problem, below: int) -> Iterator[str]:
    situation = situations.get(problem.situation)
    told = ", ".join(f"{role} {number}" for role, number in one.numbers.items())
    if tuple(one.numbers) != situation.roles:
        yield f"the numbers are {told}; the roles are {', '.join(situation.roles)}."
        return
    a, b, c = one.numbers.values()
    if a + b != c:
        yield f"the numbers do not add up: {told}."
    if not below < c <= one.limit:
        yield f"the largest number, {c}, is not from {below + 1} to {one.limit}."
    if min(a, b) <= _FORM_CHANGES:
        yield f"a number is 1 or less ({told}), and the text is told of several."
    if one.answer != one.numbers[problem.unknown]:
        yield f"the answer is {one.answer}, and the {problem.unknown} of {told} is another."
    needed = sorted(number for role, number in one.numbers.items() if role != problem.unknown)
    if sorted(one.given) != needed:
        yield f"the numbers given are {one.given}; the story needs {needed}."
    alike = replace(problem, numbers=one.numbers, answer=one.answer)
    yield from _worked.faults(one.solution, one.strategy, alike, one.limit)


def spoil(problem: Problem) -> list[Problem]:
    """Samples with one set only, a set twice, and sets with a number changed."""
    if not isinstance(problem.answer, int) or problem.strategy is None:
        return []
    own = NumberSet(
        limit=1000,
        numbers=problem.numbers,
        given=problem.story.given,
        answer=problem.answer,
        answer_sentence=problem.story.answer_sentence,
        strategy=problem.strategy,
        equations=problem.equations,
        related_facts=problem.related_facts,
        solution=problem.solution,
        watch_for=problem.watch_for,
    )
    other = problem.number_sets[-1] if problem.number_sets else replace(own, limit=999)
    changed = {role: number + 1 for role, number in other.numbers.items()}
    return [
        replace(problem, number_sets=sets)
        for sets in (
            (own,),
            (own, replace(own, limit=999)),
            (own, replace(other, numbers=changed)),
            (own, replace(other, answer=other.answer + 1)),
            (own, replace(other, given=other.given[:1])),
            (replace(own, given=()), other),
        )
    ]
