"""Room for a child's hand: large enough, in the page, with nothing given away."""

import pytest
from drawings.faults import faults

from storybank.drawings import LARGE, NORMAL, Dot, Frame, Label, Line, Measures, handwriting

SIZES = {"normal": NORMAL, "large": LARGE}
MM = 72 / 25.4


@pytest.mark.parametrize("measures", SIZES.values(), ids=SIZES)
def test_boxes_take_the_digits_of_a_seven_year_old(measures: Measures) -> None:
    drawing = handwriting.equation_boxes(measures=measures)
    assert faults(drawing) == []
    boxes = [one.box for one in drawing.items if isinstance(one, Frame)]
    assert len(boxes) == 3
    for box in boxes:
        assert min(box.right - box.left, box.bottom - box.top) >= 14 * MM - 0.01
    (sign,) = (one for one in drawing.items if isinstance(one, Dot))
    assert 2 * sign.radius >= 10 * MM and not sign.filled
    assert [one.text for one in drawing.items if isinstance(one, Label)] == ["="]


@pytest.mark.parametrize("measures", SIZES.values(), ids=SIZES)
@pytest.mark.parametrize("count", [1, 2, 4])
def test_writing_lines_have_a_dashed_middle_halfway(count: int, measures: Measures) -> None:
    drawing = handwriting.writing_lines(count, measures=measures)
    assert faults(drawing) == []
    lines = [one for one in drawing.items if isinstance(one, Line)]
    assert all(one.width >= 1 and one.y1 == one.y2 for one in lines)
    whole = sorted({one.y1 for one in lines if one.x2 - one.x1 > measures.width / 2})
    middles = sorted({one.y1 for one in lines} - set(whole))
    assert len(whole) == 2 * count and len(middles) == count
    for top, middle, base in zip(whole[::2], middles, whole[1::2], strict=True):
        assert middle == pytest.approx((top + base) / 2)
        assert base - top >= 5.9 * MM
    said = "A line" if count == 1 else f"{count} lines"
    assert drawing.alt == f"{said} to write on."


def test_no_lines_are_refused() -> None:
    with pytest.raises(ValueError, match="0 writing lines were asked for"):
        handwriting.writing_lines(0)


@pytest.mark.parametrize("measures", SIZES.values(), ids=SIZES)
@pytest.mark.parametrize("high", [50.0, 70.0])
def test_a_box_to_draw_in_is_empty_and_as_high_as_asked_for(
    high: float, measures: Measures
) -> None:
    drawing = handwriting.box_to_draw_in(high, measures=measures)
    assert faults(drawing) == []
    (frame,) = drawing.items
    assert isinstance(frame, Frame)
    assert frame.box.bottom - frame.box.top == pytest.approx(high * MM)
    assert frame.box.right - frame.box.left > 0.98 * drawing.width
    assert drawing.alt == "An empty box to draw in."
