"""Jump to the next (last) ten first, then the rest (A10; Klein, Beishuizen & Treffers 1998)."""

from storybank.model import Form
from storybank.strategies._numbers import (
    ones,
    passes_a_ten,
    place_name,
    places,
    regroups,
    up_to_ten,
)
from storybank.strategies._steps import Move, Walk
from storybank.strategies._stories import refusals
from storybank.strategies._strategy import Suit
from storybank.strategies._upward import from_ten, from_ten_toward

TITLE = "Jump to the next ten first"
RANK = 4
TEACHER = "Pays when the first number is close to the ten that has to be crossed."
IN_SHORT = "to a ten first"
I_CAN = "I can jump to a ten first and then jump the rest."
AT_HOME = "We jump to the next ten first, or back to the ten before. From there we jump the rest."
LONGEST_REST = 20
WORDS = {"ten": "a number that ends in 0, such as 40", "jump": "a move along the number line"}

SUITS = {
    "join-result-unknown": Suit((Form.ADD,), "A few of those that come fill the ten first."),
    "whole-unknown": Suit((Form.ADD,), "From one part, jump to the ten and then do the rest."),
    "compare-bigger-unknown-more": Suit((Form.ADD,), "The difference is walked by way of the ten."),
    "compare-bigger-unknown-fewer": Suit(
        (Form.ADD,), "From the smaller number up to the bigger, the ten is a good place to rest."
    ),
    "separate-result-unknown": Suit(
        (Form.SUBTRACT,), "A few leave down to the ten, then the rest."
    ),
    "compare-smaller-unknown-more": Suit(
        (Form.SUBTRACT,), "Down from the bigger number, the ten is the first stop."
    ),
    "compare-smaller-unknown-fewer": Suit(
        (Form.SUBTRACT,), "So many fewer is walked down by way of the ten."
    ),
    "join-change-unknown": Suit(
        (Form.SOUGHT,),
        "From the start up to the ten, then on to the end: both jumps are the change.",
    ),
    "separate-change-unknown": Suit(
        (Form.SOUGHT,), "From what is left up to the ten, then to what was there at the start."
    ),
    "part-unknown": Suit((Form.SOUGHT,), "The known part is filled to a ten, then to the whole."),
    "compare-difference-unknown-more": Suit(
        (Form.SOUGHT,), "The way from the smaller to the bigger number leads through the ten."
    ),
    "compare-difference-unknown-fewer": Suit(
        (Form.SOUGHT,), "What the smaller number lacks is found in two jumps through the ten."
    ),
}
REFUSES = refusals(
    {
        "join-start-unknown": "The unknown start is where the story begins, so a jump back from "
        "the end to a ten stops at a place the story never mentions.",
        "separate-start-unknown": "The start has to be rebuilt from the end; stopping at a ten on "
        "the way mixes what left with how it left.",
    }
)


def rule(form: Form, a: int, b: int, limit: int) -> bool:
    """Whether a one-digit b regroups, or b passes a ten that a is close to.

    Source: the idea A10, Klein, Beishuizen & Treffers 1998 (from memory); bounds our own design.
    """
    sought = form is Form.SOUGHT
    if sought:
        a, b, form = b, a - b, Form.ADD
    if a < 11:
        return False
    if b <= 9 and a % 10 and regroups(form, a, b):
        return True
    if not passes_a_ten(form, a, b):
        return False
    if form is Form.ADD:
        return a % 10 >= 7
    return a % 10 <= 4 and b % 10 < 8 and a - b >= 15


def reason(form: Form, a: int, b: int) -> str:
    """Why these numbers call for the next ten first."""
    if form is Form.SUBTRACT:
        return f"{a} is only {ones(a)} past {a - ones(a)}, and {b} goes beyond it."
    start = b if form is Form.SOUGHT else a
    return f"{start} is only {up_to_ten(start)} from {start + up_to_ten(start)}, on the way."


def thin(form: Form, a: int, b: int) -> bool:
    """Whether one jump lands on the ten, or the rest behind it is a long way of its own."""
    if form is Form.SOUGHT:
        a, b, form = b, a - b, Form.ADD
    if form is Form.ADD and not rule(form, a, b, a + b):
        a, b = b, a
    rest = b - (up_to_ten(a) if form is Form.ADD else ones(a))
    return rest == 0 or rest > LONGEST_REST


def jumps(form: Form, a: int, b: int) -> Walk | None:
    """To the ten next to the start, then the rest.

    None if the start is a ten or the ten is not reached, and for adding a two-digit number to a
    one-digit number: turned round it is easier.
    """
    if form is Form.SUBTRACT:
        return _down(a, b)
    sought = form is Form.SOUGHT
    start, size = (b, a - b) if sought else (a, b)
    near = up_to_ten(start)
    if near == 0 or size < near or (not sought and a < 10 <= b):
        return None
    first = Move(near, "to the next ten", "From {at}, jump {size} to the next ten. I land on {to}.")
    if size == near:
        return Walk(start, (first,))
    if sought:
        return Walk(start, (first, *from_ten_toward(start + near, a)))
    cause = f"because {b} is {near} and {size - near}"
    return Walk(start, (first, *from_ten(start + near, size - near, cause=cause)))


def _down(a: int, b: int) -> Walk | None:
    near = ones(a)
    if near == 0 or b <= near:
        return None
    says = "From {at}, jump back {size} to the ten below. I land on {to}."
    moves = [Move(-near, "back to the ten", says)]
    left = b - near
    for part in places(left):
        if part == left:
            says = "From {at}, jump back the last {size}. I land on {to}."
        else:
            says = (
                f"I still have {left} to take away, so from {{at}} I jump back {{size}}. "
                "I land on {to}."
            )
        moves.append(Move(-part, f"the {place_name(part)} left", says))
        left -= part
    return Walk(a, moves)
