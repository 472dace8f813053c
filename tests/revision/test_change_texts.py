"""Changes as short texts: each is read as it is written, and every misspelling is named."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from storybank import vocabulary
from storybank.errors import RequestError
from storybank.revision import KINDS, Change, change_of, changes_of

PLACES = st.integers(1, 9999)
ONE = st.sampled_from(["swap", "numbers", "plain", "up", "down", "remove"])
CHANGES = st.one_of(
    st.builds(lambda kind, place: Change(kind, (place,)), ONE, PLACES),
    st.lists(PLACES, min_size=1, max_size=9, unique=True).map(lambda p: Change("renew", tuple(p))),
    st.builds(
        lambda place, level: Change("level", (place,), level),
        PLACES,
        st.sampled_from(vocabulary.ids()),
    ),
    st.builds(lambda place, words: Change("words", (place,), words=words), PLACES, PLACES),
    st.just(Change("more")),
)


@given(CHANGES)
def test_what_is_written_is_read_again(change: Change) -> None:
    assert change_of(str(change)) == change
    assert changes_of([str(change), "more"]) == (change, Change("more"))


def texts_like_changes() -> st.SearchStrategy[str]:
    pieces = st.one_of(
        st.sampled_from([*KINDS, "level", "1", "2", "3", "0", "01", "9999", "10000", "", "2 "]),
        st.text(max_size=4),
    )
    return st.lists(pieces, max_size=5).map("-".join)


@given(st.one_of(st.text(max_size=60), texts_like_changes()))
def test_any_text_is_read_and_written_alike_or_refused(text: str) -> None:
    try:
        found = change_of(text)
    except RequestError as error:
        assert "\n" not in str(error) and len(str(error)) < 400
        return
    assert str(found) == text


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("swap", 'The change "swap" cannot be read. Write it like swap-3, '),
        ("swap-0", 'The change "swap-0" cannot be read. Write it like swap-3, '),
        ("swap-03", 'The change "swap-03" cannot be read.'),
        ("swap-٣", 'The change "swap-٣" cannot be read.'),
        ("swap-1-2", 'The change "swap-1-2" cannot be read. Write it like swap-3, '),
        ("renew", 'The change "renew" cannot be read. Write it like renew-1-4-6, '),
        ("renew-1-1", 'The change "renew-1-1" cannot be read. Write it like renew-1-4-6, '),
        ("level-3", 'The change "level-3" cannot be read. Write it like level-3-level-2, '),
        ("level-3-level-9", 'The change "level-3-level-9" cannot be read.'),
        ("words-3", 'The change "words-3" cannot be read. Write it like words-3-1, '),
        ("more-2", 'The change "more-2" cannot be read. Write it like more, '),
        ("swpa-3", 'There is no change "swpa-3". Did you mean "swap-3"? Choose from: swap-3, '),
        ("", 'There is no change "". Choose from: swap-3, numbers-3, '),
        ("<b>\x1b[1m", 'There is no change "<b>[1m". Choose from: '),
    ],
)
def test_a_misspelling_is_named(text: str, said: str) -> None:
    with pytest.raises(RequestError) as error:
        change_of(text)
    assert str(error.value).startswith(said)


def test_so_many_changes_are_refused() -> None:
    assert len(changes_of(["more"] * 300)) == 300
    with pytest.raises(RequestError, match="301 changes were asked for, and at most 300 can be"):
        changes_of(["more"] * 301)
