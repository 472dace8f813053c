"""Sets of triples as bits: places, rooms and single members against trying one by one."""

import random

import pytest

from storybank.number_choice import Wish, bits_of, bits_within, nth, place_of, supply, triple_at
from storybank.number_choice._entries import triple_of


def test_places_count_the_pairs_of_parts_one_after_another() -> None:
    found = [(small, whole) for whole in range(120) for small in range(whole // 2 + 1)]
    assert [place_of(*one) for one in found] == list(range(len(found)))
    assert [triple_at(at) for at in range(len(found))] == found


@pytest.mark.parametrize("seed", range(40))
def test_a_room_holds_what_fits_into_it_in_either_order(seed: int) -> None:
    luck = random.Random(seed)
    limit = luck.randint(5, 60)
    low = [luck.randint(0, 20) for _ in range(3)]
    a, b, c = room = tuple((one, one + luck.randint(0, 40)) for one in low)
    first, second = bits_within(room, limit)  # type: ignore[arg-type]
    for whole in range(limit + 1):
        for small in range(whole // 2 + 1):
            fits = c[0] <= whole <= c[1]
            one = fits and a[0] <= small <= a[1] and b[0] <= whole - small <= b[1]
            other = fits and b[0] <= small <= b[1] and a[0] <= whole - small <= a[1]
            place = place_of(small, whole)
            assert (bool(first >> place & 1), bool(second >> place & 1)) == (one, other)
    assert max(first, second).bit_length() <= place_of(0, limit + 1)


@pytest.mark.parametrize("size", [1, 2, 3, 64, 65, 700])
def test_the_nth_member_is_that_of_a_list(size: int) -> None:
    luck = random.Random(size)
    for _ in range(20):
        bits = luck.getrandbits(size) | 1 << luck.randrange(size)
        members = [at for at in range(size) if bits >> at & 1]
        assert [nth(bits, n) for n in range(len(members))] == members


@pytest.mark.parametrize("situation", ["join-result-unknown", "separate-start-unknown",
                                       "part-unknown", "both-parts-unknown"])  # fmt: skip
@pytest.mark.parametrize("strategy", [None, "tens-then-ones"])
def test_the_bits_of_a_supply_are_its_triples(situation: str, strategy: str | None) -> None:
    if situation == "both-parts-unknown" and strategy:
        return
    one = supply(Wish(situation, strategy, 60, room=((1, 60),) * 3))
    expected: list[tuple[set[int], set[int]]] = [(set(), set()), (set(), set())]
    for tier, tens in enumerate((one.preferred, one.second_best)):
        for ten in tens:
            for entry in one.listed[ten][tier]:
                for turn in (0, 1):
                    triple, (small, whole) = triple_of(entry, turn)
                    expected[tier][triple.a > triple.b].add(place_of(small, whole))
    for tier, orders in enumerate(bits_of(one)):
        for order, bits in enumerate(orders):
            found = {nth(bits, n) for n in range(bits.bit_count())}
            assert found == expected[tier][order]
