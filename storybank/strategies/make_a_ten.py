"""Make a ten, or go back to ten (CCSS-M 1.OA.6: 8 + 6 = 8 + 2 + 4; 13 - 4 = 13 - 3 - 1)."""

from storybank.model import Form
from storybank.strategies._numbers import ones, up_to_ten
from storybank.strategies._steps import Line
from storybank.strategies._stories import refusals
from storybank.strategies._strategy import Suit

TITLE = "Make a ten"
RANK = 2
TEACHER = "Pays within 20, when adding goes past 10 or taking away goes back below 10."
IN_SHORT = "make a ten"
I_CAN = "I can make a ten and then do the rest."
AT_HOME = "We go to 10 first, since 10 is easy to use, and then we do the rest."
WORDS = {"make a ten": "go to 10 first", "ten": "10 ones together"}

SUITS = {
    "join-result-unknown": Suit((Form.ADD,), "Some come: first enough to fill ten, then the rest."),
    "whole-unknown": Suit((Form.ADD,), "One part lends what the other needs to be ten."),
    "separate-start-unknown": Suit((Form.ADD,), "Put back first what makes ten, then the rest."),
    "compare-bigger-unknown-more": Suit((Form.ADD,), "Go up by the difference through ten."),
    "compare-bigger-unknown-fewer": Suit(
        (Form.ADD,), "The bigger number lies past ten, and ten is a rest on the way."
    ),
    "separate-result-unknown": Suit((Form.SUBTRACT,), "Some leave: first down to ten, then more."),
    "join-start-unknown": Suit((Form.SUBTRACT,), "Take off what came, down to ten first."),
    "part-unknown": Suit((Form.SUBTRACT,), "Take the known part from the whole through ten."),
    "compare-smaller-unknown-more": Suit(
        (Form.SUBTRACT,), "The smaller number lies below ten, so go down to ten first."
    ),
    "compare-smaller-unknown-fewer": Suit((Form.SUBTRACT,), "Go down by the difference via ten."),
}
REFUSES = refusals(
    {
        "join-change-unknown": "The story climbs from start to end; going back to ten would walk "
        "it the wrong way. Think addition keeps its direction.",
        "separate-change-unknown": "What went is not known yet, so it cannot be broken into a "
        "part down to ten and a rest.",
        "compare-difference-unknown-more": "Nothing is taken away from the bigger number; a "
        "matched comparison is closer to think addition.",
        "compare-difference-unknown-fewer": "Both amounts stay whole, so breaking one of them at "
        "ten shows nothing of the comparison.",
    }
)


def rule(form: Form, a: int, b: int, limit: int) -> bool:
    """Whether one-digit numbers, the larger first and at least 7, pass 10, or a - b goes below 10.

    Source: make a ten, CCSS-M 1.OA.6; the bounds are our own design.
    """
    if form is Form.ADD:
        return 9 >= a >= b and a >= 7 and a + b > 10
    return form is Form.SUBTRACT and 11 <= a <= 18 and b <= 9 and a % 10 < b


def reason(form: Form, a: int, b: int) -> str:
    """Why these numbers call for making a ten."""
    if form is Form.ADD:
        return f"{a} needs only {up_to_ten(a)} more to be 10, and {b} has that and more."
    return f"{a} is {ones(a)} more than 10, and {b} takes it below 10."


def lines(form: Form, a: int, b: int) -> tuple[Line, ...] | None:
    """The second number broken up, the way to ten, and the way from there."""
    if form is Form.ADD and 9 >= a >= b and a + b > 10:
        near = up_to_ten(a)
        rest = b - near
        return (
            Line(
                f"{b} = {near} + {rest}",
                f"I break {b} into {near} and {rest}, because {a} needs {near} more to be 10.",
            ),
            Line(f"{a} + {near} = 10", f"From {a}, I add {near} to make a ten. I get 10."),
            Line(
                f"10 + {rest} = {a + b}",
                f"From 10, I add the other {rest} because it is still to come. I get {a + b}.",
            ),
        )
    if form is Form.SUBTRACT and rule(form, a, b, 0):
        near = ones(a)
        rest = b - near
        return (
            Line(
                f"{b} = {near} + {rest}",
                f"I break {b} into {near} and {rest}, because {a} is {near} more than 10.",
            ),
            Line(f"{a} - {near} = 10", f"From {a}, I take {near} to go back to ten. I get 10."),
            Line(
                f"10 - {rest} = {a - b}",
                f"From 10, I take the other {rest} because it must go too. I get {a - b}.",
            ),
        )
    return None
