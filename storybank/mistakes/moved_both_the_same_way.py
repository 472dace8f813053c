"""Give and take: makes one addend friendly and moves the other the same way too.

The formula t + 2k, with k how far the friendly addend moved, is our own design.
"""

from storybank.mistakes._case import Case

TITLE = "Moved both numbers the same way"
ORDER = 13
SAYS = (
    "Moved both numbers the same way: made {number} into {friendly} and {other} into {moved}. "
    'Ask: "{number} got {step} more. Who gave the {step}?"'
)
_DOWN = SAYS.replace(
    "got {step} more. Who gave the {step}?", "gave {step} away. Who got the {step}?"
)


def predict(case: Case) -> int | None:
    """t + 2k for give-and-take, else None."""
    if case.strategy != "give-and-take":
        return None
    number, friendly, _ = case.taken
    return case.answer + 2 * (friendly - number)


def says(case: Case, wrong: int) -> str:
    """The sentence for the teacher."""
    number, friendly, other = case.taken
    step = friendly - number
    return (SAYS if step > 0 else _DOWN).format(
        number=number, friendly=friendly, other=other, moved=other + step, step=abs(step)
    )
