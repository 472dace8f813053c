"""Adds tens and ones and writes the two sums next to each other: 28 + 36 = 514.

From memory of classroom accounts. Only for two-digit numbers whose ones make a new ten; without
one the same writing gives the right answer.
"""

from storybank.mistakes._case import Case

TITLE = "Wrote the sums side by side"
ORDER = 42
SAYS = (
    "Wrote the sums side by side: {tens} for the tens, then {ones} for the ones. "
    'Ask: "Is {wrong} a number you would expect for {a} and {b}?"'
)


def predict(case: Case) -> int | None:
    """The two sums written as one numeral where two-digit numbers regroup, else None."""
    a, b = case.pair
    if not (case.adding and case.regroups and 10 <= a <= 99 and 10 <= b <= 99):
        return None
    return 100 * (a // 10 + b // 10) + a % 10 + b % 10


def says(case: Case, wrong: int) -> str:
    """The sentence for the teacher."""
    a, b = case.pair
    return SAYS.format(tens=a // 10 + b // 10, ones=a % 10 + b % 10, wrong=wrong, a=a, b=b)
