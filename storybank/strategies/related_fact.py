"""Related fact, think addition: 12 - 8 from 8 + 4 = 12 (CCSS-M 1.OA.6)."""

from storybank.model import Form
from storybank.strategies._steps import Line
from storybank.strategies._stories import refusals
from storybank.strategies._strategy import Suit

TITLE = "Related fact (think addition)"
RANK = 2
TEACHER = "Pays within the basic facts, when an addition fact with the same three numbers is known."
IN_SHORT = "use a related fact"
I_CAN = "I can use an addition fact to take away."
AT_HOME = (
    "To take away, we think of an addition with the same three numbers: what goes with the "
    "smaller number to make the bigger one?"
)
WORDS = {"related facts": "facts with the same three numbers"}

SUITS = {
    "join-change-unknown": Suit(
        (Form.SUBTRACT,), "The story already says start and what makes the end: think addition."
    ),
    "part-unknown": Suit(
        (Form.SUBTRACT,), "Part, part and whole are one fact family: ask what goes with this part."
    ),
    "join-start-unknown": Suit(
        (Form.SUBTRACT,), "The story is an addition with its first number missing."
    ),
    "separate-result-unknown": Suit(
        (Form.SUBTRACT,), "What left and what stays belong to one fact with the start."
    ),
    "separate-change-unknown": Suit(
        (Form.SUBTRACT,), "What stayed is known, so ask what goes with it to make the start."
    ),
    "compare-difference-unknown-more": Suit(
        (Form.SUBTRACT,), "Ask what the smaller number needs to be as big as the other."
    ),
    "compare-difference-unknown-fewer": Suit(
        (Form.SUBTRACT,), "How many fewer is what the smaller number would need."
    ),
}
REFUSES = refusals(
    {
        "compare-smaller-unknown-more": "The misleading 'more' tempts a child to add the two "
        "numbers; an addition fact on the page would back up that slip.",
        "compare-smaller-unknown-fewer": "'Fewer than' sends the child down by the difference; "
        "adding on to the difference would count something the story does not have.",
    },
    adding=False,
)


def rule(form: Form, a: int, b: int, limit: int) -> bool:
    """Whether a - b is a basic fact: a at most 18, b and the difference at most 9.

    Source: 12 - 8 from 8 + 4, CCSS-M 1.OA.6; sums of one-digit numbers known, 2.OA.2.
    """
    return form is Form.SUBTRACT and a <= 18 and b <= 9 and a - b <= 9


def reason(form: Form, a: int, b: int) -> str:
    """Why these numbers call for a related fact."""
    return f"{b} + {a - b} = {a} is a basic fact, and it holds the answer."


def lines(form: Form, a: int, b: int) -> tuple[Line, ...] | None:
    """The addition fact and the subtraction fact that it gives; only within the basic facts."""
    if not rule(form, a, b, 0):
        return None
    rest = a - b
    return (
        Line(
            f"{b} + {rest} = {a}",
            f"To take {b} from {a}, I ask what goes with {b} to make {a}. It is {rest}.",
        ),
        Line(
            f"{a} - {b} = {rest}",
            f"The same three numbers tell me that {a} take away {b} is {rest}.",
        ),
    )
