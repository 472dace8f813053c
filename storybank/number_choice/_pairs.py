"""Stories for exactly the two numbers that a teacher names."""

from dataclasses import dataclass

from storybank import situations, strategies
from storybank.errors import NoNumbersError
from storybank.model import Form, Triple
from storybank.number_choice._wish import suiting


@dataclass(frozen=True, slots=True)
class PairWay:
    """A strategy that can be carried out with the pair; `fits` says if its rule calls for it."""

    strategy: str
    form: Form
    fits: bool


@dataclass(frozen=True, slots=True)
class PairChoice:
    """The triple of a named pair in a situation's roles, and its strategies, best first."""

    triple: Triple
    ways: tuple[PairWay, ...]


def for_pair(
    a: int, b: int, operation: str, situation: str, limit: int, strategy: str | None = None
) -> PairChoice | None:
    """How the situation tells of `a + b` or `a - b`; None where it is solved the other way.

    For an addition A and B are `a` and `b` as written; for a subtraction C is `a`, and `b` takes
    the role of the other number given. The ways are the strategies that suit the situation
    (only `strategy`, if it is named): those that fit come first, then those that can be carried
    out; among each the smaller rank, then the fewer steps. No way is left where the strategy
    named cannot be carried out, or does not suit. Equal parts and tens are allowed.
    Raises NoNumbersError for a number below 1, an answer below 1, or one beyond `limit`.
    """
    whole, part = (a + b, a) if operation == "+" else (a, b)
    _check(a, b, operation, limit)
    story = situations.get(situation)
    if story.operation != operation:
        return None
    first = operation == "+" or story.unknown == story.roles[1]
    triple = Triple(part, whole - part, whole) if first else Triple(whole - part, part, whole)
    ranked: dict[str, tuple[tuple[bool, int, int, str], PairWay]] = {}
    for name, form in suiting(situation, strategy):
        one = strategies.get(name)
        solution = one.solve(form, a, b, limit)
        if solution is None:
            continue
        fits = name in strategies.workable(form, a, b, limit)
        steps = len(solution.jumps) or len(solution.lines)
        entry = (not fits, one.rank, steps, name), PairWay(name, form, fits)
        if name not in ranked or entry[0] < ranked[name][0]:
            ranked[name] = entry
    ways = (way for _, way in sorted(ranked.values(), key=lambda entry: entry[0]))
    return PairChoice(triple, tuple(ways))


def _check(a: int, b: int, operation: str, limit: int) -> None:
    largest = a + b if operation == "+" else a
    pair = f'The pair "{a} {operation} {b}"'
    if min(a, b) < 1 or (operation == "-" and a <= b):
        raise NoNumbersError(
            f"{pair} has a number or an answer below 1. "
            "Use whole numbers from 1 on; take the smaller number from the larger."
        )
    if largest > limit:
        raise NoNumbersError(
            f"{pair} reaches {largest}, which is beyond the limit of {limit}. "
            f"Choose smaller numbers, or raise the limit with --within {largest}."
        )
