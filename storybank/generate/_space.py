"""The numbered space of different problems: which choices there are, and those of problem n.

Two problems differ where scene, thing, situation, telling or triple do, whatever the order of the
parts. Nothing of what was made is remembered: problem n has the choice at place n of a keyed
permutation of all.
"""

from array import array
from bisect import bisect_right
from dataclasses import dataclass
from operator import itemgetter

from storybank.errors import NoNumbersError
from storybank.generate._fitting import Fittings
from storybank.generate._outlines import Outline, outlines
from storybank.generate._progress import Chosen
from storybank.generate._shortage import no_space
from storybank.luck import Permutation, digest, highest
from storybank.model import Triple
from storybank.number_choice import nth, triple_at
from storybank.request import Settled

TIERS = (0, 1)


@dataclass(frozen=True, slots=True)
class Choice:
    """What makes a problem another one than all others; `parts` are in rising order."""

    scene: str
    thing: str
    situation: str
    telling: str
    parts: tuple[int, int]


class Choices:
    """All choices of a request, in an order that its seed decides.

    Those whose numbers are of the first tier, of which there are `preferred`, come first.
    """

    def __init__(self, settled: Settled) -> None:
        """All choices are counted here, and none is listed.

        Raises NoNumbersError where there is none.
        """
        self._settled = settled
        self._fittings = Fittings(settled)
        self._outlines: list[Outline] = []
        self._triples: tuple[list[int], list[int]] = ([], [])
        self._starts = (array("Q"), array("Q"))
        totals = [0, 0]
        for outline in outlines(settled):
            found = self._fittings.triples(outline)
            if not any(found):
                continue
            self._outlines.append(outline)
            for tier in TIERS:
                self._triples[tier].append(found[tier])
                self._starts[tier].append(totals[tier])
                totals[tier] += found[tier].bit_count()
        if not any(totals):
            raise NoNumbersError(no_space(settled))
        self.preferred, self._size = totals[0], sum(totals)
        self._orders = tuple(
            Permutation(total, f"{settled.seed}/space/{tier}") for tier, total in enumerate(totals)
        )

    def __len__(self) -> int:
        """How many different choices there are."""
        return self._size

    def choice(self, n: int) -> Choice:
        """What makes problem n another one than all others."""
        outline, _, (small, whole) = self._at(n)
        parts = small, whole - small
        return Choice(outline.scene, outline.thing, outline.situation.id, outline.telling, parts)

    def chosen(self, n: int) -> Chosen:
        """All choices of problem n: what else it takes follows by luck from what it is."""
        outline, tier, (small, whole) = self._at(n)
        situation = outline.situation
        name = f"{outline.scene}/{outline.thing}/{situation.id}/{outline.telling}"
        key = f"{self._settled.seed}/{name}/{small}/{whole}"
        ways = {
            plan.detail: (plan, some)
            for plan in outline.plans
            if (some := self._fittings.ways(outline, plan, tier, small, whole))
        }
        plan, fitting = ways[highest(tuple(ways), f"{key}/detail", str)]
        one, orders = highest(fitting, f"{key}/wish", lambda way: str(way[0].strategy))
        turned = orders[digest(f"{key}/order") & 1] if len(orders) > 1 else orders[0]
        triple = (
            Triple(whole - small, small, whole) if turned else Triple(small, whole - small, whole)
        )
        if situation.both_parts:
            return Chosen(outline.theme, situation, plan, triple, None, None)
        fitting_ways = one.supply.strategies(triple)
        named = [way for way in fitting_ways if one.strategy in (None, way[0])]
        strategy, form = highest(named, f"{key}/strategy", itemgetter(0))
        return Chosen(outline.theme, situation, plan, triple, strategy, form)

    def _at(self, n: int) -> tuple[Outline, int, tuple[int, int]]:
        """The outline, the tier and the triple of problem n."""
        if not 0 <= n < self._size:
            raise IndexError(f"problem {n} of {self._size}")
        tier = int(n >= self.preferred)
        number = self._orders[tier][n - tier * self.preferred]
        at = bisect_right(self._starts[tier], number) - 1
        place = nth(self._triples[tier][at], number - self._starts[tier][at])
        return self._outlines[at], tier, triple_at(place)
