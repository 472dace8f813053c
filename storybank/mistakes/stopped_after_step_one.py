"""Solves the first of two steps and gives its result: the number between the steps.

From memory of classroom accounts.
"""

from storybank.mistakes._case import Case

TITLE = "Stopped after the first step"
ORDER = 5
SAYS = (
    "Stopped after the first step: {wrong} is the number between the steps. "
    'Ask: "What does your {wrong} tell us? Read the question again. What is still to find?"'
)


def predict(case: Case) -> int | None:
    """The number between the steps; None in a problem of one step."""
    return case.hidden


def says(case: Case, wrong: int) -> str:
    """The sentence for the teacher."""
    return SAYS.format(wrong=wrong)
