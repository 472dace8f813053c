"""The steps in which a strategy is carried out: moves along the line, or lines of equations."""

from collections.abc import Sequence
from typing import NamedTuple

from storybank.model import Jump


class Move(NamedTuple):
    """One jump to come: its signed size, the phrase for its arc, and what the child says.

    `says` may hold `{at}`, `{size}` and `{to}`: where the pencil is, how far it jumps, and
    where it lands.
    """

    by: int
    why: str
    says: str


class Walk(NamedTuple):
    """A start on the number line and the moves from there."""

    start: int
    moves: Sequence[Move]


class Line(NamedTuple):
    """A true equation and what the child says about it."""

    equation: str
    says: str


def walked(walk: Walk) -> tuple[tuple[Jump, ...], tuple[str, ...]]:
    """The jumps of `walk`, joined end to end, and one text to say for each."""
    at = walk.start
    jumps: list[Jump] = []
    says: list[str] = []
    for move in walk.moves:
        to = at + move.by
        jumps.append(Jump(start=at, to=to, by=move.by, why=move.why))
        says.append(move.says.format(at=at, size=abs(move.by), to=to))
        at = to
    return tuple(jumps), tuple(says)


def listed(words: Sequence[str]) -> str:
    """`words` as English lists them: a, b and c."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def sum_of_jumps(jumps: Sequence[Jump]) -> str:
    """What a child says who looked for a difference and now adds up the jumps."""
    sizes = [jump.by for jump in jumps]
    if len(sizes) == 1:
        return f"My jump is {sizes[0]}."
    if len(set(sizes)) == 1 and sizes[0] == 1:
        return f"I made {len(sizes)} hops."
    terms = str(sizes[0]) + "".join(
        f" {'+' if size > 0 else '-'} {abs(size)}" for size in sizes[1:]
    )
    if min(sizes) > 0:
        named = listed([str(size) for size in sizes])
    else:
        named = listed([f"{abs(size)} {'on' if size > 0 else 'back'}" for size in sizes])
    return f"My jumps are {named}, and {terms} = {sum(sizes)}."
