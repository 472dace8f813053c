"""Makes one number friendly and leaves the other as it was.

Same difference gives t - m, give and take t + k, with m and k how far the number moved; our
own design.
"""

from storybank.mistakes._case import Case

TITLE = "Moved only one number"
ORDER = 14
SAYS = (
    "Moved only one number: made {number} into {friendly} and left {other} as it was. "
    'Ask: "You changed {number}. What has to happen to {other} now?"'
)


def predict(case: Case) -> int | None:
    """t - m for same-difference, t + k for give-and-take, else None."""
    if case.strategy == "same-difference":
        return case.answer - (case.moved[1] - case.pair[1])
    if case.strategy == "give-and-take":
        number, friendly, _ = case.taken
        return case.answer + friendly - number
    return None


def says(case: Case, wrong: int) -> str:
    """The sentence for the teacher."""
    if case.strategy == "give-and-take":
        number, friendly, other = case.taken
    else:
        other, number = case.pair
        friendly = case.moved[1]
    return SAYS.format(number=number, friendly=friendly, other=other)
