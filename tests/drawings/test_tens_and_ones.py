"""Tens and ones: every bar and square is counted against the numbers of the solution."""

import pytest
from drawings.faults import labels_of
from drawings.solutions import ADD, SUBTRACT, by_jumps, solved, within_100

from storybank.drawings import (
    LARGE,
    NORMAL,
    Box,
    Cross,
    Drawing,
    Frame,
    Grid,
    Ring,
    tens_and_ones,
)
from storybank.model import Solution

SIZES = {"normal": NORMAL, "large": LARGE}


def bars(drawing: Drawing) -> list[Box]:
    return [one.box for one in drawing.items if isinstance(one, Grid)]


def squares(drawing: Drawing) -> list[Box]:
    return [one.box for one in drawing.items if isinstance(one, Frame)]


def crossed(drawing: Drawing, boxes: list[Box]) -> list[Box]:
    """Those of the boxes that have a cross over their middle."""
    crosses = [one.box for one in drawing.items if isinstance(one, Cross)]
    return [
        box
        for box in boxes
        if any(
            abs(one.left + one.right - box.left - box.right) < 0.01
            and abs(one.top + one.bottom - box.top - box.bottom) < 0.01
            for one in crosses
        )
    ]


@pytest.mark.parametrize("size", SIZES)
def test_bars_and_squares_are_as_many_as_the_tens_and_ones(size: str) -> None:
    added = taken = 0
    for strategy, solution in within_100():
        if strategy != "split-tens-and-ones":
            continue
        a, b = solution.a, solution.b
        assert a is not None and b is not None
        drawing = tens_and_ones.worked(solution, measures=SIZES[size])
        assert drawing is not None
        tens, ones = bars(drawing), squares(drawing)
        feet = sorted({round(box.bottom, 4) for box in tens})
        if solution.operation == "+":
            added += 1
            upper = feet[0]
            by_row = [sum(round(box.bottom, 4) == foot for box in tens) for foot in feet]
            assert by_row == [a // 10, b // 10]
            assert sum(box.bottom < upper + 0.01 for box in ones) == a % 10
            assert sum(box.bottom > upper + 0.01 for box in ones) == b % 10
            assert not crossed(drawing, [*tens, *ones])
            answer = a + b
        else:
            taken += 1
            assert len(feet) == 1
            assert (len(tens), len(ones)) == (a // 10, a % 10)
            assert len(crossed(drawing, tens)) == b // 10
            assert len(crossed(drawing, ones)) == b % 10
            assert len([one for one in drawing.items if isinstance(one, Cross)]) == b // 10 + b % 10
            answer = a - b
        (ring,) = (one for one in drawing.items if isinstance(one, Ring))
        inside = [one.text for one in labels_of(drawing) if one.box.overlaps(ring.box)]
        assert inside == [str(answer)]
    assert added > 2800 and taken > 2200


@pytest.mark.parametrize("size", SIZES)
def test_a_bar_is_ten_squares_and_no_column_has_more_than_five(size: str) -> None:
    solution = solved("split-tens-and-ones", ADD, 48, 19)
    drawing = tens_and_ones.worked(solution, measures=SIZES[size])
    assert drawing is not None
    (side,) = {round(box.bottom - box.top, 4) for box in squares(drawing)}
    assert {round(box.right - box.left, 4) for box in (*bars(drawing), *squares(drawing))} == {side}
    assert {round(box.bottom - box.top, 3) for box in bars(drawing)} == {round(10 * side, 3)}
    grids = [one for one in drawing.items if isinstance(one, Grid)]
    assert {(one.columns, one.rows) for one in grids} == {(1, 10)}
    upper = min(box.bottom for box in bars(drawing))
    columns: dict[tuple[bool, float], int] = {}
    for box in squares(drawing):
        key = box.bottom < upper + 0.01, round(box.left, 4)
        columns[key] = columns.get(key, 0) + 1
    assert sorted(columns.values()) == [3, 4, 5, 5]
    # Tens stand under tens and ones under ones.
    assert len({round(box.left, 4) for box in bars(drawing)}) == 4
    assert len({left for _, left in columns}) == 2


def test_labels_stand_where_their_pieces_are() -> None:
    added = tens_and_ones.worked(solved("split-tens-and-ones", ADD, 38, 25))
    assert added is not None
    assert [one.text for one in labels_of(added)] == ["38", "+ 25", "50", "13", "+", "63", "="]
    taken = tens_and_ones.worked(solved("split-tens-and-ones", SUBTRACT, 78, 25))
    assert taken is not None
    minus = "\N{MINUS SIGN}"
    texts = [one.text for one in labels_of(taken)]
    assert texts == [f"{minus}20", f"{minus}5", "78", f"{minus} 25", "50", "3", "+", "53", "="]
    tens, ones = labels_of(taken)[:2]
    gone = crossed(taken, bars(taken))
    assert gone[0].left < tens.x < gone[-1].right
    assert all(one.y < gone[0].top for one in (tens, ones))


def test_alt_text_tells_the_numbers_and_steps() -> None:
    added = tens_and_ones.worked(solved("split-tens-and-ones", ADD, 38, 21))
    assert added and added.alt == (
        "Tens and ones for 38 plus 21. 38 is 3 tens and 8 ones, 21 is 2 tens and 1 one. The tens "
        "make 50, the ones make 9. 50 plus 9 is 59, the answer."
    )
    taken = tens_and_ones.worked(solved("split-tens-and-ones", SUBTRACT, 78, 25))
    assert taken and taken.alt == (
        "Tens and ones for 78 minus 25. 78 is 7 tens and 8 ones. 2 tens and 5 ones are crossed "
        "out. 5 tens and 3 ones are left. 50 plus 3 is 53, the answer."
    )


@pytest.mark.parametrize(
    "solution",
    [
        solved("split-tens-and-ones", ADD, 84, 38),
        solved("split-tens-and-ones", SUBTRACT, 325, 163),
        Solution("-", 82, 47, None, (), ("82 - 47 = 35",), "last line", ("I know it.",)),
        Solution(None, None, None, None, (), ("4 = 2 + 2",), "all lines", ("I list them.",)),
        by_jumps(46, 30, 8),
    ],
    ids=lambda one: f"{one.lines}",
)
def test_other_solutions_have_no_bars(solution: Solution) -> None:
    assert tens_and_ones.worked(solution) is None
