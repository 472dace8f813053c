"""Warm-ups chosen from the numbers of a story: forward and back, past a ten or hundred."""

import pytest
from counting.test_counts import passes
from hypothesis import given
from hypothesis import strategies as st

from storybank.counting import count_from, warm_ups
from storybank.errors import RequestError
from storybank.model.counting import Count

STORY = (46, 38, 84, 27)
SEEDS = [str(seed) for seed in range(60)]


def meets(count: Count) -> bool:
    """Whether the count begins with a number of the story or leads to one."""
    return bool({*count.numbers, count.next_answer} & set(STORY))


@pytest.mark.parametrize("within", [100, 120, 1000])
def test_counts_begin_with_the_numbers_of_the_story_or_lead_to_one(within: int) -> None:
    for key in SEEDS:
        counts = warm_ups(None, STORY, within, key)
        assert len(counts) == 3 == len({one.numbers for one in counts})
        assert [one.back for one in counts] == [False, True, False]
        assert all(meets(one) for one in counts), (within, key)
        assert sum(one.numbers[0] in STORY for one in counts) >= 2
        assert all(0 <= one <= within for count in counts for one in count.numbers)
        assert counts == warm_ups(None, STORY, within, key)


@pytest.mark.parametrize(
    ("by", "within"), [(1, 100), (5, 100), (10, 100), (1, 1000), (5, 1000), (10, 1000), (100, 1000)]
)
def test_each_passes_a_ten_or_hundred_behind_the_two_that_are_shown(by: int, within: int) -> None:
    for key in SEEDS:
        for numbers in (STORY, ()):
            for count in warm_ups([by], numbers, within, key, 4):
                past = [
                    at for at in range(2, len(count.numbers))
                    if passes(*count.numbers[at - 1 : at + 1], by)
                ]  # fmt: skip
                if by == 10 and within == 100:  # Every step passes a ten.
                    assert len(count.numbers) >= 6
                else:
                    assert set(past) & set(count.gaps)


def test_sizes_of_steps_are_dealt_in_turn() -> None:
    for key in SEEDS:
        counts = warm_ups([5, 10], (), 1000, key, 4)
        assert sorted(one.by for one in counts) == [5, 5, 10, 10]
        assert sorted(one.by for one in warm_ups(None, (), 1000, key, 4)) == [1, 5, 10, 100]
        assert sorted(one.by for one in warm_ups(None, (), 100, key, 3)) == [1, 5, 10]


def test_fives_begin_with_any_number_and_starts_differ_by_seed() -> None:
    starts = [warm_ups([5], (), 1000, key, 1)[0].numbers[0] for key in SEEDS]
    assert len({one % 5 for one in starts}) == 5
    assert len(set(starts)) > 50


def test_no_question_is_asked_twice_where_it_can_be_helped() -> None:
    for key in SEEDS:
        for by in ([1], [5], [10], [100], None):
            counts = warm_ups(by, (), 1000, key, 3)
            assert len({one.next_answer for one in counts}) == 3


def test_all_forward_or_all_back_where_that_is_asked_for() -> None:
    for back in (False, True):
        counts = warm_ups(None, STORY, 1000, "a", 5, back=back)
        assert {one.back for one in counts} == {back}
    turned = [one.back for one in warm_ups(None, STORY, 1000, "a", 5)]
    assert turned == [False, True, False, True, False]
    assert {len(one.numbers) for one in warm_ups([1, 10], STORY, 1000, "a", 4, steps=7)} == {7}


@given(
    st.one_of(st.none(), st.lists(st.sampled_from([1, 5, 10, 100]), min_size=1, max_size=4)),
    st.integers(10, 1000),
    st.data(),
)
def test_what_is_made_is_what_count_from_makes(
    by: list[int] | None, within: int, data: st.DataObject
) -> None:
    numbers = data.draw(st.lists(st.integers(0, within), max_size=6))
    count = data.draw(st.integers(1, 6))
    key = data.draw(st.text(max_size=4))
    if by is not None and 3 * max(by) > within:
        with pytest.raises(RequestError, match="numbers at most, and 4 are needed"):
            warm_ups(by, numbers, within, key, count)
        return
    # Every start with four numbers, either way.
    there = sum(2 * (within - 3 * size + 1) for size in set(by or [1]))
    if there < count:
        with pytest.raises(RequestError, match=rf"only {there} can differ"):
            warm_ups(by, numbers, within, key, count)
        return
    counts = warm_ups(by, numbers, within, key, count)
    assert len({(one.numbers[0], one.by, one.back) for one in counts}) == count
    for one in counts:
        assert one == count_from(
            one.numbers[0], one.by, back=one.back, steps=len(one.numbers), within=within, key=key
        )


@pytest.mark.parametrize(
    ("wish", "said"),
    [
        (([2], (), 100, "a"), "Counting by 2"),
        (([], (), 100, "a"), "No size of step was asked for. Choose from: 1, 5, 10, 100"),
        (([100], (), 120, "a"), "by hundreds within 120 .* says 2 numbers|within 300 or more, or"),
        ((None, (), 5, "a"), "within 5"),
        ((None, (130, 7, 200), 100, "a"), "begin with 130, 200, outside .* 0 to 100"),
        ((None, (), 100, "a", 0), "0 warm-ups .* from 1 to 20"),
        ((None, (), 100, "a", 21), "21 warm-ups"),
        (([100], (), 300, "a", 5), "only 2 can differ. Ask for 2 or fewer"),
    ],
)
def test_what_cannot_be_chosen_is_explained(wish: tuple[object, ...], said: str) -> None:
    with pytest.raises(RequestError, match=said):
        warm_ups(*wish)  # type: ignore[arg-type]
