"""What a read story comes to, and the checks every kind of reading shares."""

from dataclasses import dataclass, replace

from .facts import Fact, Words
from .words import CannotRead

Answer = int | list[tuple[int, int]]
END = frozenset(("now", "left", "still", "§end"))
START = frozenset(("§start", "before-time"))


@dataclass(frozen=True)
class Reading:
    """The situation equation as the story tells it, its kind, the answer and what is asked."""

    equation: str
    situation: str
    answer: Answer
    unit: str


def solve(situation: str, left: str, sign: str, right: str, result: str) -> Reading:
    """The reading of an equation with one `?`; the unit is filled in later.

    Raises CannotRead where the numbers contradict the story (an answer below zero).
    """
    if result == "?":
        a, b = int(left), int(right)
        answer = a + b if sign == "+" else a - b
    elif right == "?":
        a, c = int(left), int(result)
        answer = c - a if sign == "+" else a - c
    else:
        b, c = int(right), int(result)
        answer = c - b if sign == "+" else c + b
    if answer < 0:
        raise CannotRead(f"{left} {sign} {right} = {result} has no answer among whole numbers")
    return Reading(f"{left} {sign} {right} = {result}", situation, answer, "")


def compatible(one: Fact, two: Fact) -> bool:
    """True where both facts can be about the same things."""
    a, b = one.thing, two.thing
    if not a.words or not b.words:
        return True
    if a.head != b.head:
        return False
    return not (set(a.words) - set(b.words) and set(b.words) - set(a.words))


def match(one: Words, two: Words) -> bool:
    """True where two names of a holder or place can be the same."""
    if not one or not two:
        return False
    a, b = set(one), set(two)
    if not a & b or (a - b and b - a):
        return False
    return one[-1] in b or two[-1] in a


def numbered(facts: list[Fact]) -> list[Fact]:
    """The facts that bring a number of their own."""
    return [f for f in facts if f.count is not None and f.same_as is None]


def with_unit(reading: Reading, unit: str) -> Reading:
    """The same reading with the noun phrase that was asked about."""
    return replace(reading, unit=unit)
