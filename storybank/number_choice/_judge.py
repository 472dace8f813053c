"""Whether a pair of numbers calls for a strategy, and how well it shows it."""

from functools import lru_cache

from storybank import strategies
from storybank.model import Form, Situation
from storybank.number_choice._diagnosis import tier_of
from storybank.number_choice._wish import Wish, suiting

Way = tuple[str, Form]
MAY_HOLD_TENS = ("doubles", "skip-count")
MAY_BE_EQUAL = ("doubles",)


@lru_cache(maxsize=1 << 16)
def _workable(form: Form, a: int, b: int, limit: int) -> tuple[str, ...]:
    return strategies.workable(form, a, b, limit)


def _rule_holds(name: str, form: Form, a: int, b: int, limit: int) -> bool:
    """Whether the strategy's own rule holds: cheaper to know than whether no other rule does."""
    return strategies.get(name).ordered(form, a, b, limit) is not None


class Judge:
    """Judges pairs by a wish: a supply asks it about each pair that has room."""

    def __init__(self, wish: Wish, situation: Situation) -> None:
        """For pairs of that situation; `thin` judges pairs that show little of the strategy."""
        self._wish = wish
        self._adding = situation.operation == "+"
        fitting = suiting(wish.situation, wish.strategy)
        forms = dict.fromkeys(form for _, form in fitting)
        self._names = {form: [n for n, f in fitting if f is form] for form in forms}
        self.thin = strategies.get(wish.strategy).thin if wish.strategy else None

    def __call__(self, c: int, part: int, turned: bool) -> tuple[tuple[Way, ...], int]:
        """The strategies to teach with a pair, each with its form, and its tier; none where out.

        `c` is the whole and `part` the part that is given, or the smaller of two that are added;
        `turned` says that the larger is told first.
        """
        a, b = (part, c - part) if self._adding else (c, part)
        only: tuple[str, ...] | None = None
        if c == 2 * part:
            # Where the answer is a number of the story, copying looks like solving.
            named = self._adding or self._wish.strategy in MAY_BE_EQUAL
            only = MAY_BE_EQUAL if named else ()
        elif a % 10 == 0 or b % 10 == 0:
            only = MAY_HOLD_TENS
        found: dict[str, Form] = {}
        for form, names in self._names.items():
            if only is not None and not any(name in only for name in names):
                continue
            if len(names) == 1 and not _rule_holds(names[0], form, a, b, self._wish.limit):
                continue
            for name in _workable(form, a, b, self._wish.limit):
                if name in names and (only is None or name in only):
                    found.setdefault(name, form)
        ways = tuple(found.items())
        if not ways:
            return ways, 0
        if not self._wish.diagnose:
            return ways, int(self.thin is not None and self.thin(ways[0][1], a, b))
        wish = self._wish
        told = (b, a) if turned else (a, b)
        places = [
            tier_of(name, form, wish.situation, wish.limit, wish.keywords, *told)
            for name, form in ways
        ]
        best = min(places)
        if best > 1:
            return (), 0
        return tuple(way for way, place in zip(ways, places, strict=True) if place == best), best
