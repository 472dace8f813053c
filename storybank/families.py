"""Fact families: which situations tell the four equations of three numbers, and what is asked."""

from collections.abc import Mapping, Sequence

from storybank import situations, strategies
from storybank.errors import RequestError
from storybank.model import Triple

STORIES = 4
"""A + B = ?, B + A = ?, C - A = ?, C - B = ? (CCSS-M 1.OA.3, 1.OA.4 and 1.OA.6)."""
SHAPES: Mapping[str, tuple[str, str]] = {
    "change": ("join-result-unknown", "separate-result-unknown"),
    "parts": ("whole-unknown", "part-unknown"),
}
"""The situations of the two additions and of the two subtractions of one family, by its shape."""


def triples(shape: str, first: int, second: int) -> tuple[tuple[str, Triple], ...]:
    """The situation and the numbers in its roles of each of the four stories, in order.

    Their equations to solve are first + second, second + first, and the whole less `first` and
    less `second`.
    """
    adding, taking = SHAPES[shape]
    whole = first + second
    return (
        (adding, Triple(first, second, whole)),
        (adding, Triple(second, first, whole)),
        (taking, _without(taking, first, second)),
        (taking, _without(taking, second, first)),
    )


def _without(situation_id: str, given: int, answer: int) -> Triple:
    """The triple of a story that tells the whole and `given`, and asks for `answer`."""
    situation = situations.get(situation_id)
    parts = (given, answer) if situation.unknown == situation.roles[1] else (answer, given)
    return Triple(*parts, given + answer)


def check(count: int, pairs: Sequence[object]) -> None:
    """Nothing, if so many stories can be fact families. Raises RequestError otherwise."""
    if pairs:
        raise RequestError(
            f'The pair "{pairs[0]}" and fact families were both asked for. A family chooses its '
            "own three numbers: leave out --pair, or leave out --fact-families."
        )
    if count % STORIES:
        below = count - count % STORIES
        near = f"{below} or {below + STORIES}" if below else f"{STORIES}"
        raise RequestError(
            f"--count is {count}, and it counts stories: each fact family is told in {STORIES}. "
            f"Choose a multiple of {STORIES}, such as {near}."
        )


def situations_for(chosen: Sequence[str], told: bool) -> tuple[str, ...]:
    """Those of the `chosen` situations that tell families, whole shapes only.

    Raises RequestError where they were `told` by name and one of them tells none.
    """
    kept = [name for pair in SHAPES.values() if set(pair) <= set(chosen) for name in pair]
    odd = [name for name in chosen if name not in kept]
    if told and odd:
        pairs = "; ".join(" and ".join(pair) for pair in SHAPES.values())
        raise RequestError(
            f"The situation {odd[0]} tells no fact family by itself. Stories of one family are "
            f"told as one of these pairs: {pairs}. Name both of a pair, or leave --situation out."
        )
    return tuple(name for name in chosen if name in kept)


def strategies_for(
    found: Mapping[str, tuple[str, ...]], named: Sequence[str]
) -> dict[str, tuple[str, ...]]:
    """Of the strategies `found` for each situation those that suit all four stories of a shape.

    An empty tuple stands for any. Raises RequestError for a strategy of the `named` ones that
    suits no shape: count-up, for one, is for subtraction only.
    """
    kept: dict[str, tuple[str, ...]] = {}
    for adding, taking in SHAPES.values():
        if adding in found and taking in found:
            common = tuple(one for one in found[adding] if one in found[taking])
            if common or not found[adding]:
                kept[adding] = kept[taking] = common
    if any(found.values()) or not found:
        suiting = {one for names in kept.values() for one in names}
        odd = [one for one in named if one not in suiting]
        if odd:
            raise RequestError(
                f"The strategy {odd[0]} does not suit all four stories of a fact family, two of "
                f"which add and two take away. Strategies that do: {', '.join(_suiting())}, or any."
            )
    return kept


def _suiting() -> list[str]:
    return [
        one.id
        for one in strategies.by_rank()
        if any(
            all(one.suit(situations.get(name)) is not None for name in pair)
            for pair in SHAPES.values()
        )
    ]
