"""The finished problem from its JSON: the exact inverse of `Problem.to_json`, and strict."""

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

from storybank import situations
from storybank.finished import _arithmetic, _story
from storybank.finished._node import ID, Node
from storybank.model import Equations, Problem, SecondWay, Situation, Solution, Step
from storybank.situations import two_steps

_CODE = re.compile(r"[0-9A-Z]{4,8}")
_STANDARD_LETTERS = 40
_MOST_FAMILIES = 10_000
_ALL_PAIRS = "parts"
_PART = re.compile(r"part[1-4]")


@dataclass(frozen=True, slots=True)
class _Worked:
    """What is asked and how it is worked out; of two steps that of the second."""

    situation: Situation
    strategy: str | None
    numbers: Mapping[str, int]
    unknown: str
    answer: int | tuple[tuple[int, int], ...]
    equations: Equations
    related_facts: tuple[str, ...]
    solution: Solution
    second_way: SecondWay | None
    steps: tuple[Step, ...] = ()
    hidden: int | None = None


def problem_from_json(node: Any, where: str) -> Problem:
    """The finished problem whose JSON is `node`: its `to_json` gives the same keys and values.

    `where` begins every message, such as "set.json, problem 3"; it may be empty. No check judges
    the problem, but every value is what its key says, and numbers, answers and jumps fit together.
    Raises PackError, naming where and the keys, for anything else.
    """
    found = Node(node, where)
    worked = _two_steps(found) if found.has("steps") else _one_step(found)
    problem = Problem(
        code=found.word("code", _CODE, "a code of 4 to 8 capital letters and digits"),
        theme=found.word("theme", ID, "the id of a theme"),
        scene=found.text("scene"),
        situation=worked.situation.id,
        strategy=worked.strategy,
        vocabulary=_story.vocabulary_of(found),
        standards=_standards(found),
        numbers=worked.numbers,
        unknown=worked.unknown,
        answer=worked.answer,
        story=_story.story(found, _story.people(found), _story.unit(found)),
        equations=worked.equations,
        related_facts=worked.related_facts,
        solution=worked.solution,
        watch_for=_arithmetic.watch_for(found),
        second_way=worked.second_way,
        reading=_story.reading(found),
        family=found.number("family", 1, _MOST_FAMILIES) if found.has("family") else None,
        steps=worked.steps,
        hidden=worked.hidden,
    )
    problem = _changed(problem, found, worked)
    if not found.has("levels"):
        return problem
    levels = found.nodes("levels")
    return replace(problem, levels=tuple([_level(problem, one, worked) for one in levels]))


def _changed(problem: Problem, node: Node, worked: _Worked) -> Problem:
    """The problem, or one of its levels, with what was changed about its numbers."""
    return replace(
        problem,
        number_sets=_story.number_sets(node, worked.situation),
        extra=_story.extra(node),
        missing=_story.missing(node, worked.numbers),
    )


def _level(problem: Problem, node: Node, worked: _Worked) -> Problem:
    """The problem told at another level of English: what differs there is in `node`."""
    told = replace(
        problem,
        vocabulary=_story.vocabulary_of(node),
        story=_story.story(node, problem.story.people, problem.story.unit),
        watch_for=_arithmetic.watch_for(node),
        reading=_story.reading(node),
        family=None,
    )
    return _changed(told, node, worked)


def _standards(node: Node) -> tuple[str, ...]:
    """The codes of standards, which may be those of a state."""
    found = node.texts("standards")
    if any(len(one) > _STANDARD_LETTERS for one in found):
        raise node.fault("standards", f"a list of codes of at most {_STANDARD_LETTERS} letters")
    return found


def _one_step(node: Node) -> _Worked:
    told = _arithmetic.situation(node)
    if told.both_parts:
        return _both_parts(node, told)
    addends = sum(_PART.fullmatch(key) is not None for key in node.node("numbers").names())
    of_sum = addends > 2 and told.roles[-1] == told.unknown == "whole"
    numbers = _arithmetic.numbers(node, told, addends if of_sum else 2)
    unknown, answer = _arithmetic.answer(node, numbers)
    if unknown != told.unknown:
        raise node.fault("unknown", f'"{told.unknown}", which {told.id} asks for,')
    return _Worked(
        situation=told,
        strategy=_arithmetic.strategy(node, of_sum=of_sum),
        numbers=numbers,
        unknown=unknown,
        answer=answer,
        equations=_arithmetic.equations(node),
        related_facts=_arithmetic.related_facts(node),
        solution=_arithmetic.solution(node),
        second_way=_arithmetic.second_way(node),
    )


def _both_parts(node: Node, told: Situation) -> _Worked:
    numbers = _arithmetic.numbers(node, told)
    whole = numbers["whole"]
    pairs = node.pairs("answer")
    if pairs != tuple([(part, whole - part) for part in range(whole + 1)]):
        raise node.fault("answer", f"a list of all pairs of {whole}")
    for key in ("strategy", "second_way"):
        if node.has(key):
            raise node.fault(key, "null")
    if node.text("unknown") != _ALL_PAIRS:
        raise node.fault("unknown", f'"{_ALL_PAIRS}"')
    return _Worked(
        situation=told,
        strategy=None,
        numbers=numbers,
        unknown=_ALL_PAIRS,
        answer=pairs,
        equations=_arithmetic.equations(node),
        related_facts=_arithmetic.related_facts(node),
        solution=_arithmetic.all_pairs(node, whole),
        second_way=None,
    )


def _two_steps(node: Node) -> _Worked:
    steps = tuple([_arithmetic.step(one) for one in node.nodes("steps")])
    if len(steps) != 2:
        raise node.fault("steps", "a list of two")
    one, two = steps
    refused = two_steps.refusal(one.situation, two.situation)
    if refused:
        raise node.wrong(f'"steps" make no problem of two steps. {refused}')
    for key in ("situation", "numbers", "equations", "solution", "second_way"):
        if node.has(key):
            raise node.fault(key, "null, since each of the steps has its own,")
    for key, value in (("strategy", two.strategy), ("unknown", two.unknown)):
        if node.text(key) != value:
            raise node.fault(key, f'"{value}", as in the second step,')
    if node.number("answer") != two.answer:
        raise node.fault("answer", f"{two.answer}, the answer of the second step,")
    if node.number("hidden") != one.answer or one.answer not in two.numbers.values():
        raise node.fault("hidden", "the answer of the first step, with which the second goes on,")
    return _Worked(
        situation=situations.get(two.situation),
        strategy=two.strategy,
        numbers=two.numbers,
        unknown=two.unknown,
        answer=two.answer,
        equations=two.equations,
        related_facts=two.related_facts,
        solution=two.solution,
        second_way=None,
        steps=steps,
        hidden=one.answer,
    )
