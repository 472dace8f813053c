"""Takes the smaller digit from the larger in each place, whichever number it stands in.

National Research Council 2001, Adding It Up; Resnick 1984. It gives the right answer for every
pair whose digits need no regrouping, so there it predicts nothing.
"""

from storybank.mistakes._case import Case

TITLE = "Took the smaller digit from the larger"
ORDER = 40
SAYS = (
    "Took the smaller digit from the larger: in the {place} place did {high} - {low} where "
    '{low} - {high} was needed. Ask: "{a} has {low} in the {place} place. '
    'How can you take away {high}?"'
)
_PLACES = ("ones", "tens", "hundreds", "thousands")


def _digits(a: int, b: int) -> list[tuple[int, int]]:
    pairs = []
    while a or b:
        pairs.append((a % 10, b % 10))
        a, b = a // 10, b // 10
    return pairs


def predict(case: Case) -> int | None:
    """The sum over places of the digit differences, where some digit of b is larger; else None."""
    if case.adding:
        return None
    wrong, place, some_larger = 0, 1, False
    a, b = case.pair
    while a or b:
        difference = a % 10 - b % 10
        some_larger = some_larger or difference < 0
        wrong += place * abs(difference)
        a, b, place = a // 10, b // 10, place * 10
    return wrong if some_larger else None


def says(case: Case, wrong: int) -> str:
    """The sentence for the teacher."""
    a, b = case.pair
    for place, (low, high) in zip(_PLACES, _digits(a, b), strict=False):
        if low < high:
            return SAYS.format(place=place, low=low, high=high, a=a)
    raise ValueError(f"{a} - {b} needs no regrouping")
