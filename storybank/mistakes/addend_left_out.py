"""Adds all but one of three or four addends: the last, which is met after a sum is found.

From memory of classroom accounts.
"""

from storybank.mistakes._case import Case

TITLE = "Left an addend out"
ORDER = 6
MANY_PARTS = True
SAYS = (
    "Left an addend out: {wrong} is the sum without the {part}. "
    'Ask: "Point to every number in the story. Which of them are in your sum?"'
)


def predict(case: Case) -> int | None:
    """The sum of all addends but the last one told; None for two."""
    return case.answer - case.parts[-1] if case.parts else None


def says(case: Case, wrong: int) -> str:
    """The sentence for the teacher."""
    return SAYS.format(wrong=wrong, part=case.parts[-1])
