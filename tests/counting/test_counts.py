"""Every count from every number to 1000: its numbers, gaps, question, reason and standards."""

import re
from itertools import pairwise

import pytest
from counting import reasons
from hypothesis import given
from hypothesis import strategies as st

from storybank.counting import count_from
from storybank.errors import RequestError
from storybank.model.counting import Count

NAMES = {1: "ones", 5: "fives", 10: "tens", 100: "hundreds"}
WAYS = [(by, back) for by in NAMES for back in (False, True)]


def all_counts(by: int, back: bool, within: int = 1000) -> list[Count]:
    """The count of 11 numbers, or as many as there are, from every number that has four."""
    made = []
    for start in range(within + 1):
        there = range(start, -1, -by) if back else range(start, within + 1, by)
        if len(there) >= 4:
            steps = min(11, len(there))
            made.append(count_from(start, by, back=back, steps=steps, within=within))
    return made


def passes(number: int, following: int, by: int) -> bool:
    """Whether another ten begins; by tens and hundreds, whether another hundred does."""
    size = 10 if by < 10 else 100
    return number // size != following // size


@pytest.mark.parametrize(("by", "back"), WAYS)
def test_every_count_is_right(by: int, back: bool) -> None:
    counts = all_counts(by, back)
    assert len(counts) == 1001 - 3 * by
    for count in counts:
        start, steps = count.numbers[0], len(count.numbers)
        step = -by if back else by
        assert count.numbers == tuple(range(start, start + steps * step, step))
        assert min(count.numbers) >= 0 and max(count.numbers) <= 1000
        assert (count.by, count.back) == (by, back)
        # The rule can be found: the first two are there, and never three gaps beside each other.
        assert count.gaps == tuple(sorted(set(count.gaps)))
        assert count.gaps and count.gaps[0] >= 2 and count.gaps[-1] < steps
        assert all(not {at, at + 1, at + 2} <= set(count.gaps) for at in count.gaps)
        past = [at for at in range(2, steps) if passes(*count.numbers[at - 1 : at + 1], by)]
        if past:
            assert any(at in count.gaps and at - 1 not in count.gaps for at in past)


@pytest.mark.parametrize(("by", "back"), WAYS)
def test_what_comes_next_is_right_and_so_is_its_reason(by: int, back: bool) -> None:
    word = "less" if back else "more"
    passed = 0
    for count in all_counts(by, back):
        asked = re.fullmatch(
            rf"Count {'back' if back else 'on'} by {NAMES[by]}(?::| from) ([\d, ]+)\. "
            r"What comes next\? How do you know\?",
            count.next_asked,
        )
        assert asked, count.next_asked
        lead = [int(one) for one in asked[1].split(", ")]
        step = -by if back else by
        assert all(later - one == step for one, later in pairwise([*lead, count.next_answer]))
        assert 0 <= count.next_answer <= 1000
        # It goes on with this very count, and tells no number that the strip asks for.
        assert (lead[-1] - count.numbers[0]) % by == 0
        asked_for = {count.numbers[at] for at in count.gaps}
        assert not asked_for & set(lead)
        assert all(abs(one - count.numbers[0]) <= abs(one + step - count.numbers[0])
                   for one in lead)  # fmt: skip
        head, _, told = count.next_says.partition(": ")
        assert head == f"{by} {word} than {lead[-1]} is {count.next_answer}"
        assert reasons.faults(lead[-1], by, count.next_answer, told) == [], count.next_says
        passed += passes(lead[-1], count.next_answer, by)
    assert passed > 600


@pytest.mark.parametrize(("by", "back"), WAYS)
def test_the_teacher_says_where_to_begin_and_where_voices_trip(by: int, back: bool) -> None:
    for count in all_counts(by, back):
        numbers = count.numbers
        begin, *others = count.says
        way = "back by" if back else "by"
        assert begin == (
            f"We count {way} {NAMES[by]}, from {numbers[0]} to {numbers[-1]}. "
            f"Say it with me: {numbers[0]}, {numbers[1]}, {numbers[2]} ..."
        )
        trips = [re.search(r"fter (\d+) comes (\d+)\.$", one) for one in others]
        told = {(int(one[1]), int(one[2])) for one in trips if one}
        assert told <= set(pairwise(numbers)) and len(told) <= 2
        over = [one for one in pairwise(numbers) if one[0] // 100 != one[1] // 100]
        if over and by != 100:
            assert set(over) & told
        if by == 10:
            assert others[-1] == f"The tens change. The ones stay {numbers[0] % 10}."
            assert {one % 10 for one in numbers} == {numbers[0] % 10}
        if by == 5:
            ends = ", ".join(str(one)[-1] for one in numbers[:4])
            assert others[-1] == f"Listen to the ones: {ends}, and so on."


def test_a_count_as_it_was_asked_for() -> None:
    """The example of the brief: by tens from 37, and what is said at 97 and 190."""
    count = count_from(37, 10)
    assert count.numbers == (37, 47, 57, 67, 77, 87, 97, 107, 117, 127, 137)
    assert 7 in count.gaps and "After 97 comes 107." in count.says
    assert (count.next_asked, count.next_answer) == (
        "Count on by tens: 177, 187, 197. What comes next? How do you know?", 207,
    )  # fmt: skip
    assert count.next_says == (
        "10 more than 197 is 207: one more ten makes ten tens, a new hundred. The ones stay 7."
    )
    assert "After 190 comes 200." in count_from(150, 10).says
    assert "After 39 comes 40." in count_from(37, 1).says


@pytest.mark.parametrize(
    ("number", "by", "following", "told"),
    [
        (97, 10, 107, "one more ten makes ten tens, a new thousand."),
        (87, 10, 97, "one more ten makes ten tens, a new hundred."),
        (97, 5, 102, "4 more make 100, and 2 more make 102."),
        (97, 5, 102, "3 more make 101, and 1 more makes 102."),
        (96, 5, 101, "4 more make 100, and 1 more make 101."),
        (37, 10, 47, "2 tens and one more ten make 3 tens."),
        (37, 10, 47, "3 tens and one more ten make 5 tens."),
        (37, 10, 47, "3 tens and one more ten make 4 tens. The ones stay 8."),
        (47, 10, 37, "take 1 ten from 4 tens, and 2 tens are left."),
        (17, 10, 7, "take away its 1 ten, and 8 is left."),
        (107, 10, 97, "there are no loose tens, so break one hundred into ten ones. "
         "Take 1 ten away: now there are 9 tens."),
        (200, 1, 199, "there are no loose ones, so break one hundred into ten tens, and one of "
         "these into ten ones. Take 1 one away: now there are 8 tens and 9 ones."),
        (46, 1, 47, "because it is so."),
    ],
)  # fmt: skip
def test_a_false_reason_is_found(number: int, by: int, following: int, told: str) -> None:
    assert reasons.faults(number, by, following, told)


STANDARDS = {
    "K.CC.1": "Count to 100 by ones and by tens.",
    "K.CC.2": "Count forward beginning from a given number within the known sequence (instead of "
    "having to begin at 1).",
    "1.NBT.1": "Count to 120, starting at any number less than 120.",
    "1.NBT.5": "Given a two-digit number, mentally find 10 more or 10 less than the number, "
    "without having to count; explain the reasoning used.",
    "2.NBT.2": "Count within 1000; skip-count by 5s, 10s, and 100s.",
    "2.NBT.8": "Mentally add 10 or 100 to a given number 100-900, and mentally subtract 10 or 100 "
    "from a given number 100-900.",
}
"""Source: Common Core State Standards for Mathematics (2010); the sentences from memory."""


@pytest.mark.parametrize(("by", "back"), WAYS)
def test_the_standards_are_those_whose_text_the_count_meets(by: int, back: bool) -> None:
    for count in all_counts(by, back):
        before = count.next_answer + (by if back else -by)
        forward, top = not back, max(count.numbers)
        meets = {
            "K.CC.1": forward and top <= 100 and by in (1, 10) and count.numbers[0] in (0, by),
            "K.CC.2": forward and top <= 100 and by == 1 and count.numbers[0] > 1,
            "1.NBT.1": forward and by == 1 and top <= 120,
            "1.NBT.5": by == 10 and len(str(before)) == 2,
            "2.NBT.2": True,
            "2.NBT.8": by in (10, 100) and 100 <= before <= 900,
        }
        assert count.standards == tuple(one for one in STANDARDS if meets[one])


def test_all_of_kindergarten_and_grade_one_can_be_counted() -> None:
    """K.CC.1 to 100 by ones and by tens, 1.NBT.1 to 120 from any number: nothing is refused."""
    said = [one for start in range(1, 92, 10) for one in count_from(start, 1, steps=10).numbers]
    assert said == list(range(1, 101))
    assert count_from(10, 10, steps=10, within=100).numbers == tuple(range(10, 101, 10))
    for start in range(117):
        count = count_from(start, 1, steps=min(20, 121 - start), within=120)
        assert "1.NBT.1" in count.standards


@given(
    st.integers(0, 1000), st.sampled_from(list(NAMES)), st.booleans(), st.integers(4, 20),
    st.integers(10, 1000), st.text(max_size=8),
)  # fmt: skip
def test_a_count_stays_within_or_is_refused_with_what_fits(
    start: int, by: int, back: bool, steps: int, within: int, key: str
) -> None:
    end = start + (steps - 1) * (-by if back else by)
    if start <= within and 0 <= end <= within:
        count = count_from(start, by, back=back, steps=steps, within=within, key=key)
        assert count.numbers[-1] == end
        assert count == count_from(start, by, back=back, steps=steps, within=within, key=key)
        assert 0 <= count.next_answer <= within
        assert count.gaps[0] >= 2
        return
    with pytest.raises(RequestError) as error:
        count_from(start, by, back=back, steps=steps, within=within, key=key)
    advised = re.search(r"say (\d+) numbers or fewer", str(error.value))
    if advised:
        fewer = count_from(start, by, back=back, steps=int(advised[1]), within=within)
        assert len(fewer.numbers) == int(advised[1])
    elsewhere = re.search(r"begin at (\d+) or", str(error.value))
    if elsewhere:
        count_from(int(elsewhere[1]), by, back=back, steps=steps, within=within)
    if "count back" in str(error.value) or "count forward" in str(error.value):
        count_from(start, by, back=not back, steps=steps, within=within)


def test_the_key_moves_gaps_and_nothing_else() -> None:
    made = {key: count_from(137, 1, key=key) for key in "abcdefgh"}
    assert len({one.gaps for one in made.values()}) > 2
    assert len({one.numbers for one in made.values()}) == 1
    assert all(3 in one.gaps for one in made.values())  # 140, just past 139


@pytest.mark.parametrize(
    ("wish", "said"),
    [
        ({"start": 37, "by": 2}, "Counting by 2 was asked for.*Choose from: 1, 5, 10, 100"),
        ({"start": 37, "by": 0}, "Counting by 0"),
        ({"start": -1, "by": 1}, "begins at -1, .* from 0 to 1000"),
        ({"start": 130, "by": 1, "within": 120}, "begins at 130, .* Begin with a number from 0 to"),
        ({"start": 37, "by": 10, "steps": 3}, "A count of 3 numbers .* from 4 to 20"),
        ({"start": 37, "by": 10, "steps": 21}, "A count of 21 numbers"),
        ({"start": 37, "by": 10, "within": 5}, "within 5 .* from 10 to 1000"),
        ({"start": 37, "by": 10, "within": 2000}, "within 2000"),
        (
            {"start": 937, "by": 10},
            r"11 numbers by tens from 937 would end at 1037, above 1000\. To stay within 0 to "
            r"1000, say 7 numbers or fewer, begin at 900 or less, or count back\.",
        ),
        (
            {"start": 37, "by": 10, "back": True},
            r"back by tens from 37 would end at -63, below 0.* say 4 numbers or fewer, begin at "
            r"100 or more, or count forward\.",
        ),
        (
            {"start": 50, "by": 100, "within": 300},
            r"count by less than 100, or say fewer numbers, or count within more\.",
        ),
    ],
)
def test_what_cannot_be_counted_is_explained(wish: dict[str, int], said: str) -> None:
    with pytest.raises(RequestError, match=said):
        count_from(**wish)
