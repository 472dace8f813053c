"""All triples that meet a wish, listed ten by ten when they are asked for."""

from collections.abc import Iterator
from dataclasses import replace
from functools import cached_property, lru_cache

from storybank import situations
from storybank.luck import highest
from storybank.model import Form, Triple
from storybank.number_choice._entries import (
    EITHER,
    PART_FIRST,
    PART_SECOND,
    Place,
    Tens,
    packed,
    triple_of,
    unpacked,
)
from storybank.number_choice._judge import Judge, Way
from storybank.number_choice._wish import WHOLE_AT_BEST, WHOLE_AT_MOST, Wish


class Supply:
    """The triples that meet a wish, in tens of the largest number: 1-10, 11-20 and so on.

    For additions an entry is a pair in either order that the room allows, so that a double
    weighs as much as any other pair. Tier 0 is preferred to tier 1. For `diagnose` tier 1 holds the
    pairs with a wrong answer one away from the right one, which looks like any slip of counting;
    where all pairs of parts are asked for, the wholes of which there are many; for a strategy
    asked for by name the pairs that show little of it; else nothing.
    `listed` holds the entries of each ten, by tier; `thin` judges such pairs of the strategy.
    """

    def __init__(self, wish: Wish) -> None:
        self.wish = wish
        self.situation = situations.get(wish.situation)
        self._adding = self.situation.operation == "+"
        self._ways = Judge(wish, self.situation)
        self.thin = self._ways.thin
        self.listed = Tens(self._found)
        self._any_room = _any_room(wish)

    @cached_property
    def preferred(self) -> tuple[int, ...]:
        """The tens, as C from 10 * ten + 1 on, that have an entry in tier 0."""
        return tuple(ten for ten in self._tens() if self._has(ten, 0))

    @cached_property
    def places(self) -> list[list[Place]]:
        """For each of the `preferred` tens what `take_apart` gave, or nothing yet."""
        return [[] for _ in self.preferred]

    def take_apart(self, at: int) -> list[Place]:
        """The triples of the ten at `at` among the `preferred`: all as they stand, then turned."""
        entries = self.listed[self.preferred[at]][0]
        self.places[at] = [triple_of(entry, turn) for turn in (0, 1) for entry in entries]
        return self.places[at]

    @cached_property
    def second_best(self) -> tuple[int, ...]:
        """The tens that have an entry in tier 1."""
        if not (self.wish.diagnose or self.situation.both_parts or self.thin):
            return ()
        return tuple(ten for ten in self._tens() if self._has(ten, 1))

    def __iter__(self) -> Iterator[Triple]:
        """Every triple that meets the wish, in both orders where both are allowed."""
        for ten in self._tens():
            for tier in (0, 1):
                for entry in self.listed[ten][tier]:
                    c, part, orders = unpacked(entry)
                    if orders & PART_FIRST:
                        yield Triple(part, c - part, c)
                    if orders & PART_SECOND:
                        yield Triple(c - part, part, c)

    def strategies(self, triple: Triple) -> tuple[Way, ...]:
        """The strategies to teach with `triple`, each with its form; empty for all pairs of parts.

        Where a strategy fits in several forms the first of its own table is taken.
        """
        if self.situation.both_parts:
            return ()
        turned = self._adding and triple.a > triple.b
        return self._ways(triple.c, self._part(triple), turned)[0]

    def tier(self, triple: Triple) -> int | None:
        """The tier of `triple`, whose largest number is within the limit; None where it is out.

        For situations with two given numbers: equal parts are judged as `listed` judges them.
        """
        held = zip((triple.a, triple.b, triple.c), self.wish.room, strict=True)
        if not all(low <= number <= high for number, (low, high) in held):
            return None
        part = self._part(triple)
        regroups = "always" if triple.c % 10 < part % 10 else "never"
        if self.wish.crossing not in ("any", regroups):
            return None
        ways, tier = self._ways(triple.c, part, self._adding and triple.a > triple.b)
        return tier if ways else None

    def strategy(self, triple: Triple, key: str) -> str | None:
        """One of `strategies(triple)`, by the highest hash of `key` and id; None for all pairs."""
        ways = self.strategies(triple)
        return highest(ways, key, lambda way: way[0])[0] if ways else None

    def form(self, triple: Triple, strategy: str | None = None) -> Form:
        """The form in which `strategy`, or the wished one, or else the first, takes the triple.

        Raises KeyError where the strategy takes no form of it: the triple is not of this supply.
        """
        ways = self.strategies(triple)
        if strategy is None:
            strategy = self.wish.strategy or (ways[0][0] if ways else "")
        return dict(ways)[strategy]

    def _part(self, triple: Triple) -> int:
        if self._adding:
            return min(triple.a, triple.b)
        return triple.a if self.situation.unknown == self.situation.roles[1] else triple.b

    def _tens(self) -> range:
        low, high = self.wish.room[2]
        top = min(high, self.wish.limit, WHOLE_AT_MOST if self.situation.both_parts else high)
        return range(max(low, 2) - 1 - (max(low, 2) - 1) % 10, top, 10)

    def _has(self, ten: int, tier: int) -> bool:
        if ten in self.listed:
            return bool(self.listed[ten][tier])
        whole = self._any_room
        known = whole is not None and ten in whole.listed
        return any(place == tier for _, place in (self._found if known else self._scan)(ten))

    def _found(self, ten: int) -> Iterator[tuple[int, int]]:
        return self._scan(ten) if self._any_room is None else self._narrowed(self._any_room, ten)

    def _narrowed(self, whole: "Supply", ten: int) -> Iterator[tuple[int, int]]:
        """What `_scan` gives, taken from the supply without bounds of room: its rules are tried."""
        (low_a, high_a), (low_b, high_b), (low_c, high_c) = self.wish.room
        for tier, rows in enumerate(whole.listed.rows(ten)):
            for base, orders, c, part, other in rows:
                if low_c <= c <= high_c:
                    first = low_a <= part <= high_a and low_b <= other <= high_b
                    second = low_a <= other <= high_a and low_b <= part <= high_b
                    some = orders & (first * PART_FIRST + second * PART_SECOND)
                    if some:
                        yield base | some, tier

    def _scan(self, ten: int) -> Iterator[tuple[int, int]]:
        wish = self.wish
        low_c, high_c = wish.room[2]
        top = min(ten + 10, wish.limit, high_c)
        wholes = range(max(ten + 1, low_c, 2), top + 1)
        if self.situation.both_parts:
            if wish.strategy is None and not wish.diagnose and wish.crossing != "always":
                wholes = range(wholes.start, min(wholes.stop, WHOLE_AT_MOST + 1))
                yield from ((packed(c, 0, PART_FIRST), int(c > WHOLE_AT_BEST)) for c in wholes)
            return
        wants = {"always": (True,), "never": (False,), "any": (True, False)}[wish.crossing]
        for c in wholes:
            for part, orders in self._parts(c):
                if (c % 10 < part % 10) in wants:
                    for some, tier in self._placed(c, part, orders):
                        yield packed(c, part, some), tier

    def _placed(self, c: int, part: int, orders: int) -> Iterator[tuple[int, int]]:
        """The orders of a pair that can be taught, with their tier.

        Both orders fare alike, but a worked sum follows the story where its rule holds either
        way, and with it the mistakes.
        """
        if orders < EITHER or not self.wish.diagnose:
            ways, tier = self._ways(c, part, self._adding and orders == PART_SECOND)
            if ways:
                yield orders, tier
            return
        first, second = self._ways(c, part, False), self._ways(c, part, True)
        if first[0] and second[0] and first[1] == second[1]:
            yield EITHER, first[1]
            return
        for order, (ways, tier) in ((PART_FIRST, first), (PART_SECOND, second)):
            if ways:
                yield order, tier

    def _parts(self, c: int) -> Iterator[tuple[int, int]]:
        (low_a, high_a), (low_b, high_b), _ = self.wish.room
        if not self._adding:
            second = self.situation.unknown == self.situation.roles[0]
            if second:
                low_a, high_a, low_b, high_b = low_b, high_b, low_a, high_a
            orders = PART_SECOND if second else PART_FIRST
            for part in range(max(1, low_a, c - high_b), min(c - 1, high_a, c - low_b) + 1):
                yield part, orders
            return
        for part in range(1, c // 2 + 1):
            other = c - part
            first = low_a <= part <= high_a and low_b <= other <= high_b
            second = low_a <= other <= high_a and low_b <= part <= high_b
            if part == other:
                second = False
            if first or second:
                yield part, first * PART_FIRST + second * PART_SECOND


def supply(wish: Wish) -> Supply:
    """The supply of that wish; the same object for equal wishes while it is remembered."""
    keywords = wish.keywords if wish.diagnose else ()
    (low_a, high_a), (low_b, high_b), (low_c, high_c) = wish.room
    most = wish.limit
    room = ((low_a, min(high_a, most)), (low_b, min(high_b, most)), (low_c, min(high_c, most)))
    if keywords != wish.keywords or room != wish.room:
        wish = replace(wish, keywords=keywords, room=room)
    return _within_100(wish) if wish.limit <= 100 else _beyond_100(wish)


def _any_room(wish: Wish) -> Supply | None:
    """The supply of the same wish without bounds of room; None where that is of no use.

    The rules are tried once for all rooms. Within 1000 a room is often far smaller than all
    pairs, which take a second to list; for both-parts-unknown no rule is tried.
    """
    bounded = replace(wish, room=((1, wish.limit),) * 3)
    if wish.limit > 100 or wish.room == bounded.room or situations.get(wish.situation).both_parts:
        return None
    return _within_100(bounded)


@lru_cache(maxsize=1024)
def _within_100(wish: Wish) -> Supply:
    return Supply(wish)


# Listed to the end, a supply within 1000 may take 2 MB.
@lru_cache(maxsize=24)
def _beyond_100(wish: Wish) -> Supply:
    return Supply(wish)


def distinct_count(one: Supply) -> int:
    """How many different triples there are, whatever the order of the parts."""
    return sum(1 for _ in distinct_keys(one))


def distinct_keys(one: Supply) -> Iterator[tuple[int, int]]:
    """The keys of the triples, each once, found as they are asked for."""
    ten, seen = -1, set[tuple[int, int]]()
    for triple in one:
        key = triple.key
        if (key[1] - 1) // 10 != ten:
            ten, seen = (key[1] - 1) // 10, set()
        if key not in seen:
            seen.add(key)
            yield key
