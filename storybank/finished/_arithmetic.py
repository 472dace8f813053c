"""Reads the arithmetic of a finished problem: numbers, equations, solutions, wrong answers."""

import re
from collections.abc import Mapping

from storybank import mistakes, situations, strategies
from storybank.finished._node import LARGEST, Node
from storybank.model import (
    Equations,
    Jump,
    SecondWay,
    Situation,
    Solution,
    Step,
    WatchFor,
)
from storybank.solution import LARGEST_WHOLE, all_pairs_solution

OF_SUMS = "friendly-pair"
"""How a sum of three or four addends is worked out; no catalogue lists it."""
_EQUATION = re.compile(r"[0-9?+= -]{1,200}")
_FACT = re.compile(r"[0-9+= -]{1,200}")
_OPERATIONS = ("+", "-")
_ANSWERS = ("landing", "sum of jumps", "last line")
ALL_LINES = "all lines"


def situation(node: Node) -> Situation:
    """The situation that a problem or a step names."""
    return situations.get(node.choice("situation", "situation", situations.ids()))


def strategy(node: Node, *, of_sum: bool = False) -> str:
    """The strategy that a problem, a step or a second way names."""
    known = strategies.ids()
    return node.choice("strategy", "strategy", (*known, OF_SUMS) if of_sum else known)


def numbers(node: Node, told: Situation, addends: int = 2) -> dict[str, int]:
    """The numbers by role, in the order of the roles; they add up.

    Of a sum of three or four `addends` the parts are its roles.
    """
    if told.both_parts:
        return node.by_role("numbers", ("whole",))
    roles: tuple[str, ...] = told.roles
    if addends > 2:
        roles = (*(f"part{at}" for at in range(1, addends + 1)), "whole")
    found = node.by_role("numbers", roles)
    *parts, whole = found.values()
    if sum(parts) != whole:
        said = ", ".join(f"{role} {number}" for role, number in found.items())
        raise node.wrong(f'the "numbers" do not add up: {said}.')
    return found


def answer(node: Node, known: Mapping[str, int]) -> tuple[str, int]:
    """The role that is asked for, and the answer, which is the number of this role."""
    unknown = node.choice("unknown", "number of this problem", tuple(known))
    found = node.number("answer")
    if found != known[unknown]:
        raise node.wrong(f'"answer" is {found}, and the {unknown} is {known[unknown]}.')
    return unknown, found


def equations(node: Node) -> Equations:
    """Both equations."""
    inner = node.node("equations")
    return Equations(
        inner.word("situation", _EQUATION, "an equation"),
        inner.word("solution", _EQUATION, "an equation"),
    )


def related_facts(node: Node) -> tuple[str, ...]:
    """The related facts, each an equation."""
    found = node.texts("related_facts")
    if not all(_FACT.fullmatch(one) for one in found):
        raise node.fault("related_facts", "a list of equations")
    return found


def solution(node: Node) -> Solution:
    """A worked solution by jumps or lines; each jump lands where it says."""
    inner = node.node("solution")
    jumps = tuple([_jump(one) for one in inner.nodes("jumps")])
    answer_is = inner.text("answer_is")
    if answer_is not in _ANSWERS:
        raise inner.fault("answer_is", f"one of {', '.join(_ANSWERS)}")
    return Solution(
        operation=_operation(inner),
        a=inner.number_or_none("a"),
        b=inner.number_or_none("b"),
        start=inner.number_or_none("start"),
        jumps=jumps,
        lines=_lines(inner),
        answer_is=answer_is,
        says=inner.texts("says"),
    )


def all_pairs(node: Node, whole: int) -> Solution:
    """The list of all pairs of `whole`; what is said with it is the same for every whole."""
    inner = node.node("solution")
    if not 1 <= whole <= LARGEST_WHOLE:
        raise node.wrong(f"all pairs are listed of wholes from 1 to {LARGEST_WHOLE}, not {whole}.")
    if inner.text("answer_is") != ALL_LINES:
        raise inner.fault("answer_is", f'"{ALL_LINES}"')
    says = all_pairs_solution(whole).says
    return Solution(None, None, None, None, (), _lines(inner), ALL_LINES, says)


def _operation(node: Node) -> str:
    found = node.text("operation")
    if found not in _OPERATIONS:
        raise node.fault("operation", '"+" or "-"')
    return found


def _lines(node: Node) -> tuple[str, ...]:
    found = node.texts("lines")
    if not all(_FACT.fullmatch(one) for one in found):
        raise node.fault("lines", "a list of equations")
    return found


def _jump(node: Node) -> Jump:
    jump = Jump(node.number("from"), node.number("to"), node.number("by", -LARGEST), _why(node))
    if jump.start + jump.by != jump.to:
        raise node.wrong(f'"by" is {jump.by}, and from {jump.start} that is not {jump.to}.')
    return jump


def _why(node: Node) -> str:
    return node.text("why", empty=True)


def second_way(node: Node) -> SecondWay | None:
    """Another strategy with its solution, or None."""
    if not node.has("second_way"):
        return None
    inner = node.node("second_way")
    return SecondWay(strategy(inner), solution(inner))


def watch_for(node: Node) -> tuple[WatchFor, ...]:
    """The wrong answers to watch for."""
    known = mistakes.ids()
    return tuple(
        [
            WatchFor(
                one.number("answer"), one.choices("mistakes", "mistake", known), one.text("says")
            )
            for one in node.nodes("watch_for")
        ]
    )


def step(node: Node) -> Step:
    """One step of two, worked by itself."""
    told = situation(node)
    known = numbers(node, told)
    unknown, found = answer(node, known)
    return Step(
        situation=told.id,
        strategy=strategy(node),
        numbers=known,
        unknown=unknown,
        answer=found,
        equations=equations(node),
        related_facts=related_facts(node),
        solution=solution(node),
    )
