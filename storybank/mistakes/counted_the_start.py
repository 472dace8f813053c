"""Counts by ones and says the starting number as the first count.

One too few when counting on, one too many when counting back or up to a goal. Described in open
textbooks for teachers of early arithmetic.
"""

from storybank.mistakes._case import Case
from storybank.model import Form

TITLE = "Counted the start"
ORDER = 20
SAYS = (
    "Counted the start: said {start} as the first count. "
    'Ask: "You begin on {start}. Where are you after one hop?"'
)


def predict(case: Case) -> int | None:
    """t - 1 on, t + 1 back or up to a goal, where every jump is a hop by one; else None."""
    jumps = case.solution.jumps
    if not jumps or any(abs(jump.by) != 1 for jump in jumps):
        return None
    return case.answer - 1 if case.form is Form.ADD else case.answer + 1


def says(case: Case, wrong: int) -> str:
    """The sentence for the teacher."""
    return SAYS.format(start=case.solution.jumps[0].start)
