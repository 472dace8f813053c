"""Jumps of a count: equally long, nothing touches, what is to be drawn is not told."""

import re

import pytest
from drawings.faults import faults, labels_of, too_weak

from storybank.drawings import LARGE, NORMAL, Arc, Dot, Line, Measures, counting_jumps

SIZES = {"normal": NORMAL, "large": LARGE}


@pytest.mark.parametrize("measures", SIZES.values(), ids=SIZES)
@pytest.mark.parametrize("by", [1, 5, 10, 100, -1, -5, -10, -100])
def test_every_six_numbers_within_1000_are_drawn_without_fault(by: int, measures: Measures) -> None:
    made = 0
    for start in range(1001):
        for length in (4, 6):
            numbers = range(start, start + by * length, by)
            if not 0 <= numbers[-1] <= 1000:
                continue
            for drawn, ticked in ((None, True), (1, True), (1, False)):
                drawing = counting_jumps.jumps(
                    numbers, drawn=drawn, ticked=ticked, measures=measures
                )
                assert faults(drawing) == [] == too_weak(drawing)
                assert min(one.size for one in labels_of(drawing)) >= min(measures.sizes)
                made += 1
    assert made == 3 * ((1001 - 3 * abs(by)) + (1001 - 5 * abs(by)))


@pytest.mark.parametrize("by", [10, -10])
def test_jumps_are_equally_long_and_lead_from_number_to_number(by: int) -> None:
    numbers = [120 + by * at for at in range(6)]
    drawing = counting_jumps.jumps(numbers)
    arcs = [one for one in drawing.items if isinstance(one, Arc)]
    lengths = [one.x2 - one.x1 for one in arcs]
    assert len(arcs) == 5 and lengths == pytest.approx([lengths[0]] * 5)
    assert (lengths[0] > 0) == (by > 0)
    places = {one.text: one.x for one in labels_of(drawing) if one.text.isdigit()}
    for arc, number in zip(arcs, numbers, strict=False):
        assert arc.x1 == pytest.approx(places[str(number)])
        assert arc.x2 == pytest.approx(places[str(number + by)])
    signs = [one.text for one in labels_of(drawing) if not one.text.isdigit()]
    assert signs == (["+10"] * 5 if by > 0 else ["\N{MINUS SIGN}10"] * 5)


def test_what_is_to_be_drawn_has_ticks_and_lines_or_nothing() -> None:
    ticked = counting_jumps.jumps(range(38, 44), drawn=1)
    assert [one.text for one in labels_of(ticked)] == ["+1", "38", "39"]
    lines = [one for one in ticked.items if isinstance(one, Line)]
    ticks = [one.x1 for one in lines if one.x1 == one.x2]
    under = [(one.x1 + one.x2) / 2 for one in lines if one.y1 == one.y2][1:]
    assert len(ticks) == 4 and under == pytest.approx(ticks)
    for one in [one for one in lines if one.y1 == one.y2][1:]:
        assert one.x2 - one.x1 >= 36
    assert ticked.alt == (
        "Jumps on a number line: start at 38, jump forward 1 to 39. There is room for 4 more jumps "
        "to draw: 4 ticks, each with a line to write on."
    )
    opened = counting_jumps.jumps(range(107, 47, -10), drawn=1, ticked=False)
    assert len([one for one in opened.items if isinstance(one, Line)]) == 1
    assert opened.alt == (
        "Jumps on a number line: start at 107, jump back 10 to 97. There is room for 4 more jumps "
        "to draw: an open line."
    )
    last = counting_jumps.jumps((1, 2, 3), drawn=1)
    assert last.alt.endswith("room for 1 more jump to draw: 1 tick, each with a line to write on.")


def test_the_start_is_a_filled_dot() -> None:
    dots = [one for one in counting_jumps.jumps((9, 8, 7)).items if isinstance(one, Dot)]
    assert [one.filled for one in dots] == [True, False, False]
    assert dots[0].x == max(one.x for one in dots)


@pytest.mark.parametrize("measures", SIZES.values(), ids=SIZES)
def test_too_many_are_refused_with_the_most_that_fit(measures: Measures) -> None:
    with pytest.raises(ValueError, match=r"30 jumps of 1 are too many .* take at most") as error:
        counting_jumps.jumps(range(100, 131), measures=measures)
    advised = re.search(r"at most (\d+)", str(error.value))
    assert advised
    most = int(advised[1])
    assert faults(counting_jumps.jumps(range(100, 101 + most), measures=measures)) == []
    with pytest.raises(ValueError, match="too many"):
        counting_jumps.jumps(range(100, 102 + most), measures=measures)


@pytest.mark.parametrize(
    ("numbers", "drawn", "said"),
    [
        ((5,), None, "need two numbers or more"),
        ((5, -5), None, "none below 0"),
        ((5, 6, 8), None, r"all equal, and these are \[1, 2\]"),
        ((5, 5), None, r"these are \[0\]"),
        ((5, 6), 2, "2 jumps were to be drawn of 1; choose 0 to 1"),
        ((5, 6), -1, "-1 jumps"),
    ],
)
def test_what_is_no_count_is_refused(
    numbers: tuple[int, ...], drawn: int | None, said: str
) -> None:
    with pytest.raises(ValueError, match=said):
        counting_jumps.jumps(numbers, drawn=drawn)
