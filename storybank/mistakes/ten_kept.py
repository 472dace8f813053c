"""Opens a ten to take the ones away and still counts it: t + 10 where the pair regroups.

From memory of classroom accounts.
"""

from storybank.mistakes._case import Case

TITLE = "Kept the opened ten"
ORDER = 41
SAYS = (
    "Kept the opened ten: used a ten of {a} to take away {ones}, but still counted it. "
    'Ask: "You opened a ten. How many tens are left to use?"'
)


def predict(case: Case) -> int | None:
    """t + 10 where taking away regroups the ones, else None."""
    return case.answer + 10 if not case.adding and case.regroups else None


def says(case: Case, wrong: int) -> str:
    """The sentence for the teacher."""
    a, b = case.pair
    return SAYS.format(a=a, ones=b % 10)
