"""Answers with the larger of the numbers told.

Cummins, Kintsch, Reusser & Weimer 1988: a comparison misread as plain telling makes a given
number look like the answer.
"""

from storybank.mistakes._case import Case

TITLE = "Gave a number from the story"
ORDER = 31
SAYS = (
    "Gave a number from the story: {wrong} is told, so it cannot be what is asked. "
    'Ask: "What do we know already, and what do we want to find out?"'
)


def predict(case: Case) -> int | None:
    """The larger given number in a compare or part-unknown story, else None."""
    if case.situation.family == "compare" or case.situation.unknown == "part2":
        return max(case.given)
    return None


def says(case: Case, wrong: int) -> str:
    """The sentence for the teacher."""
    return SAYS.format(wrong=wrong)
