"""Same difference: two equal distances, arrows that point the way both numbers move."""

import pytest
from drawings.faults import labels_of
from drawings.solutions import ADD, SHAPES, SUBTRACT, solved

from storybank import strategies
from storybank.drawings import (
    LARGE,
    NORMAL,
    Arrow,
    Drawing,
    Line,
    Measures,
    Ring,
    shifted_line,
)
from storybank.model import Solution

SIZES = {"normal": NORMAL, "large": LARGE}
PAIRS = [(a, b) for a in range(11, 101) for b in range(6, a) if b % 10 not in (0, 5)]


def drawn(a: int, b: int, measures: Measures = NORMAL, *, asked: bool = False) -> Drawing | None:
    solution = shifting(a, b)
    return solution and shifted_line.worked(solution, asked=asked, measures=measures)


def shifting(a: int, b: int) -> Solution | None:
    return strategies.get("same-difference").solve(SUBTRACT, a, b, 1000)


def segments(drawing: Drawing) -> list[Line]:
    """The two thick lines, the upper one first."""
    thickest = max(one.width for one in drawing.items if isinstance(one, Line))
    found = [one for one in drawing.items if isinstance(one, Line) and one.width == thickest]
    return sorted(found, key=lambda one: one.y1)


@pytest.mark.parametrize("size", SIZES)
def test_both_distances_are_equally_long_and_shifted_as_the_arrows_say(size: str) -> None:
    tried = 0
    for a, b in PAIRS:
        drawing = drawn(a, b, SIZES[size])
        if drawing is None:
            continue
        tried += 1
        upper, lower = segments(drawing)
        length, aside = upper.x2 - upper.x1, lower.x1 - upper.x1
        assert lower.x2 - lower.x1 == pytest.approx(length)
        at = {
            (one.text, "upper" if one.y < upper.y1 else "lower", round(one.x, 6))
            for one in labels_of(drawing)
            if not upper.y1 < one.y < lower.y1
        }
        slide = -(b % 10) if b % 10 < 5 else 10 - b % 10
        assert at == {
            (str(b), "upper", round(upper.x1, 6)), (str(a), "upper", round(upper.x2, 6)),
            (str(a - b), "upper", round((upper.x1 + upper.x2) / 2, 6)),
            (str(b + slide), "lower", round(lower.x1, 6)),
            (str(a + slide), "lower", round(lower.x2, 6)),
            (str(a - b), "lower", round((lower.x1 + lower.x2) / 2, 6)),
        }  # fmt: skip
        arrows = [one for one in drawing.items if isinstance(one, Arrow)]
        assert len(arrows) == 2
        for arrow in arrows:
            assert arrow.y1 < arrow.y2 and (arrow.x2 > arrow.x1) == (slide > 0)
        said = [one.text for one in labels_of(drawing) if upper.y1 < one.y < lower.y1]
        assert said == [f"+{slide}" if slide > 0 else f"\N{MINUS SIGN}{-slide}"] * 2
        # The larger of difference and shift is the longer; the difference is never drawn short.
        if a - b > abs(slide):
            assert length > abs(aside)
        if a - b < abs(slide):
            assert length < abs(aside)
        (ring,) = (one for one in drawing.items if isinstance(one, Ring))
        assert ring.box.top > lower.y1
    assert tried > 3000


def test_what_is_asked_is_not_told() -> None:
    drawing = drawn(82, 47, asked=True)
    assert drawing is not None
    labels = [one.text for one in labels_of(drawing)]
    assert sorted(labels) == ["+3", "+3", "47", "50", "82", "85", "?", "?"]
    assert "35" not in drawing.alt and drawing.alt.count("the number to find") == 2
    assert not [one for one in drawing.items if isinstance(one, Ring)]


def test_alt_text_tells_both_distances_and_the_shift() -> None:
    right, left = drawn(82, 47), drawn(53, 12)
    assert right and right.alt == (
        "Same difference on two number lines: on the upper line, from 47 to 82 it is 35. Arrows "
        "add 3 to both numbers: 47 becomes 50, 82 becomes 85. On the lower line, from 50 to 85 it "
        "is just as far, 35. The answer is 35."
    )
    assert left and "Arrows take 2 from both numbers: 12 becomes 10, 53 becomes 51." in left.alt


def test_other_solutions_have_no_shifted_line() -> None:
    assert shifted_line.worked(solved("make-a-ten", ADD, 8, 5)) is None
    assert shifted_line.worked(SHAPES["forward"]) is None
    for wrong in ("82 - 47 = 85 - 51", "82 - 47 = 82 - 47", "40 - 47 = 43 - 50", "82 - 47 = 35"):
        by_hand = Solution("-", 82, 47, None, (), (wrong,), "last line", ("Why.",))
        assert shifted_line.worked(by_hand) is None
