"""Count up: from the smaller number to the larger, by way of a ten (indirect addition)."""

from storybank.model import Form
from storybank.strategies._numbers import up_to_ten
from storybank.strategies._steps import Move, Walk
from storybank.strategies._stories import refusals
from storybank.strategies._strategy import Suit
from storybank.strategies._upward import from_ten_toward

TITLE = "Count up"
RANK = 3
TEACHER = "Pays when two numbers are close together but lie on both sides of a ten."
IN_SHORT = "count up"
I_CAN = "I can count up from the smaller number to the bigger number."
AT_HOME = (
    "When two numbers are close, we start at the smaller one and jump up to the bigger one. "
    "All the jumps together make the answer."
)
WORDS = {
    "count up": "jump from the smaller number to the bigger one",
    "difference": "how far apart two numbers are",
}

SUITS = {
    "join-change-unknown": Suit(
        (Form.SOUGHT,), "The story goes up from the start, and counting up goes the same way."
    ),
    "separate-change-unknown": Suit(
        (Form.SOUGHT,), "What is left and what was there are close; the way between is what went."
    ),
    "part-unknown": Suit(
        (Form.SOUGHT,), "The known part lacks only a little of the whole, so add up to it."
    ),
    "compare-difference-unknown-more": Suit(
        (Form.SOUGHT,), "The two numbers are close, and the jumps between them are the difference."
    ),
    "compare-difference-unknown-fewer": Suit(
        (Form.SOUGHT,), "How many fewer is how far the smaller number lies below the bigger."
    ),
}
REFUSES = refusals(
    {
        "separate-result-unknown": "The story takes away and goes back; counting up would turn it "
        "round before the child has followed it.",
        "join-start-unknown": "There is no known start to count up from; what came is not where "
        "the story begins.",
        "compare-smaller-unknown-more": "Counting up would start at the difference, and that is "
        "not where anything in the story stands.",
        "compare-smaller-unknown-fewer": "The story steps down from the bigger number by a known "
        "difference, so going back follows it.",
    },
    adding=False,
)


def rule(form: Form, a: int, b: int, limit: int) -> bool:
    """Whether a - b is 3 to 12 across a ten, small beside b, and neither number is a ten.

    Source: small differences invite indirect addition (Torbeyns; Peltenburg 2012); the bounds
    are our own design.
    """
    difference = a - b
    return (
        form is not Form.ADD
        and 3 <= difference <= 12
        and b >= 3 * difference
        and a // 10 != b // 10
        and a % 10 != 0
        and b % 10 != 0
    )


def reason(form: Form, a: int, b: int) -> str:
    """Why these numbers call for counting up."""
    ten = b + up_to_ten(b)
    return f"{b} and {a} are only {a - b} apart, with {ten} on the way."


def jumps(form: Form, a: int, b: int) -> Walk | None:
    """To the next ten, then on to `a`; one jump where no ten lies between."""
    if form is Form.ADD:
        return None
    near = up_to_ten(b)
    if near == 0 or b + near >= a:
        return Walk(b, from_ten_toward(b, a))
    first = Move(near, "to the next ten", "From {at}, jump {size} to the next ten. I land on {to}.")
    return Walk(b, (first, *from_ten_toward(b + near, a)))
