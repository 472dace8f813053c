"""Stops before the last jump, or does not count it.

The formula is t minus the last signed jump. Where the solution compensates this *is* forgetting
to fix, and where there is but one jump nothing would be done at all; our own design.
"""

from storybank.mistakes._case import Case

TITLE = "Left out the last jump"
ORDER = 21
SAYS = (
    "Left out the last jump: the jump of {size}, from {start} to {to}, is missing. "
    'Ask: "Show me each jump. Is every one of them counted?"'
)


def predict(case: Case) -> int | None:
    """t - last jump where at least two jumps go one way, else None."""
    jumps = case.solution.jumps
    if len(jumps) < 2 or case.fix:
        return None
    return case.answer - jumps[-1].by


def says(case: Case, wrong: int) -> str:
    """The sentence for the teacher."""
    last = case.solution.jumps[-1]
    return SAYS.format(size=abs(last.by), start=last.start, to=last.to)
