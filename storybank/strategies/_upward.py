"""Going on upward from a ten, by a known rest or to a known goal."""

from storybank.strategies._numbers import place_name, places
from storybank.strategies._steps import Move


def from_ten(ten: int, rest: int, *, cause: str) -> tuple[Move, ...]:
    """The moves from `ten` on by a known `rest`; `cause` is said where one jump does it.

    From a ten a number up to 99 is added in one look as long as no hundred is passed (40 + 23).
    """
    if in_one_look(ten, rest):
        return (Move(rest, "the rest", f"From {{at}}, jump {{size}} {cause}. I land on {{to}}."),)
    moves = []
    left = rest
    for part in places(rest):
        if part == left:
            says = "From {at}, jump the last {size}. I land on {to}."
        else:
            says = f"From {{at}}, jump {{size}} because {left} are still to go. I land on {{to}}."
        moves.append(Move(part, f"the {place_name(part)}", says))
        left -= part
    return tuple(moves)


def toward(start: int, goal: int) -> tuple[Move, ...]:
    """The moves from `start` up to `goal`: by places, each as large as it can be."""
    moves = []
    at = start
    for part in places(goal - start):
        if at + part == goal:
            moves.append(_last(at, goal))
        else:
            unit = 100 if part >= 100 else 10
            cause = f"because a jump of {part + unit} would go past {goal}"
            says = f"From {{at}}, jump {{size}} {cause}. I land on {{to}}."
            moves.append(Move(part, f"the {place_name(part)}", says))
        at += part
    return tuple(moves)


def from_ten_toward(ten: int, goal: int) -> tuple[Move, ...]:
    """The moves from `ten` up to `goal`: one jump if it can be seen, else by places."""
    return (_last(ten, goal),) if in_one_look(ten, goal - ten) else toward(ten, goal)


def in_one_look(ten: int, rest: int) -> bool:
    """Whether `rest` is added to a ten without going past a hundred."""
    return rest < 100 and ten % 100 + rest <= 100


def _last(at: int, goal: int) -> Move:
    size = goal - at
    says = f"From {{at}}, jump {{size}} because {goal} is {size} past {at}. I land on {{to}}."
    return Move(size, f"up to {goal}", says)
