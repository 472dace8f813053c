"""Near doubles: a known double, then 1 or 2 more or fewer (CCSS-M 1.OA.6: 6 + 7 = 6 + 6 + 1)."""

from storybank.model import Form
from storybank.strategies._numbers import has_known_double
from storybank.strategies._steps import Line
from storybank.strategies._stories import refusals
from storybank.strategies._strategy import Suit

TITLE = "Near doubles"
RANK = 2
TEACHER = "Pays when the two numbers added differ by only 1 or 2 and a double close by is known."
IN_SHORT = "use a near double"
I_CAN = "I can use a double to add two numbers that are close."
AT_HOME = (
    "When the two numbers are almost the same, we use a double that we know, and then fix the "
    "1 or 2 that it is off."
)
WORDS = {
    "double": "a number and the same number again",
    "near double": "two numbers that are almost the same",
}

SUITS = {
    "join-result-unknown": Suit((Form.ADD,), "Nearly as many come as were there."),
    "whole-unknown": Suit((Form.ADD,), "The two parts are nearly alike."),
    "separate-start-unknown": Suit((Form.ADD,), "Nearly as many left as stayed."),
}
REFUSES = refusals(
    {
        "compare-bigger-unknown-more": "The difference would be nearly as big as the smaller "
        "number, so two unlike things would be doubled.",
        "compare-bigger-unknown-fewer": "The word 'fewer' already pulls the wrong way; a near "
        "double of a difference and a number adds a second puzzle.",
    },
    taking_away=False,
)


def rule(form: Form, a: int, b: int, limit: int) -> bool:
    """Whether a and b differ by 1 or 2 and one of them, or the number between, is a known double.

    Source: doubles plus or minus 1 or 2, common in teaching guidance.
    """
    return form is Form.ADD and _doubled(a, b) is not None


def reason(form: Form, a: int, b: int) -> str:
    """Why these numbers call for a near double."""
    double = _doubled(a, b)
    return f"{a} and {b} are almost alike, and {double} + {double} is a double to know."


def highest(form: Form, a: int, b: int) -> int:
    """The double, which may be more than the sum."""
    return 2 * (_doubled(a, b) or 0)


def lines(form: Form, a: int, b: int) -> tuple[Line, ...] | None:
    """The smaller number's double if known, else the one between, else the larger one's."""
    near = _doubled(a, b)
    if form is not Form.ADD or near is None:
        return None
    small, large = sorted((a, b))
    double = Line(
        f"{near} + {near} = {2 * near}", f"I know the double {near} + {near} = {2 * near}."
    )
    if small < near < large:
        evened = f"I move 1 from {large} to {small}, because then both are {near}."
        double = double._replace(
            says=f"Now I use a double. I know that {near} + {near} = {2 * near}."
        )
        return (Line(f"{a} + {b} = {near} + {near}", evened), double)
    gap = large - small
    if near == small:
        fix = Line(
            f"{2 * near} + {gap} = {a + b}",
            f"But {large} is {gap} more than {near}, so I add {gap} to {2 * near} and get {a + b}.",
        )
    else:
        fix = Line(
            f"{2 * near} - {gap} = {a + b}",
            f"But {small} is {gap} less than {near}, so I take {gap} from {2 * near} "
            f"and get {a + b}.",
        )
    return (double, fix)


def _doubled(a: int, b: int) -> int | None:
    gap = abs(a - b)
    if gap not in (1, 2):
        return None
    small = min(a, b)
    choices = (small, small + 1, small + 2) if gap == 2 else (small, small + 1)
    return next((number for number in choices if has_known_double(number)), None)
