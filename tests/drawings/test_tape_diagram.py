"""Bar diagrams: labels never touch, the unknown is not shown, no lengths are given away."""

from collections.abc import Iterator
from random import Random

import pytest
from drawings.faults import faults, labels_of

from storybank.drawings import LARGE, NORMAL, Drawing, Frame, Line, Measures, tape_diagram

SIZES = {"normal": NORMAL, "large": LARGE}


def bars(measures: Measures = NORMAL) -> Iterator[tuple[Drawing, int, tuple[int, int, int]]]:
    """Bars of both kinds with each number asked for, and the answer."""
    luck = Random(7)
    pairs = [(a, b) for a in range(1, 13) for b in range(1, 13)]
    pairs += [(luck.randint(1, 500), luck.randint(1, 500)) for _ in range(300)]
    for a, b in pairs:
        numbers = (a, b, a + b)
        for asked in range(3):
            told = [None if place == asked else one for place, one in enumerate(numbers)]
            for make in (tape_diagram.parts, tape_diagram.compare):
                yield make(*told, measures=measures), asked, numbers


@pytest.mark.parametrize("size", SIZES)
def test_bars_have_no_labels_that_touch(size: str) -> None:
    tried, sizes = 0, set()
    for drawing, _, numbers in bars(SIZES[size]):
        assert faults(drawing) == [], numbers
        tried += 1
        sizes |= {one.size for one in labels_of(drawing)}
    assert tried > 2600
    assert sizes == ({18.0} if size == "large" else {13.0})


def test_bars_ask_for_the_unknown_and_do_not_show_it() -> None:
    for drawing, asked, numbers in bars():
        told = sorted([str(one) for place, one in enumerate(numbers) if place != asked])
        labels = [one.text for one in labels_of(drawing)]
        assert sorted(labels) == sorted(["?", *told])
        said = drawing.alt.replace(".", " ").replace(",", " ").split()
        assert sorted(one for one in said if one.isdigit()) == told
        assert drawing.alt.count("the number to find") == 1


@pytest.mark.parametrize("size", SIZES)
def test_bars_show_which_is_larger_but_no_lengths(size: str) -> None:
    shown: dict[tuple[bool, bool], set[float]] = {}
    for drawing, asked, (first, second, _) in bars(SIZES[size]):
        frames = [one.box for one in drawing.items if isinstance(one, Frame)]
        if len(frames) == 1:
            place = next(one.x1 for one in drawing.items if isinstance(one, Line)
                         and one.y1 == frames[0].top)  # fmt: skip
        else:
            longer, shorter = frames
            assert longer.left == shorter.left and longer.right > shorter.right
            place = shorter.right
        share = (place - frames[0].left) / (frames[0].right - frames[0].left)
        shown.setdefault((first > second, first == second and asked == 2), set()).add(
            round(share, 6)
        )
    # Equal numbers of which one is asked for look as if the first were larger.
    assert shown == {(True, False): {0.6}, (False, True): {0.5}, (False, False): {0.4, 0.6}}


@pytest.mark.parametrize("size", SIZES)
def test_difference_is_bracketed_beside_the_shorter_bar(size: str) -> None:
    drawing = tape_diagram.compare(39, None, 72, measures=SIZES[size])
    longer, shorter = (one.box for one in drawing.items if isinstance(one, Frame))
    bracket = next(one for one in drawing.items if isinstance(one, Line)
                   and one.y1 == one.y2 and one.x1 > shorter.right)  # fmt: skip
    assert bracket.x2 == longer.right
    assert shorter.top < bracket.y1 < shorter.bottom
    (unknown,) = (one for one in labels_of(drawing) if one.text == "?")
    assert bracket.x1 < unknown.x < bracket.x2


@pytest.mark.parametrize("numbers", [(1, 2, 3), (None, None, 3), (None, None, None)])
def test_bars_need_exactly_one_unknown(numbers: tuple[int | None, ...]) -> None:
    for make in (tape_diagram.parts, tape_diagram.compare):
        with pytest.raises(ValueError, match="asks for the third"):
            make(*numbers)
