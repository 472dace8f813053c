"""Chooses three or four addends with a friendly pair among them, which is not always first."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import combinations, permutations

from storybank.luck import digest, ordered

Range = tuple[int, int]
TEN = 10
TWENTY = 20
_TRIES = 200


@dataclass(frozen=True, slots=True)
class SumWish:
    """All wishes about the addends: how many, the largest sum, and the room of each and of all."""

    addends: int
    limit: int
    room: tuple[Range, ...]


class SumSupply:
    """The addends that meet a wish: all different, none a ten, with just one friendly pair.

    Two of them make a ten exactly, within 20, or a multiple of ten; with larger numbers at least
    two have two digits. Sources: CCSS-M 1.OA.2, 1.OA.6 (making ten) and 2.NBT.6; the bounds are our
    own design.
    """

    def __init__(self, wish: SumWish) -> None:
        self.wish = wish

    @cached_property
    def by_ten(self) -> list[list[tuple[int, ...]]]:
        """The addends in rising order, by the ten of their sum."""
        found: dict[int, list[tuple[int, ...]]] = {}
        for parts in self._all():
            found.setdefault((sum(parts) - 1) // TEN, []).append(parts)
        return [found[ten] for ten in sorted(found)]

    def _all(self) -> Iterator[tuple[int, ...]]:
        wish = self.wish
        *rooms, (least, most) = wish.room
        low, high = min(one for one, _ in rooms), max(one for _, one in rooms)
        top = min(wish.limit, most)
        numbers = [n for n in range(low, min(high, top) + 1) if n % TEN]
        for parts in _rising(numbers, wish.addends, top):
            whole = sum(parts)
            if least <= whole and self._friendly(parts) and any(self.orders(parts)):
                yield parts

    def _friendly(self, parts: tuple[int, ...]) -> bool:
        small = self.wish.limit <= TWENTY
        if len(friendly_pairs(parts)) != 1:
            return False
        if small:
            return max(parts) < TEN
        return sum(part > TEN for part in parts) >= 2

    def orders(self, parts: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
        """The orders in which the addends have room."""
        rooms = self.wish.room[:-1]
        for order in permutations(parts):
            if all(low <= one <= high for one, (low, high) in zip(order, rooms, strict=True)):
                yield order

    def choose(self, key: str, used: Collection[tuple[int, ...]]) -> tuple[int, ...] | None:
        """Addends in the order told, in rising order not in `used`; None when none is left.

        First a ten of the sum, evenly, then evenly over its addends; then where the friendly pair
        stands, evenly over its places that have room.
        """
        tens = self.by_ten
        for attempt in range(_TRIES if tens else 0):
            drawn = digest(f"{key}/{attempt}")
            some = tens[drawn % len(tens)]
            parts = some[drawn // len(tens) % len(some)]
            if parts not in used:
                return self._placed(parts, key)
        left = [parts for some in tens for parts in some if parts not in used]
        return self._placed(ordered(left, f"{key}/left", str)[0], key) if left else None

    def _placed(self, parts: tuple[int, ...], key: str) -> tuple[int, ...]:
        (pair,) = friendly_pairs(parts)
        by_place: dict[str, list[tuple[int, ...]]] = {}
        for order in self.orders(parts):
            place = "".join(str(at) for at, part in enumerate(order) if part in pair)
            by_place.setdefault(place, []).append(order)
        place = ordered(by_place, f"{key}/place", str)[0]
        return ordered(by_place[place], f"{key}/order", str)[0]


def friendly_pairs(parts: Collection[int]) -> list[tuple[int, int]]:
    """The pairs of addends that make a multiple of ten."""
    return [(a, b) for a, b in combinations(parts, 2) if (a + b) % TEN == 0]


def _rising(numbers: list[int], count: int, top: int) -> Iterator[tuple[int, ...]]:
    """So many different numbers in rising order whose sum is at most `top`."""
    if count == 0:
        yield ()
        return
    for at, number in enumerate(numbers):
        if number * count > top:
            return
        for rest in _rising(numbers[at + 1 :], count - 1, top - number):
            yield (number, *rest)


@lru_cache(maxsize=256)
def sum_supply(wish: SumWish) -> SumSupply:
    """The supply of that wish; the same object for equal wishes while it is remembered."""
    return SumSupply(wish)
