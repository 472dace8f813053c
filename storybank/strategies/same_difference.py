"""Same difference: slide both numbers alike, so that the second is a ten (72 - 39 = 73 - 40)."""

from storybank.model import Form
from storybank.strategies._numbers import ones, up_to_ten
from storybank.strategies._steps import Line
from storybank.strategies._stories import refusals
from storybank.strategies._strategy import Suit

TITLE = "Same difference"
RANK = 3
TEACHER = (
    "Pays when the number taken away is 1 or 2 below a ten and has more ones than the first "
    "number; a stretch beyond grade 2."
)
IN_SHORT = "slide both numbers"
I_CAN = "I can slide both numbers to make taking away easy."
AT_HOME = (
    "We add the same to both numbers, so that the number we take away ends in 0. The two "
    "numbers stay just as far apart."
)
WORDS = {"difference": "how far apart two numbers are", "slide": "move both numbers the same way"}
FARTHEST = 4

SUITS = {
    "compare-difference-unknown-more": Suit(
        (Form.SUBTRACT,), "The gap between two numbers is asked, and it stays when both slide."
    ),
    "compare-difference-unknown-fewer": Suit(
        (Form.SUBTRACT,), "How many fewer does not change when both get the same number more."
    ),
    "compare-smaller-unknown-more": Suit(
        (Form.SUBTRACT,), "On two bars, the known bar and the difference can grow alike."
    ),
    "compare-smaller-unknown-fewer": Suit(
        (Form.SUBTRACT,), "If bigger number and difference both grow by 1, the smaller one stays."
    ),
}
REFUSES = refusals(
    {
        "separate-result-unknown": "Nobody in the story gets the ones that both numbers are given; "
        "friendly then compensate follows what happens.",
        "separate-change-unknown": "Sliding would change what was there before and after, and "
        "those are the two facts of the story.",
        "join-change-unknown": "The story goes up from start to end; counting up follows it, "
        "sliding start and end does not.",
        "join-start-unknown": "The start is not known, so a child cannot picture what is slid.",
        "part-unknown": "Whole and part would both grow, and the child would look at more things "
        "than the story has.",
    },
    adding=False,
)


def rule(form: Form, a: int, b: int, limit: int) -> bool:
    """Whether a two-digit b is 1 or 2 below a ten and has more ones than a.

    Source: constant difference, 72 - 39 = 73 - 40, New Zealand and Australian guidance.
    """
    return form is Form.SUBTRACT and b >= 11 and b % 10 >= 8 and a % 10 < b % 10


def reason(form: Form, a: int, b: int) -> str:
    """Why these numbers call for sliding."""
    near = _slide(b)
    return f"With {near} more on both, {b} becomes {b + near} and the difference stays."


def highest(form: Form, a: int, b: int) -> int:
    """The first number after the slide."""
    return a + max(0, _slide(b))


def lines(form: Form, a: int, b: int) -> tuple[Line, ...] | None:
    """The slid difference and its value; `b` slides to its nearest ten, at most 4 away."""
    slide = _slide(b)
    if form is not Form.SUBTRACT or slide == 0 or b + slide < 10:
        return None
    ten, first, difference = b + slide, a + slide, a - b
    if slide > 0:
        says = (
            f"I add {slide} to {b} to make {ten}. I add {slide} to {a} too, so the difference "
            f"stays the same. Now I have {first} and {ten}."
        )
    else:
        says = (
            f"I take {-slide} from {b} to make {ten}. I take {-slide} from {a} too, so the "
            f"difference stays the same. Now I have {first} and {ten}."
        )
    return (
        Line(f"{a} - {b} = {first} - {ten}", says),
        Line(
            f"{first} - {ten} = {difference}",
            f"Then I take {ten} from {first}, because {ten} is easy to take away. "
            f"I get {difference}.",
        ),
    )


def _slide(b: int) -> int:
    if ones(b) in (0, 5):
        return 0
    return up_to_ten(b) if ones(b) > 5 else -ones(b)
