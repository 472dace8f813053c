"""True and false equations made of three numbers, with the equal sign in every place.

The forms of the true ones are those of CCSS-M 1.OA.7 (6 = 6, 7 = 8 - 1, 5 + 2 = 2 + 5). The false
ones are what a child believes who reads the equal sign as "here comes the answer" (as in 4 + 1 =
5 + 2 there, and in studies of 8 + 4 = ? + 5: Falkner, Levi & Carpenter 1999, from memory), who
turns a subtraction round, misses a sign or counts the start. The open ones are those of 1.OA.8
(8 + ? = 11, 5 = ? - 3, 6 + 6 = ?).
"""

from collections.abc import Sequence
from dataclasses import dataclass

from storybank import luck
from storybank.model import Problem, ProblemSet

NONE_HERE = "No problem of this set has related facts."
A_FAMILY = 4
"""The statements made of each three numbers."""


@dataclass(frozen=True, slots=True)
class Statement:
    """An equation, whether it is true, and what is not seen where a false one is taken for true."""

    equation: str
    true: bool
    why: str = ""


@dataclass(frozen=True, slots=True)
class Statements:
    """What is asked about three numbers: statements to judge, and open ones with their numbers."""

    number: int
    code: str
    to_judge: tuple[Statement, ...]
    open: tuple[tuple[str, int], ...]


def statements(problem_set: ProblemSet) -> tuple[Statements, ...]:
    """Statements for each three numbers of a set; over the whole set half of them are true.

    Each three numbers come once, with the number and code of their first problem.
    """
    families: dict[tuple[str, ...], tuple[int, Problem]] = {}
    for number, problem in enumerate(problem_set.problems, start=1):
        if problem.related_facts:
            families.setdefault(tuple(sorted(problem.related_facts)), (number, problem))
    found = list(families.values())
    shares = _shares([problem.code for _, problem in found])
    return tuple(
        _about(number, problem, share)
        for (number, problem), share in zip(found, shares, strict=True)
    )


def _shares(codes: Sequence[str]) -> list[int]:
    """How many of each four are true: 1, 2 or 3, so that two neighbours have four together."""
    half = A_FAMILY // 2
    shares = [half] * len(codes)
    for first in range(0, len(codes) - 1, 2):
        more = luck.highest((-1, 0, 1), f"{codes[first]}/share", str)
        shares[first], shares[first + 1] = half + more, half - more
    return shares


def _about(number: int, problem: Problem, share: int) -> Statements:
    first, sign, second, _, third = problem.related_facts[0].split()
    a, b, c = int(first), int(second), int(third)
    assert sign == "+"
    key = problem.code
    true = luck.ordered(_true(a, b, c), f"{key}/true", lambda one: one.equation)[:share]
    false = luck.ordered(_false(a, b, c, key), f"{key}/false", lambda one: one.equation)
    judged = [*true, *false[: A_FAMILY - share]]
    return Statements(
        number,
        problem.code,
        tuple(luck.ordered(judged, f"{key}/order", lambda one: one.equation)),
        _open(a, b, c, key),
    )


def _true(a: int, b: int, c: int) -> list[Statement]:
    told = (
        f"{c} = {c}",
        f"{b} = {c} - {a}",
        f"{a} + {b} = {b} + {a}",
        f"{c} = {a} + {b}",
        f"{a} + {b} = {c}",
        f"{c} - {b} = {a}",
    )
    return [Statement(equation, true=True) for equation in dict.fromkeys(told)]


def _false(a: int, b: int, c: int, key: str) -> list[Statement]:
    """Those of the misreadings that are false: with equal parts c - a = c - b is not."""
    less, more = sorted((a, b))
    added = luck.highest((1, 2, 3), f"{key}/added", str)
    next_ = "The answer does not have to come next: both sides must make the same number."
    told = [
        Statement(f"{a} + {b} = {c} + {added}", False, next_),
        Statement(f"{less} = {c} + {more}", False, "The whole stands where a part must."),
        Statement(f"{a} + {b} = {c - 1}", False, "The start was counted, too."),
    ]
    if a != b:
        told += [
            Statement(
                f"{c} - {a} = {c} - {b}", False, "Only in adding may the two parts be turned round."
            ),
            Statement(f"{c} = {more} - {less}", False, "The sign was not looked at."),
        ]
    return told


def _open(a: int, b: int, c: int, key: str) -> tuple[tuple[str, int], ...]:
    """Two open statements, the equal sign once behind and once in front.

    They are facts of the family that are not judged, so that none of them is shown solved; with
    equal parts there are no others.
    """
    behind = ((f"{b} + ? = {c}", a), (f"{b} + {a} = ?", c), (f"{c} - ? = {b}", a))
    front = ((f"{a} = ? - {b}", c), (f"{c} = ? + {a}", b), (f"? = {c} - {b}", a))
    return (
        luck.highest(behind, f"{key}/behind", lambda one: one[0]),
        luck.highest(front, f"{key}/front", lambda one: one[0]),
    )
