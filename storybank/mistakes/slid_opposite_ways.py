"""Same difference: slides the second number up and the first one down, as give and take does.

The formula is t - 2m, with m how far the second number moved. Teaching guidance for constant
difference warns of carrying over the rule of adding.
"""

from storybank.mistakes._case import Case

TITLE = "Slid the numbers opposite ways"
ORDER = 12
SAYS = (
    "Slid the numbers opposite ways: made {b} into {friendly} but moved {a} by {step} the other "
    'way. Ask: "If {b} slides up, which way must {a} go to keep the space between them?"'
)


def predict(case: Case) -> int | None:
    """t - 2m for same-difference, else None."""
    if case.strategy != "same-difference":
        return None
    return case.answer - 2 * (case.moved[1] - case.pair[1])


def says(case: Case, wrong: int) -> str:
    """The sentence for the teacher."""
    (a, b), (_, friendly) = case.pair, case.moved
    text = SAYS if friendly > b else SAYS.replace("slides up", "slides down")
    return text.format(a=a, b=b, friendly=friendly, step=abs(friendly - b))
