"""Several sets of numbers for one story: all must have room in the same scene."""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace

from storybank import number_choice
from storybank.model import Form, Triple
from storybank.number_choice import Wish

_LEAST = 2  # A 1 would change the form of its noun, and the text is one for all sets.


@dataclass(frozen=True, slots=True)
class Numbers:
    """The numbers of one set: their limit, the triple, and the strategy that fits them."""

    limit: int
    triple: Triple
    strategy: str
    form: Form


def is_wide(wish: Wish, limits: Sequence[int]) -> bool:
    """Whether a story has room for numbers halfway from the second limit to the largest.

    Else a set to 100 would hold hardly more than 20.
    """
    return 2 * wish.room[2][1] >= limits[0] + (limits[1] if len(limits) > 1 else 0)


def choose_sets(
    wish: Wish, limits: Sequence[int], key: str, used: Collection[tuple[int, int]]
) -> tuple[Numbers, ...] | None:
    """Numbers to each of `limits` (the largest first) that a story has room for, or None.

    The largest number of each set is beyond the next smaller limit, so that the sets grow. `wish`
    holds as it is for the first set. The others take the strategy of the first where it has pairs
    so small, else another that fits; where all pairs are to regroup and none so small does, they
    take pairs as they come.
    """
    found: list[Numbers] = []
    for limit, below in zip(limits, (*limits[1:], 0), strict=True):
        taken = {*used, *(one.triple.key for one in found)}
        numbers = next(
            (
                one
                for number, other in enumerate(_wishes(wish, limit, below, found))
                if (one := _numbers(other, f"{key}/{limit}/{number}", taken)) is not None
            ),
            None,
        )
        if numbers is None:
            return None
        found.append(numbers)
    return tuple(found)


def _wishes(wish: Wish, limit: int, below: int, found: Sequence[Numbers]) -> Iterator[Wish]:
    (low_a, high_a), (low_b, high_b), (low_c, high_c) = wish.room
    room = (
        (max(_LEAST, low_a), high_a),
        (max(_LEAST, low_b), high_b),
        (max(below + 1, low_c), min(high_c, limit)),
    )
    if room[2][0] > room[2][1]:
        return
    wish = replace(wish, limit=limit, room=room)
    if not found:
        yield wish
        return
    crossings = (wish.crossing, "any") if wish.crossing == "always" else (wish.crossing,)
    for crossing in crossings:
        yield replace(wish, strategy=found[0].strategy, crossing=crossing)
        yield replace(wish, strategy=None, crossing=crossing)


def _numbers(wish: Wish, key: str, used: Collection[tuple[int, int]]) -> Numbers | None:
    supply = number_choice.supply(wish)
    triple = number_choice.choose(supply, f"{key}/numbers", used)
    if triple is None:
        return None
    name = wish.strategy or supply.strategy(triple, f"{key}/strategy")
    assert name is not None
    return Numbers(wish.limit, triple, name, supply.form(triple, name))


def shortage(limits: Sequence[int], without: Sequence[int], count: int, made: int) -> str:
    """What is said where no story has room for all sets.

    `without` are the limits that, dropped, give a story again.
    """
    sets = _joined(sorted(limits))
    if made:
        text = (
            f"{count} problems were asked for, each with numbers to {sets}, but only {made} can be "
            f"told without using three numbers twice. The largest count possible is {made}."
        )
    else:
        text = f"No story has room for numbers to {sets}."
    for limit in without:
        rest = " ".join(str(one) for one in sorted(limits) if one != limit)
        option = f"--number-sets {rest}" if " " in rest else f"--within {rest}"
        text += f" The numbers to {limit} are the trouble: without them ({option}) there are more."
    if not without:
        text += " Leaving out a single one of the sets does not help."
    return f"{text} Or choose other themes, situations or strategies, or --crossing any."


def _joined(limits: Sequence[int]) -> str:
    *first, last = (str(one) for one in limits)
    return f"{', '.join(first)} and {last}"
