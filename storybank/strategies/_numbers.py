"""Facts about whole numbers that the rules of the strategies ask for."""

from storybank.model import Form


def ones(number: int) -> int:
    """The ones digit of `number`."""
    return number % 10


def up_to_ten(number: int) -> int:
    """How far it is from `number` up to the next ten; 0 for a ten."""
    return -number % 10


def regroups(form: Form, a: int, b: int) -> bool:
    """Whether the ones of a + b make a ten, or those of a - b need one.

    Source: common classroom meaning of regrouping (CCSS-M 2.NBT.7: compose or decompose a ten).
    """
    return a % 10 + b % 10 >= 10 if form is Form.ADD else a % 10 < b % 10


def passes_a_ten(form: Form, a: int, b: int) -> bool:
    """Whether the ones of `b`, added to or taken from `a`, go beyond a ten and not just to it."""
    return a % 10 + b % 10 > 10 if form is Form.ADD else 0 < a % 10 < b % 10


def has_known_double(number: int) -> bool:
    """Whether a child can be expected to know number + number by heart.

    Up to 10 + 10 (CCSS-M 2.OA.2), and doubles of multiples of 5 (our own design).
    """
    return number <= 10 or number % 5 == 0


def places(number: int) -> tuple[int, ...]:
    """The hundreds, tens and ones of `number` as numbers, without zeros: 305 is 300 and 5."""
    parts = (number - number % 100, number % 100 - number % 10, number % 10)
    return tuple(part for part in parts if part)


def place_name(part: int) -> str:
    """The name of the place that `part`, one of `places`, stands in."""
    return "hundreds" if part >= 100 else "tens" if part >= 10 else "ones"
