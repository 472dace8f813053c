"""The numbered space of different problems: which choices there are, and those of problem n.

Two problems differ where scene, thing, situation, telling or triple do, whatever the order of the
parts. Nothing of what was made is remembered: problem n has the choice at place n of a keyed
permutation of all.
"""

from array import array
from bisect import bisect_right
from dataclasses import dataclass
from operator import itemgetter

from storybank import situations
from storybank.errors import NoNumbersError
from storybank.generate._outlines import Outline, outlines
from storybank.generate._progress import Chosen
from storybank.generate._shortage import no_space
from storybank.luck import Permutation, digest, highest
from storybank.model import Triple
from storybank.model.words import Range
from storybank.number_choice import (
    BothOrders,
    Supply,
    Wish,
    bits_of,
    bits_within,
    nth,
    place_of,
    supply,
    triple_at,
)
from storybank.request import Settled
from storybank.story import Plan

TIERS = (0, 1)
_NO_PARTS: Range = (0, 1000)


@dataclass(frozen=True, slots=True)
class Choice:
    """What makes a problem another one than all others; `parts` are in rising order."""

    scene: str
    thing: str
    situation: str
    telling: str
    parts: tuple[int, int]


@dataclass(frozen=True, slots=True)
class _Fitting:
    """The triples that meet a wish, whatever their room: by tier, in both orders."""

    strategy: str | None
    supply: Supply
    tiers: tuple[BothOrders, BothOrders]


class Choices:
    """All choices of a request, in an order that its seed decides.

    Those whose numbers are of the first tier, of which there are `preferred`, come first.
    """

    def __init__(self, settled: Settled) -> None:
        """All choices are counted here, and none is listed.

        Raises NoNumbersError where there is none.
        """
        self._settled = settled
        self._fitting: dict[tuple[str, tuple[str, ...]], tuple[_Fitting, ...]] = {}
        self._outlines: list[Outline] = []
        self._triples: tuple[list[int], list[int]] = ([], [])
        self._starts = (array("Q"), array("Q"))
        known: dict[object, tuple[int, int]] = {}
        same: dict[int, int] = {}
        totals = [0, 0]
        for outline in outlines(settled):
            key = outline.situation, frozenset(map(self._rules, outline.plans))
            found = known.get(key)
            if found is None:
                one, other = self._all_triples(outline)
                found = known[key] = same.setdefault(one, one), same.setdefault(other, other)
            if not any(found):
                continue
            self._outlines.append(outline)
            for tier in TIERS:
                self._triples[tier].append(found[tier])
                self._starts[tier].append(totals[tier])
                totals[tier] += found[tier].bit_count()
        if not any(totals):
            raise NoNumbersError(no_space(settled))
        self.preferred = totals[0]
        self._orders = tuple(
            Permutation(total, f"{settled.seed}/space/{tier}") for tier, total in enumerate(totals)
        )

    def __len__(self) -> int:
        """How many different choices there are."""
        return sum(map(len, self._orders))

    def choice(self, n: int) -> Choice:
        """What makes problem n another one than all others."""
        outline, _, (small, whole) = self._at(n)
        parts = small, whole - small
        return Choice(outline.scene, outline.thing, outline.situation, outline.telling, parts)

    def chosen(self, n: int) -> Chosen:
        """All choices of problem n: what else it takes follows by luck from what it is."""
        outline, tier, (small, whole) = self._at(n)
        name = f"{outline.scene}/{outline.thing}/{outline.situation}/{outline.telling}"
        key = f"{self._settled.seed}/{name}/{small}/{whole}"
        ways = {
            plan.detail: (plan, some)
            for plan in outline.plans
            if (some := self._ways(outline, plan, tier, small, whole))
        }
        plan, fitting = ways[highest(tuple(ways), f"{key}/detail", str)]
        one, orders = highest(fitting, f"{key}/wish", lambda way: str(way[0].strategy))
        turned = orders[digest(f"{key}/order") & 1] if len(orders) > 1 else orders[0]
        triple = (
            Triple(whole - small, small, whole) if turned else Triple(small, whole - small, whole)
        )
        situation = situations.get(outline.situation)
        if situation.both_parts:
            return Chosen(outline.theme, situation, plan, triple, None, None)
        fitting_ways = one.supply.strategies(triple)
        named = [way for way in fitting_ways if one.strategy in (None, way[0])]
        strategy, form = highest(named, f"{key}/strategy", itemgetter(0))
        return Chosen(outline.theme, situation, plan, triple, strategy, form)

    def _at(self, n: int) -> tuple[Outline, int, tuple[int, int]]:
        """The outline, the tier and the triple of problem n."""
        if not 0 <= n < len(self):
            raise IndexError(f"problem {n} of {len(self)}")
        tier = int(n >= self.preferred)
        number = self._orders[tier][n - tier * self.preferred]
        at = bisect_right(self._starts[tier], number) - 1
        place = nth(self._triples[tier][at], number - self._starts[tier][at])
        return self._outlines[at], tier, triple_at(place)

    def _ways(
        self, outline: Outline, plan: Plan, tier: int, small: int, whole: int
    ) -> list[tuple[_Fitting, tuple[int, ...]]]:
        """The wishes that a triple meets in a plan, with the orders of its parts: 1 is turned."""
        a, b, (low, high) = self._bounds(outline, plan)
        if not low <= whole <= high:
            return []
        larger, place = whole - small, place_of(small, whole)
        first = a[0] <= small <= a[1] and b[0] <= larger <= b[1]
        second = a[0] <= larger <= a[1] and b[0] <= small <= b[1]
        found: list[tuple[_Fitting, tuple[int, ...]]] = []
        for fitting in self._fittings(outline.situation, plan):
            one, other = fitting.tiers[tier]
            turned = second and other >> place & 1
            if first and one >> place & 1:
                found.append((fitting, (0, 1) if turned else (0,)))
            elif turned:
                found.append((fitting, (1,)))
        return found

    def _all_triples(self, outline: Outline) -> tuple[int, int]:
        """The triples of both tiers that some plan has room for; none is of both."""
        preferred, others = 0, 0
        for plan in outline.plans:
            first, second = bits_within(self._bounds(outline, plan), self._settled.within)
            for fitting in self._fittings(outline.situation, plan):
                good, rest = fitting.tiers
                preferred |= first & good[0] | second & good[1]
                others |= first & rest[0] | second & rest[1]
        return preferred, others & ~preferred

    def _bounds(self, outline: Outline, plan: Plan) -> tuple[Range, Range, Range]:
        """The room of a plan; of all pairs of parts the whole alone counts."""
        if situations.get(outline.situation).both_parts:
            return _NO_PARTS, _NO_PARTS, plan.room[2]
        return plan.room

    def _rules(self, plan: Plan) -> tuple[object, tuple[str, ...]]:
        """All of a plan that its numbers hang on."""
        return plan.room, plan.skeleton.keywords if self._settled.diagnose else ()

    def _fittings(self, situation_id: str, plan: Plan) -> tuple[_Fitting, ...]:
        keywords = plan.skeleton.keywords if self._settled.diagnose else ()
        found = self._fitting.get((situation_id, keywords))
        if found is None:
            wished = self._settled.strategies_for[situation_id] or (None,)
            made = tuple(self._made(situation_id, keywords, one) for one in wished)
            found = self._fitting[situation_id, keywords] = made
        return found

    def _made(self, situation_id: str, keywords: tuple[str, ...], strategy: str | None) -> _Fitting:
        settled = self._settled
        limit = settled.within
        wish = Wish(
            situation=situation_id,
            strategy=strategy,
            limit=limit,
            crossing=settled.crossing,
            room=((1, limit),) * 3,
            diagnose=settled.diagnose,
            keywords=keywords,
        )
        found = supply(wish)
        return _Fitting(strategy, found, bits_of(found))
