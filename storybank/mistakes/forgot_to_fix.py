"""Jumps to the friendly number and leaves out the jump that gives the overshoot back.

The formula t - f, with f the signed fix jump, is from memory of classroom accounts.
"""

from storybank.mistakes._case import Case

TITLE = "Forgot to fix"
ORDER = 10
SAYS = (
    "Forgot to fix: jumped {friendly} and stopped, without going {fix} {way}. "
    'Ask: "Is a jump of {friendly} just right, or is it too much?"'
)


def predict(case: Case) -> int | None:
    """t - f where the solution compensates, else None."""
    return case.answer - case.fix.by if case.fix else None


def says(case: Case, wrong: int) -> str:
    """The sentence for the teacher."""
    jumps = case.solution.jumps
    fix = jumps[-1].by
    return SAYS.format(
        friendly=abs(jumps[-1].start - jumps[0].start),
        fix=abs(fix),
        way="back" if fix < 0 else "forward",
    )
