"""The numbered space of different problems: which choices there are, and those of problem n.

Two problems differ where scene, thing, situation, telling or triple do, whatever the order of the
parts. Nothing of what was made is remembered: problem n has the choice at place n of a keyed
permutation of all.
"""

from array import array
from bisect import bisect_right
from collections.abc import Iterator
from dataclasses import dataclass

from storybank import number_choice, situations
from storybank.generate._outlines import Outline, outlines
from storybank.generate._progress import Chosen
from storybank.luck import Permutation, digest, highest
from storybank.model import Triple
from storybank.number_choice import BothOrders, Supply, Wish
from storybank.request import Settled
from storybank.story import Plan

TIERS = (0, 1)


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
        """All choices are counted here, and none is listed."""
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
        place = number_choice.place_of(small, whole)
        plans = [plan for plan in outline.plans if any(self._ways(outline, plan, tier, place))]
        plan = highest(plans, f"{key}/detail", lambda one: one.detail)
        ways = list(self._ways(outline, plan, tier, place))
        fitting, orders = highest(ways, f"{key}/wish", lambda way: str(way[0].strategy))
        turned = orders[digest(f"{key}/order") % len(orders)]
        parts = (whole - small, small) if turned else (small, whole - small)
        triple = Triple(*parts, whole)
        situation = situations.get(outline.situation)
        if situation.both_parts:
            return Chosen(outline.theme, situation, plan, triple, None, None)
        strategy = fitting.strategy or fitting.supply.strategy(triple, f"{key}/strategy")
        form = fitting.supply.form(triple, strategy)
        return Chosen(outline.theme, situation, plan, triple, strategy, form)

    def _at(self, n: int) -> tuple[Outline, int, tuple[int, int]]:
        """The outline, the tier and the triple of problem n."""
        if not 0 <= n < len(self):
            raise IndexError(f"problem {n} of {len(self)}")
        tier = int(n >= self.preferred)
        number = self._orders[tier][n - tier * self.preferred]
        at = bisect_right(self._starts[tier], number) - 1
        place = number_choice.nth(self._triples[tier][at], number - self._starts[tier][at])
        return self._outlines[at], tier, number_choice.triple_at(place)

    def _ways(
        self, outline: Outline, plan: Plan, tier: int, place: int
    ) -> Iterator[tuple[_Fitting, tuple[int, ...]]]:
        """The wishes that the triple at a place meets in a plan, with the orders of its parts."""
        room = self._room(outline, plan)
        for fitting in self._fittings(outline.situation, plan):
            both = zip(room, fitting.tiers[tier], strict=True)
            orders = tuple(at for at, (one, other) in enumerate(both) if (one & other) >> place & 1)
            if orders:
                yield fitting, orders

    def _all_triples(self, outline: Outline) -> tuple[int, int]:
        """The triples of both tiers that some plan has room for; none is of both."""
        preferred, others = 0, 0
        for plan in outline.plans:
            first, second = self._room(outline, plan)
            for fitting in self._fittings(outline.situation, plan):
                good, rest = fitting.tiers
                preferred |= first & good[0] | second & good[1]
                others |= first & rest[0] | second & rest[1]
        return preferred, others & ~preferred

    def _room(self, outline: Outline, plan: Plan) -> BothOrders:
        """The triples that a plan has room for; of all pairs of parts the whole alone counts."""
        a, b, c = plan.room
        if situations.get(outline.situation).both_parts:
            a = b = (0, c[1])
        return number_choice.bits_within((a, b, c), self._settled.within)

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
        supply = number_choice.supply(wish)
        return _Fitting(strategy, supply, number_choice.bits_of(supply))
