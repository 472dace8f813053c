"""Jumps to the friendly number, then fixes the overshoot in the direction of the big jump.

The formula t - 2f, with f the signed fix jump, is from memory of classroom accounts.
"""

from storybank.mistakes._case import Case

TITLE = "Fixed the wrong way"
ORDER = 11
SAYS = (
    "Fixed the wrong way: after the jump of {friendly}, went {fix} {wrong_way} instead of "
    '{fix} {way}. Ask: "Did {friendly} go too far or not far enough?"'
)


def predict(case: Case) -> int | None:
    """t - 2f where the solution compensates, else None."""
    return case.answer - 2 * case.fix.by if case.fix else None


def says(case: Case, wrong: int) -> str:
    """The sentence for the teacher."""
    jumps = case.solution.jumps
    fix = jumps[-1].by
    return SAYS.format(
        friendly=abs(jumps[-1].start - jumps[0].start),
        fix=abs(fix),
        way="back" if fix < 0 else "forward",
        wrong_way="forward" if fix < 0 else "back",
    )
