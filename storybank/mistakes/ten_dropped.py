"""Adds the ones and drops the new ten they make: t - 10 where the pair regroups.

From memory of classroom accounts.
"""

from storybank.mistakes._case import Case

TITLE = "Dropped the new ten"
ORDER = 41
MANY_PARTS = True
SAYS = (
    "Dropped the new ten: {digits} make {ones}, but its ten was not counted. "
    'Ask: "How many tens are in {ones}? Where are they in your answer?"'
)


def predict(case: Case) -> int | None:
    """t - 10 where adding regroups the ones, else None."""
    if case.parts:
        return case.answer - 10 if sum(_ones(case)) >= 10 else None
    return case.answer - 10 if case.adding and case.regroups else None


def says(case: Case, wrong: int) -> str:
    """The sentence for the teacher."""
    ones = _ones(case)
    return SAYS.format(digits=" and ".join(map(str, ones)), ones=sum(ones))


def _ones(case: Case) -> tuple[int, ...]:
    return tuple(number % 10 for number in case.parts or case.pair)
