"""What a teacher asks of the numbers: pairs, units, and how many problems regroup."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from storybank import luck, situations, themes
from storybank.cleaning import clean_text
from storybank.errors import RequestError, unknown_value
from storybank.model.measures import KINDS
from storybank.themes import selection

ANY_KIND = "any"
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
    if digits.isascii() and digits.isdigit() and len(digits) <= 3 and int(digits) <= 100:
        return digits
    raise RequestError(
        f'--crossing is "{clean_text(text, 60)[0]}". Choose always, never, any, or a '
        "percentage from 0 to 100."
    )


def crossings(wish: str, count: int, seed: int) -> tuple[str, ...]:
    """The wish of each problem; a percentage is kept exactly, up to rounding, over the set."""
    if not wish.isdigit():
        return (wish,) * count
    wanted = round(int(wish) * count / 100)
    regrouping = set(luck.ordered(range(count), f"{seed}/crossing", str)[:wanted])
    return tuple("always" if index in regrouping else "never" for index in range(count))


def units(named: Sequence[str]) -> tuple[str, ...]:
    """The kinds of quantity, each once, in our order; `any` stands for all.

    Raises RequestError for an unknown one.
    """
    for name in named:
        if name not in (*KINDS, ANY_KIND):
            raise RequestError(unknown_value("kind of unit", name, (*KINDS, ANY_KIND)))
    return tuple(one for one in KINDS if one in named or ANY_KIND in named)


def measured(packs: Sequence[str], without: Sequence[str], kinds: Sequence[str]) -> None:
    """Raises RequestError where nothing in the packs is measured in units of these kinds."""
    there = {
        one.kind
        for name in packs
        for scene in selection.without(themes.get(name), frozenset(without)).scenes.values()
        for one in scene.measured.values()
    }
    if there.isdisjoint(kinds):
        measures = ", ".join(kind for kind in KINDS if kind in there) or "nothing"
        off = f" without {', '.join(without)}" if without else ""
        raise RequestError(
            f"No theme asked for ({', '.join(packs)}) tells of {', '.join(kinds)}{off}; they "
            f"measure {measures}. Ask for another kind with --units, or for another theme."
        )


def measurable(chosen: Sequence[str], told: Sequence[str]) -> tuple[str, ...]:
    """Those of the situations that are told of amounts: all pairs of parts are asked of things.

    Raises RequestError where such a one was `told` by name.
    """
    both = [name for name in chosen if situations.get(name).both_parts]
    if both and told:
        raise RequestError(
            f"{both[0]} is told of things to count only, and --units asks for amounts. "
            "Leave out that situation, or --units."
        )
    return tuple(name for name in chosen if name not in both)
