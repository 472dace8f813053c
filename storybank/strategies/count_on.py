"""Count on, count back: small steps of 1 from the larger number (CCSS-M 1.OA.5, 1.OA.6)."""

from storybank.model import Form
from storybank.strategies._steps import Move, Walk
from storybank.strategies._stories import refusals
from storybank.strategies._strategy import Suit

TITLE = "Count on or count back"
RANK = 1
TEACHER = "Pays when only 1, 2 or 3 are added, taken away or missing."
IN_SHORT = "count on or back"
I_CAN = "I can count on or count back a few steps."
AT_HOME = (
    "When one number is only 1, 2 or 3, we start at the other number and count on or count "
    "back, one step at a time."
)
WORDS = {
    "count on": "start at a number and say the next numbers",
    "count back": "start at a number and say the numbers before it",
}
MAX_HOPS = 10

SUITS = {
    "join-result-unknown": Suit((Form.ADD,), "A few more come, and the child counts them on."),
    "whole-unknown": Suit((Form.ADD,), "The child starts at the large part and counts the few."),
    "separate-start-unknown": Suit((Form.ADD,), "The few that left are counted back on."),
    "compare-bigger-unknown-more": Suit((Form.ADD,), "A few more than a number is counted on."),
    "compare-bigger-unknown-fewer": Suit(
        (Form.ADD,), "The other one has a few fewer, so the bigger number is a few hops up."
    ),
    "separate-result-unknown": Suit((Form.SUBTRACT,), "A few leave, and the child counts back."),
    "join-start-unknown": Suit((Form.SUBTRACT,), "The few that came are counted back off."),
    "compare-smaller-unknown-more": Suit(
        (Form.SUBTRACT,), "The bigger number is known, and the smaller is a few hops down."
    ),
    "compare-smaller-unknown-fewer": Suit(
        (Form.SUBTRACT,), "A few fewer than a number is counted back."
    ),
    "join-change-unknown": Suit((Form.SOUGHT,), "The child hops from start to end and counts."),
    "separate-change-unknown": Suit((Form.SOUGHT,), "What is left lies a few hops from the start."),
    "part-unknown": Suit((Form.SOUGHT,), "From the known part, the whole is a few hops away."),
    "compare-difference-unknown-more": Suit(
        (Form.SOUGHT,), "The two numbers are close, and the hops between them are the difference."
    ),
    "compare-difference-unknown-fewer": Suit(
        (Form.SOUGHT,), "Close numbers: counting the hops tells how many fewer."
    ),
}
REFUSES = refusals()


def rule(form: Form, a: int, b: int, limit: int) -> bool:
    """Whether 1, 2 or 3 are added to the larger number, taken away, or missing.

    Source: 1 to 3, from the larger number, common in teaching guidance for grade 1.
    """
    if form is Form.SOUGHT:
        return 1 <= a - b <= 3 and b >= a - b
    return b <= 3 and (form is Form.SUBTRACT or a >= b)


def reason(form: Form, a: int, b: int) -> str:
    """Why these numbers call for counting."""
    if form is Form.SOUGHT:
        return f"{a} is only {a - b} past {b}, so the hops are soon counted."
    return f"{b} is few enough to count {'on' if form is Form.ADD else 'back'}."


def jumps(form: Form, a: int, b: int) -> Walk | None:
    """Up to ten hops of 1; adding starts from the larger number."""
    sought = form is Form.SOUGHT
    size = a - b if sought else b
    if size > MAX_HOPS or (form is Form.ADD and b > a):
        return None
    sign = -1 if form is Form.SUBTRACT else 1
    word = "back" if sign < 0 else "on"
    why = f"count {word} 1"
    cause = f"{a} is close" if sought else f"{b} is few enough to count"
    moves = [Move(sign, why, f"From {{at}}, hop {word} 1 because {cause}. I land on {{to}}.")]
    again = "hop back 1 more" if sign < 0 else "hop 1 more"
    moves += [Move(sign, why, f"From {{at}}, {again}. I land on {{to}}.") for _ in range(1, size)]
    if size > 1 and not sought:
        moves[-1] = Move(sign, why, f"{moves[-1].says} That is {size} hops.")
    return Walk(b if sought else a, moves)
