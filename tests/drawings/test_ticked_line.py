"""The ticked number line: equal spacing, numbers left out, what does not fit is refused."""

import re

import pytest
from drawings.faults import faults, labels_of, too_weak

from storybank.drawings import LARGE, NORMAL, Drawing, Line, Measures, ticked_line

SIZES = {"normal": NORMAL, "large": LARGE}
RANGES = [
    (low, low + count * step, step)
    for low in (0, 1, 7, 80, 200)
    for step in (1, 2, 5, 10, 25, 100)
    for count in (1, 4, 9, 10, 15, 20, 50, 100)
]


def ticks_of(drawing: Drawing) -> list[Line]:
    found = [one for one in drawing.items if isinstance(one, Line) and one.x1 == one.x2]
    return sorted(found, key=lambda one: one.x1)


def to_write_on(drawing: Drawing) -> list[Line]:
    return [one for one in drawing.items if isinstance(one, Line) and one.y1 == one.y2][1:]


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("every", [1, 2, 5, 10])
def test_every_range_is_drawn_without_fault_or_refused_with_what_fits(
    size: str, every: int
) -> None:
    measures, made, refused = SIZES[size], 0, 0
    for low, high, step in RANGES:
        for blanks in ((), (low + step,), (low, high)):
            try:
                drawing = ticked_line.line(
                    low, high, step, labels_every=every, blanks=blanks, measures=measures
                )
            except ValueError as error:
                refused += 1
                advised = re.search(r"labels_every=(\d+) fits", str(error))
                if advised:
                    assert int(advised[1]) > every
                    line(low, high, step, int(advised[1]), blanks, measures)
                else:
                    assert re.search(r"take (fewer ticks|at most \d+)", str(error)), error
                continue
            made += 1
            assert faults(drawing) == [] == too_weak(drawing)
            sizes = {one.size for one in labels_of(drawing)}
            assert not sizes or min(sizes) >= min(measures.sizes)
            assert len(ticks_of(drawing)) == (high - low) // step + 1
    assert made > 250 and refused > 5


def line(
    low: int, high: int, step: int, every: int, blanks: tuple[int, ...], measures: Measures
) -> Drawing:
    return ticked_line.line(low, high, step, labels_every=every, blanks=blanks, measures=measures)


@pytest.mark.parametrize("size", SIZES)
def test_numbers_stand_under_ticks_at_equal_spacing(size: str) -> None:
    drawing = ticked_line.line(20, 70, 5, labels_every=2, blanks=(30, 55), measures=SIZES[size])
    ticks = [one.x1 for one in ticks_of(drawing)]
    spacing = (ticks[-1] - ticks[0]) / 10
    assert ticks == pytest.approx([ticks[0] + place * spacing for place in range(11)])
    shown = {one.text: one.x for one in labels_of(drawing)}
    assert shown == pytest.approx(
        {str(one): ticks[(one - 20) // 5] for one in (20, 40, 50, 60, 70)}
    )
    middles = [(one.x1 + one.x2) / 2 for one in to_write_on(drawing)]
    assert middles == pytest.approx([ticks[2], ticks[7]])
    # Room for a number in a child's hand.
    s, tick = SIZES[size].scale, ticks_of(drawing)[2]
    for one in to_write_on(drawing):
        assert one.x2 - one.x1 >= 30 * s and one.y1 - tick.y2 >= 24 * s


def test_ticks_with_a_number_are_longer() -> None:
    drawing = ticked_line.line(0, 20, 1, labels_every=5, blanks=(7,))
    lengths = [round(one.y2 - one.y1, 6) for one in ticks_of(drawing)]
    assert len(set(lengths)) == 2
    long = [place for place, one in enumerate(lengths) if one == max(lengths)]
    assert long == [0, 5, 7, 10, 15, 20]


def test_alt_text_tells_the_numbers_and_not_those_left_out() -> None:
    assert ticked_line.line(0, 10, 2, blanks=(4,)).alt == (
        "Number line with 6 ticks, 2 apart. From the left: 0, 2, a line to write on, 6, 8, 10."
    )
    assert ticked_line.line(0, 20, 1, labels_every=10, blanks=(18,)).alt == (
        "Number line with 21 ticks, 1 apart. From the left: 0, 9 ticks without a number, 10, "
        "7 ticks without a number, a line to write on, 1 tick without a number, 20."
    )


@pytest.mark.parametrize(
    ("numbers", "message"),
    [
        ((0, 10, 3), "From 0 to 10 there are no whole steps of 3; end at 9 or 12"),
        ((5, 5, 1), "From 5 to 5 there are no whole steps of 1; end at 6 or 7"),
        ((9, 3, 2), "From 9 to 3 .* end at 11 or 13"),
        ((0, 10, 0), "The step is 0; choose 1 or more"),
        ((-5, 5, 1), "begins at -5; choose 0 or more"),
    ],
)
def test_steps_that_do_not_fit_are_refused(numbers: tuple[int, int, int], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        ticked_line.line(*numbers)


def test_what_cannot_be_shown_is_refused() -> None:
    with pytest.raises(ValueError, match=r"\[7, 22\] cannot be left out.* 0 to 20 in steps of 2"):
        ticked_line.line(0, 20, 2, blanks=(7, 4, 22))
    with pytest.raises(ValueError, match="under every 0 ticks; choose 1 or more"):
        ticked_line.line(0, 20, 2, labels_every=0)
    with pytest.raises(
        ValueError, match=r"labels_every=1 the numbers from 0 to 100 .*labels_every"
    ):
        ticked_line.line(0, 100, 2)
    with pytest.raises(ValueError, match=r"501 ticks would touch .* at most 1[0-9][0-9] by"):
        ticked_line.line(0, 500, 1, labels_every=100)
    with pytest.raises(ValueError, match=r"where \[6, 7, 8\] are left out; take fewer ticks"):
        ticked_line.line(0, 20, 1, labels_every=5, blanks=(6, 7, 8), measures=LARGE)
