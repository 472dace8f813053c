"""Which situations make two steps, one after the other; each pair refused has its own reason."""

from collections.abc import Sequence

from storybank import situations
from storybank.errors import RequestError
from storybank.model import Situation

FIRST = ("join-result-unknown", "separate-result-unknown", "whole-unknown")
"""A first step gives a result or a whole; the second goes on from it."""
HARD = {
    "join-start-unknown": "a child works it backward from the end, while the number between the "
    "steps lies at the front",
    "separate-start-unknown": "what is taken away has to be put back in thought, and that from a "
    "number that is not told",
    "compare-bigger-unknown-fewer": 'its "fewer" asks to add, which is enough to see through in '
    "a story of one step",
    "compare-smaller-unknown-more": 'its "more" asks to take away, which is enough to see through '
    "in a story of one step",
}
"""The four subtypes first mastered in grade 2, each with why it is no step of two.

Source: the OA Progression keeps two-step problems of grade 2 clear of the most difficult
subtypes (from memory).
"""
_NO_FIRST = {
    "join-change-unknown": "it tells how the first amount ends, so nothing is left between the "
    "steps but a change",
    "separate-change-unknown": "it tells how much is there in the end, so the second step could "
    "begin without it",
    "part-unknown": "it tells the whole, so the number between the steps would be only a part of "
    "what the story already tells",
    "both-parts-unknown": "it has many answers, and a second step needs a single number to go on "
    "from",
    "compare-difference-unknown-more": "it gives a difference, which nobody holds and which a "
    "second step cannot change",
    "compare-difference-unknown-fewer": "it gives how many fewer there are, which nobody holds "
    "and which a second step cannot change",
    "compare-bigger-unknown-more": "its amount belongs to the second of two people, and a further "
    "step would need a third",
    "compare-smaller-unknown-fewer": "its amount belongs to somebody with fewer things, whom a "
    "further step would have to set beside a third",
}
_NO_SECOND = {
    "both-parts-unknown": "it asks for every pair of parts, which a child lists and does not work "
    "out from a number between steps",
}


def thens() -> tuple[str, ...]:
    """The situations that can be a second step, by grade and id."""
    shut = {*HARD, *_NO_SECOND}
    return tuple(one.id for one in situations.in_grade_order() if one.id not in shut)


def refusal(first: str, then: str) -> str | None:
    """Why the pair makes no problem of two steps; None where it makes one.

    Raises RequestError for an unknown situation.
    """
    reasons = [
        f"{situation.id} cannot be the {place} step: {why}."
        for situation, place, why in (
            (situations.get(first), "first", _why_not_first(first)),
            (situations.get(then), "second", HARD.get(then) or _NO_SECOND.get(then)),
        )
        if why
    ]
    return " ".join(reasons) or None


def _why_not_first(first: str) -> str | None:
    return None if first in FIRST else HARD.get(first) or _NO_FIRST[first]


def pairs(firsts: Sequence[str], seconds: Sequence[str]) -> tuple[tuple[str, str], ...]:
    """Every pair of the situations asked for; all there are where none is named.

    Raises RequestError, with the reason and the valid choices, for a pair that is refused.
    """
    found = []
    for first in firsts or FIRST:
        for then in seconds or thens():
            why = refusal(first, then)
            if why:
                raise RequestError(
                    f'Two steps "{first}", then "{then}", cannot be told. {why} Choose the first '
                    f"step from: {', '.join(FIRST)}; the second, with --then, from: "
                    f"{', '.join(thens())}."
                )
            found.append((first, then))
    return tuple(found)


def standards(first: Situation, then: Situation, largest: int) -> tuple[str, ...]:
    """The CCSS-M codes practised by these two steps, whose largest number is `largest`.

    Source: CCSS-M 2.OA.1 (one- and two-step word problems within 100), 2.OA.2 (within 20),
    2.NBT.5 (within 100).
    """
    assert first.id in FIRST and then.id not in HARD
    return ("2.OA.1", "2.OA.2" if largest <= 20 else "2.NBT.5")
