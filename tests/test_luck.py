"""Seeded luck: rounds, stability when an option is added, the same under any hash seed."""

from collections import Counter
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import chi2

from storybank.luck import Deck, Permutation, _weight, highest, ordered

NAMES = st.lists(st.text("abcdefgh", min_size=1, max_size=4), min_size=2, max_size=9, unique=True)


@given(NAMES, st.integers(0, 10**6), st.text("xyz", min_size=1, max_size=3))
def test_an_added_option_changes_the_choice_only_where_it_is_chosen(
    names: list[str], seed: int, new: str
) -> None:
    before = highest(names, str(seed), str)
    after = highest([*names[:1], new, *names[1:]], str(seed), str)
    assert after in (before, new)
    assert ordered(names, str(seed), str)[0] == before


@given(NAMES, st.integers(0, 10**6))
def test_a_deck_deals_each_option_once_before_one_returns(names: list[str], seed: int) -> None:
    deck = Deck(names, str(seed))
    for _ in range(3):
        assert sorted(str(deck.deal(lambda one: one)) for _ in names) == sorted(names)


def test_a_refused_option_stays_and_is_dealt_when_it_is_usable() -> None:
    deck = Deck(["a", "b", "c"], "key")
    first = [deck.deal(lambda one: None if one == "b" else one) for _ in range(2)]
    assert sorted(map(str, first)) == ["a", "c"]
    assert deck.deal(lambda one: one) == "b"


def test_none_is_dealt_when_all_are_refused() -> None:
    assert Deck(["a", "b"], "key").deal(lambda one: None) is None


def test_the_choice_is_pinned() -> None:
    """A golden value: it changes only when the way of choosing does, and so does every set."""
    assert ordered(["a", "b", "c", "d"], "7/situation/0", str) == ["b", "d", "a", "c"]


def test_weights_are_those_of_the_published_mixer() -> None:
    """The first outputs of SplitMix64 from seed 0 (Steele, Lea & Flood 2014; from memory)."""
    steps = [0x9E3779B97F4A7C15 * step % 2**64 for step in (1, 2, 3)]
    assert [_weight(step) for step in steps] == [
        0xE220A8397B1DCDAF,
        0x6E789E6AA1B965F4,
        0x06C45D188009454F,
    ]


def test_every_order_is_as_likely() -> None:
    """Chi-square over the 24 orders of four options; 99.9% of even draws stay under 49.7."""
    drawn = 24_000
    found = Counter(tuple(ordered("abcd", f"{at}/telling", str)) for at in range(drawn))
    even = drawn / 24
    assert len(found) == 24
    assert sum((count - even) ** 2 / even for count in found.values()) < 49.7


@pytest.mark.parametrize("key", ["a", "b"])
def test_a_permutation_gives_every_number_once(key: str) -> None:
    for size in (*range(301), 1000, 1023, 1024, 1025, 4097, 10_007, 65_536, 99_999, 100_000):
        assert sorted(Permutation(size, key)) == list(range(size)), size


@pytest.mark.parametrize("size", [2, 3, 7, 12])
@pytest.mark.parametrize("apart", [None, 1])
def test_every_place_of_a_permutation_may_hold_any_number(size: int, apart: int | None) -> None:
    """Chi-square over keys, of one place and of two; 99.99% of even draws stay under the bound."""
    drawn = 200 * size * (size if apart else 1)
    found: Counter[object] = Counter()
    for key in range(drawn):
        order = Permutation(size, f"{key}/space")
        found[order[0] if apart is None else (order[0], order[apart])] += 1
    cells = size if apart is None else size * (size - 1)
    even = drawn / cells
    assert len(found) == cells
    statistic = sum((count - even) ** 2 / even for count in found.values())
    assert statistic < chi2.ppf(0.9999, cells - 1)


@pytest.mark.parametrize("size", [10_000, 1_000_003])
def test_a_slice_of_a_permutation_is_spread_evenly(size: int) -> None:
    """The first 5,000 numbers, and the steps between them, over 50 equal ranges."""
    order = Permutation(size, "7/space")
    numbers = [order[at] for at in range(5000)]
    steps = [(one - other) % size for one, other in pairwise(numbers)]
    for some in (numbers, steps):
        found = Counter(one * 50 // size for one in some)
        even = len(some) / 50
        statistic = sum((found[cell] - even) ** 2 / even for cell in range(50))
        assert statistic < chi2.ppf(0.9999, 49)


def test_there_is_nothing_beyond_a_permutation() -> None:
    order = Permutation(10, "key")
    assert len(order) == 10
    for place in (-1, 10):
        with pytest.raises(IndexError, match="permutation of 10"):
            order[place]


def test_a_permutation_is_pinned() -> None:
    """A golden value: it changes only when the way of choosing does, and so does every space."""
    assert list(Permutation(10, "7/space")) == [0, 7, 8, 2, 4, 3, 5, 6, 9, 1]
