"""Friendly number, then compensate: a bit too far, then back (N10C; Klein et al. 1998)."""

from storybank.model import Form
from storybank.strategies._numbers import passes_a_ten, up_to_ten
from storybank.strategies._steps import Move, Walk
from storybank.strategies._stories import refusals
from storybank.strategies._strategy import Suit

TITLE = "Friendly number, then compensate"
RANK = 3
TEACHER = (
    "Pays when the number added, taken away or missing is 1 or 2 below a ten "
    "and the ones would make it cross a ten."
)
IN_SHORT = "friendly number, then fix it"
I_CAN = "I can jump to a friendly number and then fix it."
AT_HOME = (
    "We jump by a number that is easy to use, because it ends in 0. That jump is a little too "
    "long, so we fix it with a short jump the other way."
)
WORDS = {
    "friendly number": "a number close by that ends in 0",
    "fix": "make right what is a little off",
    "jump": "a move along the number line",
}
FARTHEST = 4

SUITS = {
    "join-result-unknown": Suit(
        (Form.ADD,), "Something happens step by step: too many come, then a few go back."
    ),
    "separate-result-unknown": Suit(
        (Form.SUBTRACT,), "Something happens step by step: too many go, then a few come back."
    ),
    "join-change-unknown": Suit(
        (Form.SOUGHT,), "From start to end the tens go a little too far, and the child comes back."
    ),
    "separate-change-unknown": Suit(
        (Form.SOUGHT,), "From what is left, tens go just past the start, and the child comes back."
    ),
}
REFUSES = refusals(
    {
        "whole-unknown": "Nobody adds too many and gives some back: both parts are there at once. "
        "Give and take moves ones between the parts instead.",
        "separate-start-unknown": "The start is rebuilt from what left; overshooting it would "
        "make a start that never was.",
        "join-start-unknown": "The story runs forward and the work runs backward; a fix in the "
        "other direction on top of that loses most children.",
        "part-unknown": "The whole is fixed and nothing is added to it, so a jump past the whole "
        "has no meaning in the story.",
        "compare-difference-unknown-more": "Nothing changes in a comparison, so nothing can be "
        "given back. Same difference slides both numbers.",
        "compare-difference-unknown-fewer": "Going past the bigger number and back says nothing "
        "of how many fewer there are. Slide both numbers instead.",
        "compare-bigger-unknown-more": "The bigger number is no heap that grows; giving back "
        "would take from somebody who got nothing.",
        "compare-bigger-unknown-fewer": "The word 'fewer' already points the wrong way, and the "
        "fix would be a second turn.",
        "compare-smaller-unknown-more": "The word 'more' points the wrong way; taking too many "
        "and giving back adds a third change of direction.",
        "compare-smaller-unknown-fewer": "Nobody takes anything away, so there is nobody to give "
        "the extra ones back to.",
    }
)


def rule(form: Form, a: int, b: int, limit: int) -> bool:
    """Whether b (or the sought difference) is 1 or 2 below a ten and compensating pays.

    74 - 31 never qualifies: 31 is near 30 but above it, so nothing is given back.
    Source: ones digit 8 or 9, N10C (Klein, Beishuizen & Treffers 1998, from memory); the other
    bounds are our own design.
    """
    if form is Form.SOUGHT:
        a, b = b, a - b
    if a < 11 or b % 10 < 8:
        return False
    if form is Form.SUBTRACT:
        return a % 10 < b % 10 and a - b >= 15
    return passes_a_ten(Form.ADD, a, b) and a % 10 < 8 and a + b + up_to_ten(b) <= limit


def reason(form: Form, a: int, b: int) -> str:
    """Why these numbers call for compensating."""
    size = a - b if form is Form.SOUGHT else b
    near = up_to_ten(size)
    if form is Form.SOUGHT:
        return f"Jumping {size + near} from {b} goes just {near} past {a}."
    return f"{b} is only {near} below {b + near}, and the ones would cross a ten."


def jumps(form: Form, a: int, b: int) -> Walk | None:
    """A jump at most 4 too far, to a ten, and the jump back; never for a number above its ten.

    Adding, the addend that is closer to its ten has to be the second.
    """
    sought = form is Form.SOUGHT
    size = a - b if sought else b
    near = up_to_ten(size)
    if not 1 <= near <= FARTHEST or (form is Form.ADD and 0 < up_to_ten(a) < near):
        return None
    far = size + near
    if sought:
        return Walk(
            b,
            (
                Move(far, f"just past {a}", f"From {{at}}, jump {far} because that takes me just "
                     f"past {a}. I land on {{to}}."),
                Move(-near, f"{near} too far", f"I jumped {near} too far, so I jump back {near} "
                     "from {at} and land on {to}."),
            ),
        )  # fmt: skip
    if form is Form.ADD:
        return Walk(
            a,
            (
                Move(far, f"{b} is close to {far}", f"From {{at}}, jump {far} because {b} is "
                     f"{near} less than {far}. I land on {{to}}."),
                Move(-near, f"give back {near}", f"I jumped {near} too far, so I jump back {near} "
                     "from {at} and land on {to}."),
            ),
        )  # fmt: skip
    return Walk(
        a,
        (
            Move(-far, f"{b} is close to {far}", f"From {{at}}, jump back {far} because {b} is "
                 f"{near} less than {far}. I land on {{to}}."),
            Move(near, f"give back {near}", f"I took away {near} too many, so I jump forward "
                 f"{near} from {{at}} and land on {{to}}."),
        ),
    )  # fmt: skip
