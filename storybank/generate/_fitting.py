"""Which triples an outline has, and in which ways a plan of it can tell one."""

from dataclasses import dataclass

from storybank.generate._outlines import Outline
from storybank.model.words import Range
from storybank.number_choice import BothOrders, Supply, Wish, bits_of, bits_within, place_of, supply
from storybank.request import Settled
from storybank.story import Plan

_NO_PARTS: Range = (0, 1000)
_Rules = tuple[tuple[Range, Range, Range], tuple[str, ...]]


@dataclass(frozen=True, slots=True)
class Fitting:
    """The triples that meet a wish, whatever their room: by tier, in both orders."""

    strategy: str | None
    supply: Supply
    tiers: tuple[BothOrders, BothOrders]


Way = tuple[Fitting, tuple[int, ...]]
"""A wish that is met, and in which orders of the parts: 0 has the smaller first, 1 second."""


class Fittings:
    """What fits the wishes of one request; worked out once for each situation."""

    def __init__(self, settled: Settled) -> None:
        """Nothing worked out yet."""
        self._settled = settled
        self._found: dict[tuple[str, tuple[str, ...]], tuple[Fitting, ...]] = {}
        self._triples: dict[object, tuple[int, int]] = {}
        self._same: dict[int, int] = {}

    def triples(self, outline: Outline) -> tuple[int, int]:
        """The triples of either tier that some plan has room for, as bits; none is of both."""
        key = outline.situation.id, frozenset(map(self._rules, outline.plans))
        found = self._triples.get(key)
        if found is None:
            one, other = self._all(outline)
            found = self._same.setdefault(one, one), self._same.setdefault(other, other)
            self._triples[key] = found
        return found

    def ways(self, outline: Outline, plan: Plan, tier: int, small: int, whole: int) -> list[Way]:
        """The wishes that a triple meets in a plan, as one of the tier."""
        a, b, (low, high) = self._bounds(outline, plan)
        if not low <= whole <= high:
            return []
        larger, place = whole - small, place_of(small, whole)
        first = a[0] <= small <= a[1] and b[0] <= larger <= b[1]
        second = a[0] <= larger <= a[1] and b[0] <= small <= b[1]
        found: list[Way] = []
        for fitting in self._fittings(outline.situation.id, plan):
            one, other = fitting.tiers[tier]
            turned = second and other >> place & 1
            if first and one >> place & 1:
                found.append((fitting, (0, 1) if turned else (0,)))
            elif turned:
                found.append((fitting, (1,)))
        return found

    def _all(self, outline: Outline) -> tuple[int, int]:
        preferred, others = 0, 0
        for plan in outline.plans:
            first, second = bits_within(self._bounds(outline, plan), self._settled.within)
            for fitting in self._fittings(outline.situation.id, plan):
                good, rest = fitting.tiers
                preferred |= first & good[0] | second & good[1]
                others |= first & rest[0] | second & rest[1]
        return preferred, others & ~preferred

    def _bounds(self, outline: Outline, plan: Plan) -> tuple[Range, Range, Range]:
        """The room of a plan; of all pairs of parts the whole alone counts."""
        if outline.situation.both_parts:
            return _NO_PARTS, _NO_PARTS, plan.room[2]
        return plan.room

    def _rules(self, plan: Plan) -> _Rules:
        """All of a plan that its numbers hang on."""
        return plan.room, plan.skeleton.keywords if self._settled.diagnose else ()

    def _fittings(self, situation_id: str, plan: Plan) -> tuple[Fitting, ...]:
        keywords = plan.skeleton.keywords if self._settled.diagnose else ()
        found = self._found.get((situation_id, keywords))
        if found is None:
            wished = self._settled.strategies_for[situation_id] or (None,)
            made = tuple(self._made(situation_id, keywords, one) for one in wished)
            found = self._found[situation_id, keywords] = made
        return found

    def _made(self, situation_id: str, keywords: tuple[str, ...], strategy: str | None) -> Fitting:
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
        return Fitting(strategy, found, bits_of(found))
