"""Who is dealt to which problem: independent for name lists, fair for class lists."""

import subprocess
import sys
from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from storybank.errors import NamesError
from storybank.people import Dealer, Person, Roster, own_list

COUNTS = st.lists(st.integers(1, 2), min_size=1, max_size=60)
SEEDS = st.integers(0, 2**32)
OWN = {limit: [p for p in own_list().people if len(p.name) <= limit] for limit in (5, 6, 8)}


def class_of(*names: str) -> Roster:
    return Roster("class", "class", tuple(map(Person, names)), class_list=True)


def list_of(*names: str) -> Roster:
    return Roster("list", "list", tuple(map(Person, names)))


@given(SEEDS, COUNTS, st.sampled_from([5, 6, 8]), st.randoms(use_true_random=False))
def test_people_depend_on_seed_index_and_count_only(seed, counts, limit, random) -> None:
    one = Dealer(own_list(), seed)
    in_order = [one.deal(i, count, limit) for i, count in enumerate(counts)]
    places = list(range(len(counts)))
    random.shuffle(places)
    other = Dealer(own_list(), seed)
    shuffled = {i: other.deal(i, counts[i], limit) for i in places}
    assert in_order == [shuffled[i] for i in range(len(counts))]
    for i, people in enumerate(in_order):
        assert len(people) == counts[i]
        assert one.deal(i, 1, limit) == people[:1]
        assert all(len(person.name) <= limit for person in people)
        assert len({person.initial for person in people}) == len(people)


@given(SEEDS, st.sampled_from([5, 6, 8]), st.sampled_from([1, 2]))
def test_no_name_comes_back_before_all_are_used(seed: int, limit: int, count: int) -> None:
    dealer, pool = Dealer(own_list(), seed), OWN[limit]
    problems = -(-len(pool) // count)
    seen = Counter(p for i in range(problems) for p in dealer.deal(i, count, limit))
    assert set(seen) == set(pool)
    assert seen.total() - len(pool) == (len(pool) % 2 if count == 2 else 0)


@pytest.mark.parametrize("limit", [5, 8, None])
def test_after_so_many_turns_every_name_stood_in_both_places(limit: int | None) -> None:
    dealer, pool = Dealer(own_list(), 11), OWN[limit or 8]
    dealt = [dealer.deal(i, 2, limit) for i in range(dealer.turns(limit))]
    assert {one for one, _ in dealt} == {other for _, other in dealt} >= set(pool)
    assert dealer.turns(limit) == 2 * -(-len({one for one, _ in dealt}) // 2)


@given(SEEDS, st.sampled_from([5, 8]), st.data())
def test_one_and_two_mixed_repeat_nobody_in_half_as_many_problems(seed, limit, data) -> None:
    half = len(OWN[limit]) // 2
    counts = data.draw(st.lists(st.integers(1, 2), min_size=half, max_size=half))
    dealer = Dealer(own_list(), seed)
    dealt = [p for i, count in enumerate(counts) for p in dealer.deal(i, count, limit)]
    assert len(set(dealt)) == len(dealt)


def test_later_rounds_keep_the_laws_too() -> None:
    dealer = Dealer(own_list(), 1)
    pool = len(OWN[8])
    per_pass = -(-pool // 2)
    for start in range(0, 6 * per_pass, per_pass):
        dealt = [p for i in range(start, start + per_pass) for p in dealer.deal(i, 2, 8)]
        assert len(set(dealt)) == pool
    pairs = [frozenset(dealer.deal(i, 2, 8)) for i in range(4 * per_pass)]
    assert len(set(pairs[:per_pass]) & set(pairs[2 * per_pass : 3 * per_pass])) < per_pass / 4


@given(
    st.lists(st.text("ABC", min_size=1, max_size=4), min_size=2, max_size=30, unique=True), SEEDS
)
def test_any_list_gives_different_initials_and_uses_all(names: list[str], seed: int) -> None:
    dealer = Dealer(list_of(*names), seed)
    size = len(dealer._pass(0, 8))
    dealt = [dealer.deal(i, 2, 8) for i in range(2 * size)]
    assert all(one.initial != other.initial for one, other in dealt)
    assert {p.name for pair in dealt[:size] for p in pair} >= set(names)
    singles = [dealer.deal(i, 1, 8)[0].name for i in range(2 * size)]
    assert set(names[:1]) <= set(singles) <= set(names)
    assert len(set(singles[: len(names)])) == len(names) or len({n[0] for n in names}) == 1
    assert bool(dealer.notes) == (len({name[0] for name in names}) == 1)


def test_a_list_without_short_names_is_an_error() -> None:
    with pytest.raises(NamesError, match=r"at most 5 letters, and the shortest of the list has 8"):
        Dealer(list_of("Nicoleta", "Valentina"), 1).deal(0, 1, 5)


def test_the_same_under_another_hash_seed() -> None:
    code = (
        "from storybank.people import *; d = Dealer(own_list(), 9);"
        "print([p.name for i in range(40) for p in d.deal(i, 2, 6)])"
    )
    outputs = {
        subprocess.run(
            [sys.executable, "-c", code], env={"PYTHONHASHSEED": seed}, capture_output=True,
            text=True, check=True,
        ).stdout
        for seed in ("0", "1", "77")
    }  # fmt: skip
    dealer = Dealer(own_list(), 9)
    assert outputs == {f"{[p.name for i in range(40) for p in dealer.deal(i, 2, 6)]}\n"}


def test_another_seed_deals_other_people() -> None:
    for roster in (own_list(), class_of(*"ABCDEFGHIJ")):
        dealers = [Dealer(roster, seed) for seed in range(20)]
        deals = {tuple(dealer.deal(i, 1) for i in range(5)) for dealer in dealers}
        assert len(deals) >= 19


@given(
    st.lists(st.sampled_from("ABCDEFGHIJKLMN"), min_size=2, max_size=14, unique=True), COUNTS, SEEDS
)
def test_each_child_appears_before_one_appears_twice(
    names: list[str], counts: list[int], seed: int
) -> None:
    dealer = Dealer(class_of(*names), seed)
    turns: Counter[str] = Counter(dict.fromkeys(names, 0))
    for i, count in enumerate(counts):
        people = dealer.deal(i, count, 1)
        assert len({p.name for p in people}) == count
        turns.update(p.name for p in people)
        assert max(turns.values()) - min(turns.values()) <= 1
    assert dealer.notes == ()


@given(
    st.lists(st.sampled_from(["Ana", "Abe", "Bo", "Bea", "Cy"]), min_size=2, max_size=12),
    COUNTS,
    SEEDS,
)
def test_two_of_one_name_never_meet_and_both_get_turns(
    names: list[str], counts: list[int], seed: int
) -> None:
    dealer = Dealer(class_of(*names), seed)
    share = Counter(names)
    dealt: Counter[str] = Counter()
    for i, count in enumerate(counts):
        people = dealer.deal(i, count)
        assert len({p.name for p in people}) == count
        dealt.update(p.name for p in people if p.name in share)
    if len(share) > 1 and 2 * max(share.values()) <= len(names):
        rounds = [dealt[name] / share[name] for name in share]
        assert max(rounds) - min(rounds) <= 1


def test_initials_differ_where_the_round_allows_it() -> None:
    roster = class_of("Ana", "Abe", "Ada", "Bo", "Cy", "Dee")
    for seed in range(50):
        dealer = Dealer(roster, seed)
        for i in range(3):
            one, other = dealer.deal(i, 2)
            assert one.initial != other.initial


def test_accents_do_not_make_another_initial() -> None:
    assert Person("Ángel").initial == Person("ana").initial == Person("\u02bcAna").initial


def test_names_of_a_class_list_may_be_of_any_length() -> None:
    names = {"Maximiliana Theodora", "Bartholomew"}
    assert {p.name for p in Dealer(class_of(*names), 1).deal(0, 2, 5)} == names


def test_asking_again_gives_the_same_children_and_another_count_deals_anew() -> None:
    roster = class_of(*"ABCDEFG")
    dealer = Dealer(roster, 3)
    first = [dealer.deal(i, 2) for i in (0, 2, 5)]
    assert [dealer.deal(i, 2) for i in (0, 2, 5)] == first
    one = dealer.deal(2, 1)
    assert len(one) == 1 and dealer.deal(0, 2) == first[0]
    fresh = Dealer(roster, 3)
    assert [fresh.deal(0, 2), fresh.deal(2, 1), fresh.deal(5, 2)] == [
        dealer.deal(0, 2), dealer.deal(2, 1), dealer.deal(5, 2),
    ]  # fmt: skip


@pytest.mark.parametrize("names", [("Ana",), ("Ana", "Ana")])
def test_a_class_of_one_name_gets_a_partner_from_our_list_and_says_so(
    names: tuple[str, ...],
) -> None:
    dealer = Dealer(class_of(*names), 4)
    assert dealer.deal(0, 1, 5) == (Person("Ana"),) and dealer.notes == ()
    for i in range(1, 40):
        child, partner = dealer.deal(i, 2, 5)
        assert child.name == "Ana" and partner in OWN[5] and partner.initial != "a"
        assert dealer.deal(i, 2, 5) == (child, partner)
    assert len(dealer.notes) == 1 and "Storybank's own list" in dealer.notes[0]


def test_counts_outside_0_to_2_are_refused() -> None:
    dealer = Dealer(own_list(), 1)
    assert dealer.deal(0, 0) == ()
    for index, count in ((0, 3), (0, -1), (-1, 1)):
        with pytest.raises(ValueError, match="0 to 2"):
            dealer.deal(index, count)
