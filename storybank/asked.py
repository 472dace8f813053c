"""What a teacher asks of the numbers: pairs to be told, and how many problems regroup."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from storybank import luck, situations
from storybank.errors import RequestError

_PAIR = re.compile(r"\s*(\d{1,6})\s*([+\u2212-])\s*(\d{1,6})\s*")


@dataclass(frozen=True, slots=True)
class Pair:
    """Two numbers that a teacher wants told: `a + b` or `a - b`."""

    a: int
    operation: str
    b: int

    def __str__(self) -> str:
        return f"{self.a} {self.operation} {self.b}"


def pair(text: str) -> Pair:
    """The pair written "46 + 38". Raises RequestError for any other text."""
    match = _PAIR.fullmatch(text)
    if match is None:
        raise RequestError(
            f'The pair "{text}" cannot be read. Write two whole numbers with + or - between '
            'them, such as "46 + 38" or "82 - 47".'
        )
    return Pair(int(match[1]), "+" if match[2] == "+" else "-", int(match[3]))


def situations_for(pairs: Sequence[Pair], chosen: Sequence[str], told: bool) -> tuple[str, ...]:
    """Those of the `chosen` situations that are solved by the operation of some pair.

    Raises RequestError for a pair that none of them is solved by, and, where they were `told` by
    name, for a situation without a pair.
    """
    operations = {one.operation for one in pairs}
    fitting = [name for name in chosen if situations.get(name).operation in operations]
    for one in pairs:
        if not any(situations.get(name).operation == one.operation for name in fitting):
            raise RequestError(
                f'No situation asked for is solved by "{one}": {", ".join(chosen)}. '
                f"Leave --situation out, or choose one that is solved by {one.operation}."
            )
    if told and len(fitting) < len(chosen):
        odd = ", ".join(name for name in chosen if name not in fitting)
        raise RequestError(
            f"No pair asked for can be told as {odd}. Leave that situation out, or add a pair "
            "with the other operation."
        )
    return tuple(fitting)


def crossing(text: str) -> str:
    """The wish about regrouping: always, never, any, or a percentage without its sign.

    Raises RequestError for anything else.
    """
    if text in ("always", "never", "any"):
        return text
    digits = text.removesuffix("%")
    if digits.isascii() and digits.isdigit() and int(digits) <= 100:
        return digits
    raise RequestError(
        f'--crossing is "{text}". Choose always, never, any, or a percentage from 0 to 100.'
    )


def crossings(wish: str, count: int, seed: int) -> tuple[str, ...]:
    """The wish of each problem; a percentage is kept exactly, up to rounding, over the set."""
    if not wish.isdigit():
        return (wish,) * count
    wanted = round(int(wish) * count / 100)
    regrouping = set(luck.ordered(range(count), f"{seed}/crossing", str)[:wanted])
    return tuple("always" if index in regrouping else "never" for index in range(count))
