"""Ten frames and rows of dots: every dot is counted against the numbers of the solution."""

from itertools import pairwise, product

import pytest
from drawings.faults import labels_of
from drawings.solutions import ADD, SUBTRACT, by_jumps, solved

from storybank import strategies
from storybank.drawings import (
    LARGE,
    NORMAL,
    Arrow,
    Cross,
    Dot,
    Drawing,
    Frame,
    Grid,
    Ring,
    double_rows,
    ten_frame,
)
from storybank.model import Form, Solution

SIZES = {"normal": NORMAL, "large": LARGE}
WITHIN_20 = [(a, b) for a, b in product(range(1, 21), repeat=2)]


def found(strategy: str, form: Form) -> list[Solution]:
    """Every solution of that strategy within 20."""
    solutions = (strategies.get(strategy).solve(form, a, b, 20) for a, b in WITHIN_20)
    return [one for one in solutions if one is not None]


def numbers(solution: Solution) -> tuple[int, int]:
    assert solution.a is not None and solution.b is not None
    return solution.a, solution.b


def dots_of(drawing: Drawing) -> list[Dot]:
    return [one for one in drawing.items if isinstance(one, Dot)]


def cells(drawing: Drawing) -> list[list[Dot | None]]:
    """What stands in the ten places of each frame, the top row first; nothing stands elsewhere."""
    frames = []
    for grid in (one for one in drawing.items if isinstance(one, Grid)):
        assert (grid.columns, grid.rows) == (5, 2)
        cell = (grid.box.right - grid.box.left) / 5
        places: list[Dot | None] = [None] * 10
        for dot in dots_of(drawing):
            column, row = (dot.x - grid.box.left) / cell, (dot.y - grid.box.top) / cell
            if 0 <= column < 5 and 0 <= row < 2:
                assert (column % 1, row % 1) == pytest.approx((0.5, 0.5))
                places[5 * int(row) + int(column)] = dot
        frames.append(places)
    assert sum(dot is not None for places in frames for dot in places) == len(dots_of(drawing))
    return frames


def marks(drawing: Drawing) -> list[str]:
    """The places of each frame as letters: filled, open, moved, taken, or a point for none."""
    crosses = [one.box for one in drawing.items if isinstance(one, Cross)]
    middles = {
        (round((one.left + one.right) / 2, 4), round((one.top + one.bottom) / 2, 4))
        for one in crosses
    }
    assert len(middles) == len(crosses)
    return ["".join(mark(dot, middles) for dot in places) for places in cells(drawing)]


def mark(dot: Dot | None, crossed: set[tuple[float, float]]) -> str:
    if dot is None:
        return "."
    if (round(dot.x, 4), round(dot.y, 4)) in crossed:
        assert not dot.filled and not dot.core
        return "t"
    if dot.core:
        assert not dot.filled and 1 < dot.core < dot.radius - 1
        return "m"
    return "f" if dot.filled else "o"


@pytest.mark.parametrize("size", SIZES)
def test_making_a_ten_fills_the_first_frame_from_the_second_number(size: str) -> None:
    solutions = found("make-a-ten", ADD)
    assert len({numbers(one) for one in solutions}) == 20
    for solution in solutions:
        a, b = numbers(solution)
        drawing = ten_frame.worked(solution, measures=SIZES[size])
        assert drawing is not None
        assert len(dots_of(drawing)) == a + b
        rest = a + b - 10
        assert marks(drawing) == ["f" * a + "m" * (10 - a), "o" * rest + "." * (10 - rest)]
        (arrow,) = (one for one in drawing.items if isinstance(one, Arrow))
        assert arrow.x2 < arrow.x1
        assert [one.text for one in labels_of(drawing)] == [
            str(a), str(b), "+", f"+{10 - a}", "10", str(rest), "+", str(a + b), "=",
        ]  # fmt: skip
        assert ringed(drawing) == str(a + b)


@pytest.mark.parametrize("size", SIZES)
def test_giving_and_taking_fills_the_frame_of_the_number_that_takes(size: str) -> None:
    solutions = found("give-and-take", ADD)
    assert len({numbers(one) for one in solutions}) == 64
    ways = set()
    for solution in solutions:
        a, b = numbers(solution)
        drawing = ten_frame.worked(solution, measures=SIZES[size])
        assert drawing is not None
        assert len(dots_of(drawing)) == a + b
        first, second = solution.lines[0].split(" = ")[1].split(" + ")
        (arrow,) = (one for one in drawing.items if isinstance(one, Arrow))
        rest = a + b - 10
        if arrow.x2 < arrow.x1:
            assert first == "10"
            assert marks(drawing) == ["f" * a + "m" * (10 - a), "o" * rest + "." * (10 - rest)]
        else:
            assert second == "10"
            assert marks(drawing) == ["f" * rest + "." * (10 - rest), "o" * b + "m" * (10 - b)]
        ways.add(arrow.x2 < arrow.x1)
        assert ringed(drawing) == str(a + b)
    assert ways == {True, False}


@pytest.mark.parametrize("size", SIZES)
def test_going_back_to_ten_crosses_out_two_groups(size: str) -> None:
    solutions = found("make-a-ten", SUBTRACT)
    assert len(solutions) == 36
    for solution in solutions:
        a, b = numbers(solution)
        drawing = ten_frame.worked(solution, measures=SIZES[size])
        assert drawing is not None
        assert len(dots_of(drawing)) == a
        near, left = a - 10, a - b
        assert marks(drawing) == ["f" * left + "t" * (10 - left), "t" * near + "." * (10 - near)]
        minus = "\N{MINUS SIGN}"
        texts = [one.text for one in labels_of(drawing)]
        assert texts[:2] == [f"{minus}{10 - left}", f"{minus}{near}"]
        assert texts[2:] == [str(left), f"{a} {minus} {near} {minus} {10 - left} ="]
        assert ringed(drawing) == str(left)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize(
    ("strategy", "form", "count"),
    [("doubles", ADD, 10), ("doubles", SUBTRACT, 10), ("near-doubles", ADD, 36)],
)
def test_doubles_have_two_equal_rows_in_fives(
    strategy: str, form: Form, count: int, size: str
) -> None:
    solutions = found(strategy, form)
    assert len(solutions) == count
    for solution in solutions:
        a, b = numbers(solution)
        half = min(a, b)
        drawing = double_rows.worked(solution, measures=SIZES[size])
        assert drawing is not None
        (frame,) = (one.box for one in drawing.items if isinstance(one, Frame))
        dots = dots_of(drawing)
        inside = [one for one in dots if frame.left < one.x < frame.right]
        over = [one for one in dots if one.x > frame.right]
        first, second = sorted({one.y for one in dots})
        upper, lower = (sorted(one.x for one in inside if one.y == y) for y in (first, second))
        assert upper == lower and len(upper) == half
        gaps = [round(right - left, 4) for left, right in pairwise(upper)]
        wide = [place for place, gap in enumerate(gaps) if gap > min(gaps)]
        assert wide == ([4] if half > 5 else [])
        assert all(one.filled == (one.y == first) for one in inside)
        crosses = [one.box for one in drawing.items if isinstance(one, Cross)]
        if form is SUBTRACT:
            assert len(dots) == a and len(crosses) == b
            assert all(one.top < second < one.bottom for one in crosses)
            assert ringed(drawing) == str(a - b)
        else:
            assert len(dots) == a + b and not crosses
            assert len(over) == abs(a - b) and all(one.core for one in over)
            assert {one.y for one in over} <= {first if a > b else second}
            assert ringed(drawing) == str(a + b)


def ringed(drawing: Drawing) -> str:
    (ring,) = (one for one in drawing.items if isinstance(one, Ring))
    (text,) = (one.text for one in labels_of(drawing) if one.box.overlaps(ring.box))
    return text


ALTS = {
    ("make-a-ten", ADD, 8, 5): (
        "Ten frames for 8 plus 5. The first frame has 8 dots. 2 of the 5 dots move over from the "
        "second frame and fill it to 10. 3 dots stay in the second frame. 10 plus 3 is 13, the "
        "answer."
    ),
    ("give-and-take", ADD, 2, 9): (
        "Ten frames for 2 plus 9. The second frame has 9 dots. 1 of the 2 dots moves over from the "
        "first frame and fills it to 10. 1 dot stays in the first frame. 1 plus 10 is 11, the "
        "answer."
    ),
    ("make-a-ten", SUBTRACT, 13, 8): (
        "Ten frames with 13 dots, a full frame of 10 and 3 in the second frame. First the 3 dots "
        "of the second frame are crossed out: 10 are left. Then 5 dots of the full frame are "
        "crossed out. 13 minus 3 minus 5 is 5, the answer."
    ),
    ("doubles", ADD, 6, 6): "Two rows of dots, 6 in each: 6 plus 6 is 12, the answer.",
    ("doubles", SUBTRACT, 12, 6): (
        "Two rows of dots, 6 in each, 12 in all. One row of 6 is crossed out. 12 minus 6 is 6, the "
        "answer."
    ),
    ("near-doubles", ADD, 6, 7): (
        "Two rows of dots, 6 in each: 6 plus 6 is 12. 1 more dot is marked at the end of the "
        "second row. 12 plus 1 is 13, the answer."
    ),
    ("near-doubles", ADD, 11, 9): (
        "Two rows of dots, 9 in each: 9 plus 9 is 18. 2 more dots are marked at the end of the "
        "first row. 18 plus 2 is 20, the answer."
    ),
}


@pytest.mark.parametrize("case", ALTS, ids=str)
def test_alt_text_tells_the_numbers_and_steps(case: tuple[str, Form, int, int]) -> None:
    draw = double_rows.worked if "doubles" in case[0] else ten_frame.worked
    drawing = draw(solved(*case))
    assert drawing is not None and drawing.alt == ALTS[case]


@pytest.mark.parametrize(
    "solution",
    [
        solved("doubles", ADD, 15, 15),
        solved("doubles", SUBTRACT, 30, 15),
        solved("near-doubles", ADD, 24, 25),
        solved("near-doubles", ADD, 34, 36),
        solved("give-and-take", ADD, 28, 14),
        by_jumps(8, 2, 3),
        Solution("+", 8, 5, None, (), ("8 + 5 = 13",), "last line", ("I know it.",)),
        Solution("-", 13, 8, None, (), ("13 - 8 = 5",), "last line", ("I know it.",)),
        Solution(None, None, None, None, (), ("4 = 2 + 2",), "all lines", ("I list them.",)),
    ],
    ids=lambda one: f"{one.lines}",
)
def test_other_solutions_have_no_dots(solution: Solution) -> None:
    assert ten_frame.worked(solution) is None
    assert double_rows.worked(solution) is None
