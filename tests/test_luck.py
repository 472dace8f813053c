"""Seeded luck: rounds, stability when an option is added, the same under any hash seed."""

from hypothesis import given
from hypothesis import strategies as st

from storybank.luck import Deck, highest, ordered

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
    assert ordered(["a", "b", "c", "d"], "7/situation/0", str) == ["b", "a", "c", "d"]
