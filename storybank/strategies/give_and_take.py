"""Give and take: move ones from one addend to the other, so that one is a ten."""

from storybank.model import Form
from storybank.strategies._numbers import ones, passes_a_ten, up_to_ten
from storybank.strategies._steps import Line
from storybank.strategies._stories import refusals
from storybank.strategies._strategy import Suit

TITLE = "Give and take"
RANK = 3
TEACHER = "Pays when one of two numbers to add, and only one, is 1 or 2 below a ten."
IN_SHORT = "give and take"
I_CAN = "I can move ones from one number to the other to make a ten."
AT_HOME = (
    "One number gives 1 or 2 to the other, so that the other number ends in 0. Then the two "
    "numbers are easy to add, and the sum stays the same."
)
WORDS = {
    "addend": "a number that is added",
    "give and take": "one number gets what the other gives",
}
FARTHEST = 4

SUITS = {
    "whole-unknown": Suit(
        (Form.ADD,), "Two parts stand side by side, and moving a few leaves the whole as it is."
    ),
    "join-result-unknown": Suit(
        (Form.ADD,), "Some of those that come fill up a ten, and the end is the same."
    ),
    "separate-start-unknown": Suit(
        (Form.ADD,), "What left and what stayed are two parts of the start; a few may change sides."
    ),
}
REFUSES = refusals(
    {
        "compare-bigger-unknown-more": "One number is a heap and the other only a difference; "
        "nothing can move from one to the other.",
        "compare-bigger-unknown-fewer": "Moving ones would change how many fewer the story says, "
        "and the child has to hold on to that number.",
    },
    taking_away=False,
)


def rule(form: Form, a: int, b: int, limit: int) -> bool:
    """Whether a + b passes a ten and exactly one addend is 1 or 2 below a ten.

    Source: make one addend friendly, 28 + 67 = 30 + 65, public grade-2 guidance.
    """
    return (
        form is Form.ADD and a >= 11 and (a % 10 >= 8) != (b % 10 >= 8) and passes_a_ten(form, a, b)
    )


def reason(form: Form, a: int, b: int) -> str:
    """Why these numbers call for give and take."""
    takes, gives = _sides(a, b)
    near = up_to_ten(takes)
    return f"{takes} needs only {near} to be {takes + near}, and {gives} can spare it."


def lines(form: Form, a: int, b: int) -> tuple[Line, ...] | None:
    """The same sum with one friendly addend, and that sum; the one closer to its ten takes."""
    if form is not Form.ADD:
        return None
    takes, gives = _sides(a, b)
    near = up_to_ten(takes)
    if not 1 <= near <= FARTHEST or gives <= near:
        return None
    ten, rest = takes + near, gives - near
    other = f"the other {takes}" if a == b else takes
    moved = f"{ten} + {rest}" if takes == a else f"{rest} + {ten}"
    return (
        Line(
            f"{a} + {b} = {moved}",
            f"I take {near} from {gives} and give {near} to {other}, because {takes} is {near} "
            f"less than {ten}. Now I have {ten} and {rest}.",
        ),
        Line(
            f"{moved} = {a + b}",
            f"Then I add {ten} and {rest}, because {ten} is easy to add. I get {a + b}.",
        ),
    )


def _sides(a: int, b: int) -> tuple[int, int]:
    return (a, b) if ones(a) >= ones(b) else (b, a)
