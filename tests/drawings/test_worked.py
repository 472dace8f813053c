"""Which drawing shows which solution, and what measures may be."""

import pytest
from drawings.solutions import ADD, SHAPES, SOUGHT, SUBTRACT, solved

from storybank.drawings import LARGE, NORMAL, Label, Measures, worked
from storybank.model import Form, Solution

KINDS = [
    ("count-on", ADD, 46, 3, "Open number line"),
    ("count-up", SOUGHT, 82, 47, "Open number line"),
    ("friendly-then-compensate", ADD, 46, 38, "Open number line"),
    ("tens-then-ones", SUBTRACT, 82, 47, "Open number line"),
    ("make-a-ten", ADD, 8, 5, "Ten frames"),
    ("make-a-ten", SUBTRACT, 13, 8, "Ten frames"),
    ("give-and-take", ADD, 8, 5, "Ten frames"),
    ("doubles", ADD, 6, 6, "Two rows of dots"),
    ("doubles", SUBTRACT, 12, 6, "Two rows of dots"),
    ("near-doubles", ADD, 6, 7, "Two rows of dots"),
    ("split-tens-and-ones", ADD, 38, 25, "Tens and ones"),
    ("split-tens-and-ones", SUBTRACT, 78, 25, "Tens and ones"),
    ("same-difference", SUBTRACT, 82, 47, "Same difference on two number lines"),
    ("related-fact", SUBTRACT, 12, 8, None),
    ("give-and-take", ADD, 28, 14, None),
    ("doubles", ADD, 25, 25, None),
    ("split-tens-and-ones", ADD, 325, 163, None),
]


@pytest.mark.parametrize(("strategy", "form", "a", "b", "title"), KINDS)
def test_each_strategy_has_its_drawing(
    strategy: str, form: Form, a: int, b: int, title: str | None
) -> None:
    for measures in (NORMAL, LARGE):
        drawing = worked(strategy, solved(strategy, form, a, b), measures=measures)
        assert (drawing and drawing.title) == title
        if drawing:
            assert drawing.width == measures.width
            assert str(a + b if form is ADD else a - b) in drawing.alt


def test_all_pairs_have_no_drawing_and_jumps_need_no_strategy() -> None:
    lines = ("4 = 1 + 3", "4 = 2 + 2")
    pairs = Solution(None, None, None, None, (), lines, "all lines", ("I list them.",))
    assert worked(None, pairs) is None
    drawing = worked(None, SHAPES["forward"])
    assert drawing is not None and drawing.title == "Open number line"


def test_measures_are_as_documents_need_them() -> None:
    assert (NORMAL.width, NORMAL.sizes) == (460.0, (13.0, 12.0, 11.0))
    assert (LARGE.width, LARGE.sizes) == (496.0, (18.0,))
    assert (NORMAL.scale, NORMAL.thin) == (1.0, 1.0)
    assert LARGE.scale == 18 / 13 and LARGE.line > NORMAL.line


def test_measures_of_ones_own_are_kept() -> None:
    own = Measures(width=400.0, sizes=(14.0,), line=1.5)
    drawing = worked("count-on", SHAPES["hops"], measures=own)
    assert drawing is not None and drawing.width == 400.0
    assert {one.size for one in drawing.items if isinstance(one, Label)} == {14.0}
