"""Doubles: both numbers alike, and the double known by heart (CCSS-M 1.OA.6, 2.OA.2)."""

from storybank.model import Form
from storybank.strategies._numbers import has_known_double
from storybank.strategies._steps import Line
from storybank.strategies._stories import refusals
from storybank.strategies._strategy import Suit

TITLE = "Doubles"
RANK = 1
TEACHER = "Pays when a number is added to itself or taken from its double, and the double is known."
IN_SHORT = "use a double"
I_CAN = "I can use a double that I know."
AT_HOME = "When the two numbers are the same, we use a double that we know by heart."
WORDS = {"double": "a number and the same number again"}

SUITS = {
    "join-result-unknown": Suit((Form.ADD,), "As many come as were there, which makes a double."),
    "whole-unknown": Suit((Form.ADD,), "Two parts of the same size make a double."),
    "separate-start-unknown": Suit(
        (Form.ADD,), "As many left as stayed, so the start is a double."
    ),
    "separate-result-unknown": Suit((Form.SUBTRACT,), "Half of them leave, and the same stay."),
    "separate-change-unknown": Suit((Form.SUBTRACT,), "Half are left, so the other half went."),
    "join-change-unknown": Suit((Form.SUBTRACT,), "The number grows to its double."),
    "join-start-unknown": Suit((Form.SUBTRACT,), "Half of the end came later; half was there."),
    "part-unknown": Suit((Form.SUBTRACT,), "One part is half of the whole, so the other is too."),
}
REFUSES = refusals(
    {
        "compare-difference-unknown-more": "One number twice the other is a comparison by times, "
        "which comes later; as a difference it hides the double.",
        "compare-difference-unknown-fewer": "Half as many is a comparison by times, and 'fewer' "
        "would put that thought into the wrong words.",
        "compare-bigger-unknown-more": "A difference as big as the smaller number would really "
        "say 'twice as many', which is multiplying.",
        "compare-bigger-unknown-fewer": "The printed difference would equal the bigger one's "
        "other half, so a child cannot tell which number is which.",
        "compare-smaller-unknown-more": "The answer would equal the printed difference, so a "
        "child who copies that number looks right.",
        "compare-smaller-unknown-fewer": "'Fewer' by exactly half is better told as half as "
        "many, and that is not a grade-2 comparison.",
    }
)


def rule(form: Form, a: int, b: int, limit: int) -> bool:
    """Whether a + b is a known double, or a is the known double of b.

    Source: doubles to 10 + 10 are grade-2 facts; with multiples of 5, our own design.
    """
    if form is Form.SOUGHT or not has_known_double(b):
        return False
    return a == b if form is Form.ADD else a == 2 * b


def reason(form: Form, a: int, b: int) -> str:
    """Why these numbers call for doubles."""
    if form is Form.ADD:
        return f"Both numbers are {a}, and {a} + {b} is a double to know by heart."
    return f"{a} is the double of {b}."


def lines(form: Form, a: int, b: int) -> tuple[Line, ...] | None:
    """The double, and for taking away the fact that it gives; only where the double is known."""
    if not rule(form, a, b, 0):
        return None
    if form is Form.ADD:
        double = a + b
        return (
            Line(
                f"{a} + {b} = {double}",
                f"Both numbers are {a}, and I know that double. I get {double}.",
            ),
        )
    return (
        Line(f"{b} + {b} = {a}", f"I know the double of {b}, because {b} and {b} make {a}."),
        Line(f"{a} - {b} = {b}", f"When I take {b} from {a}, the other {b} is left."),
    )
