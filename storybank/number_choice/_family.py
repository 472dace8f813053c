"""Numbers for a fact family: three whose four stories all meet their own wishes."""

from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache

from storybank import families
from storybank.number_choice._entries import PART_FIRST, PART_SECOND, packed, triple_of
from storybank.number_choice._supply import Supply, distinct_count, supply
from storybank.number_choice._wish import Wish

Wishes = tuple[Wish, Wish, Wish, Wish]
_LIMITS = (20, 100, 1000)


class FamilySupply(Supply):
    """The triples, in the roles of the first story, that meet the wishes of all four stories.

    The two parts differ, since equal ones have two equations only. A triple is as good as its
    worst story.
    """

    def __init__(self, shape: str, wishes: Wishes) -> None:
        """A supply for stories of a shape of `families.SHAPES`, with the wish of each."""
        super().__init__(wishes[0])
        self._shape = shape
        self._stories = tuple(supply(wish) for wish in wishes)

    def _has(self, ten: int, tier: int) -> bool:
        return any(place == tier for _, place in self._found(ten))

    def _found(self, ten: int) -> Iterator[tuple[int, int]]:
        for entry, _ in super()._found(ten):
            first, _ = triple_of(entry, 0)
            part = min(first.a, first.b)
            other = first.c - part
            if part == other:
                continue
            found = (self._worst(part, other), self._worst(other, part))
            orders = zip((PART_FIRST, PART_SECOND), found, strict=True)
            tiers = [tier for tier in found if tier is not None]
            some = sum(order for order, tier in orders if tier is not None)
            if some:
                yield packed(first.c, part, some), max(tiers)

    def _worst(self, first: int, second: int) -> int | None:
        """The tier of the worst of the four stories; None where one of them cannot be."""
        worst = 0
        told = families.triples(self._shape, first, second)
        for one, (_, triple) in zip(self._stories, told, strict=True):
            tier = one.tier(triple)
            if tier is None:
                return None
            worst = max(worst, tier)
        return worst


@lru_cache(maxsize=256)
def family_supply(shape: str, wishes: Wishes) -> FamilySupply:
    """The supply of that shape and those wishes; the same object while it is remembered."""
    return FamilySupply(shape, wishes)


def wishes_for(shape: str, wish: Wish) -> Wishes:
    """The wish of each of the four stories of a shape: as `wish`, each in its own situation."""
    first, second, third, fourth = (
        replace(wish, situation=situation) for situation, _ in families.triples(shape, 1, 2)
    )
    return first, second, third, fourth


def explain_family_shortage(shape: str, wish: Wish) -> str:
    """How many fact families of a shape there are for a wish, and what gives more of them."""
    left = _count(shape, wish)
    unequal = sum((whole - 1) // 2 for whole in range(2, wish.limit + 1))
    fits = wish.strategy or "some strategy"
    plain = Wish(wish.situation, wish.strategy, wish.limit)
    stages = [
        f"{unequal:,} pairs of unequal parts within {wish.limit}",
        f"{_count(shape, plain):,} where {fits} fits all four stories",
    ]
    if wish.crossing != "any":
        plain = replace(plain, crossing=wish.crossing)
        word = "regroup" if wish.crossing == "always" else "do not regroup"
        stages.append(f"{_count(shape, plain):,} that {word}")
    if wish.diagnose:
        stages.append(f"{left:,} whose known mistakes can be told apart in all four")
    wider = next((one for one in _LIMITS if one > wish.limit), wish.limit)
    advice = [
        f"{words} there are {more:,}."
        for words, other in (
            (f"With --within {wider}", replace(wish, limit=wider)),
            ("With --strategy any", replace(wish, strategy=None)),
            ("With --crossing any", replace(wish, crossing="any")),
            ("Without --diagnose", replace(wish, diagnose=False)),
        )
        if other != wish and (more := _count(shape, other)) > left
    ]
    told = " and ".join(families.SHAPES[shape])
    return " ".join((f"Families told as {told}: {', '.join(stages)}.", *advice))


def _count(shape: str, wish: Wish) -> int:
    return distinct_count(family_supply(shape, wishes_for(shape, wish)))
