"""Jumps up to the goal and gives the number landed on instead of the sum of the jumps.

Our own design.
"""

from storybank.mistakes._case import Case

TITLE = "Gave the landing, not the jumps"
ORDER = 22
SAYS = (
    "Gave the landing, not the jumps: jumped to {wrong} and wrote it down. "
    'Ask: "You got to {wrong}. How far is it from {start} to {wrong}?"'
)


def predict(case: Case) -> int | None:
    """The whole, C, where the answer is the sum of the jumps; else None."""
    return case.triple.c if case.solution.answer_is == "sum of jumps" else None


def says(case: Case, wrong: int) -> str:
    """The sentence for the teacher."""
    return SAYS.format(wrong=wrong, start=case.solution.start)
