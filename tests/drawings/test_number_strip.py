"""The number strip: room for a child's hand, nothing touches, the gaps are not told."""

import pytest
from drawings.faults import faults, labels_of, too_weak

from storybank.counting import count_from, fitting, usual_steps
from storybank.drawings import LARGE, NORMAL, Drawing, Frame, Measures, Ring, number_strip

SIZES = {"normal": NORMAL, "large": LARGE}
MM = 72 / 25.4


def boxes(drawing: Drawing) -> list[Frame]:
    return [one for one in drawing.items if isinstance(one, Frame)]


@pytest.mark.parametrize("measures", SIZES.values(), ids=SIZES)
@pytest.mark.parametrize("by", [1, 5, 10, 100])
def test_the_strip_of_every_count_within_1000_is_without_fault(by: int, measures: Measures) -> None:
    made = 0
    for back in (False, True):
        for start in range(1001):
            steps = usual_steps(start, by, back=back, within=1000)
            if fitting(start, by, back=back, within=1000) < steps:
                continue
            count = count_from(start, by, back=back, steps=steps)
            for filled in (False, True):
                drawing = number_strip.strip(
                    count.numbers, count.gaps, filled=filled, measures=measures
                )
                assert faults(drawing) == [] == too_weak(drawing)
                made += 1
    assert made == 4 * (1001 - 3 * by)


@pytest.mark.parametrize("measures", SIZES.values(), ids=SIZES)
@pytest.mark.parametrize("length", [1, 2, 4, 11, 12, 20])
def test_boxes_are_alike_and_take_a_child_s_number(length: int, measures: Measures) -> None:
    for first, least in ((0, 14), (200, 18), (981, 20)):
        numbers = range(first, first + length)
        drawing = number_strip.strip(numbers, measures=measures)
        assert faults(drawing) == []
        found = [one.box for one in boxes(drawing)]
        assert len(found) == length
        assert len({(round(one.right - one.left, 6), round(one.bottom - one.top, 6))
                    for one in found}) == 1  # fmt: skip
        wide, high = found[0].right - found[0].left, found[0].bottom - found[0].top
        if first + length <= 100 or first >= 100:
            digits = len(str(numbers[-1]))
            least = {1: 14, 2: 14, 3: 18, 4: 20}[digits]
        assert wide >= least * MM * measures.scale - 0.01 or first == 0
        assert high >= 14 * MM * measures.scale - 0.01
        assert min(one.size for one in labels_of(drawing)) >= measures.sizes[0]


def test_numbers_stand_in_the_middle_of_their_boxes_and_gaps_are_empty() -> None:
    drawing = number_strip.strip((97, 98, 99, 100, 101), (2, 3))
    at = [one.box for one in boxes(drawing)]
    told = {one.text: one.x for one in labels_of(drawing)}
    assert told == {
        text: pytest.approx((at[place].left + at[place].right) / 2)
        for place, text in ((0, "97"), (1, "98"), (4, "101"))
    }
    assert drawing.alt == (
        "Number strip of 5 boxes. In order: 97, 98, an empty box, an empty box, 101."
    )
    filled = number_strip.strip((97, 98, 99, 100, 101), (2, 3), filled=True)
    assert [one.text for one in labels_of(filled)] == ["97", "98", "99", "100", "101"]
    assert sum(isinstance(one, Ring) for one in filled.items) == 2
    assert filled.alt == (
        "Number strip of 5 boxes. In order: 97, 98, 99, ringed, 100, ringed, 101."
    )


def test_long_numbers_go_on_in_a_further_row() -> None:
    drawing = number_strip.strip(range(990, 1001), measures=LARGE)
    assert drawing.alt.startswith("Number strip of 11 boxes in 2 rows. In order: 990, 991,")
    assert len({one.box.top for one in boxes(drawing)}) == 2
    assert len({one.box.top for one in boxes(number_strip.strip(range(10, 21)))}) == 1


@pytest.mark.parametrize(
    ("numbers", "gaps", "said"),
    [
        ((), (), "no numbers was asked for; give one or more"),
        ((3, -1), (), r"\[-1\] cannot stand in a box; choose numbers from 0 to 9999"),
        ((9999, 10000), (), r"\[10000\]"),
        ((3, 4), (5, 1, 2), r"No box stands at \[2, 5\]; choose gaps from 0 to 1"),
    ],
)
def test_what_is_no_strip_is_refused(
    numbers: tuple[int, ...], gaps: tuple[int, ...], said: str
) -> None:
    with pytest.raises(ValueError, match=said):
        number_strip.strip(numbers, gaps)
