"""The open number line: longer is longer, rows where it is long, the same pictures as before."""

import json
from itertools import combinations, pairwise
from pathlib import Path
from typing import Any

import pytest
from drawings.faults import faults, labels_of
from drawings.solutions import LONG, SHAPES, by_jumps

from storybank import drawings
from storybank.drawings import (
    LARGE,
    NORMAL,
    Arc,
    Box,
    Dot,
    Drawing,
    Label,
    Line,
    Measures,
    Ring,
    open_number_line,
    tape_diagram,
)
from storybank.model import Solution

SIZES = {"normal": NORMAL, "large": LARGE}
BEFORE = json.loads((Path(__file__).parent / "pictures_at_normal.json").read_text("utf-8"))
"""Display lists as they were before drawings had measures."""


def arcs_of(drawing: Drawing) -> list[Arc]:
    return [one for one in drawing.items if isinstance(one, Arc)]


def lengths(solution: Solution, measures: Measures) -> list[tuple[int, float]]:
    arcs = arcs_of(open_number_line.worked(solution, measures=measures))
    return [
        (abs(jump.by), abs(arc.x2 - arc.x1)) for jump, arc in zip(solution.jumps, arcs, strict=True)
    ]


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", [*SHAPES, *LONG])
def test_longer_jumps_are_drawn_longer(name: str, size: str) -> None:
    solution = (SHAPES | LONG)[name]
    for (number, length), (other, other_length) in combinations(lengths(solution, SIZES[size]), 2):
        if number != other:
            assert (number > other) == (length > other_length)
    arcs = arcs_of(open_number_line.worked(solution, measures=SIZES[size]))
    for jump, arc in zip(solution.jumps, arcs, strict=True):
        assert (jump.by > 0) == (arc.x2 > arc.x1)
        back = (jump.by > 0) != (solution.jumps[0].by > 0)
        assert arc.dashed == back == (arc.rise < 0)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("name", LONG)
def test_long_lines_have_no_faults(name: str, size: str) -> None:
    assert faults(open_number_line.worked(LONG[name], measures=SIZES[size])) == []


def rows_of(drawing: Drawing) -> list[tuple[list[Label], list[Arc]]]:
    """The numbers below each line, from the left, and its arcs."""
    lines = [one.y1 for one in drawing.items if isinstance(one, Line)]
    found = []
    for y, below in pairwise([*lines, drawing.height]):
        numbers = [one for one in labels_of(drawing) if y < one.y < below and one.text.isdigit()]
        arcs = [one for one in arcs_of(drawing) if one.y == y]
        found.append((sorted(numbers, key=lambda one: one.x), arcs))
    return found


@pytest.mark.parametrize(
    ("name", "rows", "text"),
    [
        ("many", [[100, 200, 300, 400, 500, 600], [600, 700, 800, 900, 1000]], "second row at 600"),
        ("many back", [[500, 600, 700, 800, 900, 1000], [100, 200, 300, 400, 500]], "row at 500"),
        ("three rows", [[*range(980, 988)], [*range(987, 995)], [*range(994, 1001)]], "row at 994"),
    ],
)
def test_a_large_line_goes_on_in_the_next_row(name: str, rows: list[list[int]], text: str) -> None:
    drawing = open_number_line.worked((SHAPES | LONG)[name], measures=LARGE)
    found = rows_of(drawing)
    assert [[int(one.text) for one in numbers] for numbers, _ in found] == rows
    assert text in drawing.alt
    # A row begins below the number where the row above began, and ends where that one stood.
    firsts = {round(arcs[0].x1, 6) for _, arcs in found}
    assert len(firsts) == 1
    # Equal jumps are equally long in all rows.
    assert len({round(arc.x2 - arc.x1, 6) for _, arcs in found for arc in arcs}) == 1
    assert {one.size for one in labels_of(drawing)} == {18.0}


def test_what_fits_on_one_row_stays_on_one() -> None:
    for name in ("forward", "past and back", "counting up", "hops"):
        drawing = open_number_line.worked(SHAPES[name], measures=LARGE)
        assert len(rows_of(drawing)) == 1
        assert "row" not in drawing.alt
    assert len(rows_of(open_number_line.worked(SHAPES["many"]))) == 1


def test_a_long_sum_is_written_on_several_lines() -> None:
    drawing = open_number_line.worked(LONG["counting up by hundreds"], measures=LARGE)
    top = min(one.y1 for one in drawing.items if isinstance(one, Line))
    sums = [one for one in labels_of(drawing) if "+ " in one.text or one.text.endswith("=")]
    assert len(sums) == 2 and all(one.y < top for one in sums)
    assert " ".join(one.text for one in sums) == " + ".join(["100"] * 10) + " ="


def test_labels_at_normal_are_as_small_as_11_points_and_not_smaller() -> None:
    jumps = by_jumps(0, *[100] * 11)
    assert {one.size for one in labels_of(open_number_line.worked(jumps))} == {11.0}
    more = open_number_line.worked(by_jumps(0, *[100] * 12))
    assert {one.size for one in labels_of(more)} == {13.0} and len(rows_of(more)) == 2


def test_more_than_three_rows_are_refused() -> None:
    with pytest.raises(ValueError, match=r"40 jumps are too many for 3 rows .* 496 points wide"):
        open_number_line.worked(by_jumps(0, *[1] * 40), measures=LARGE)


def test_everything_grows_with_the_type() -> None:
    small, large = (
        open_number_line.worked(SHAPES["past and back"], measures=one) for one in (NORMAL, LARGE)
    )
    grown = 18 / 13
    assert large.height >= small.height * grown * 0.99
    for one, other in zip(small.items, large.items, strict=True):
        if isinstance(one, Dot) and isinstance(other, Dot):
            assert other.radius == pytest.approx(one.radius * grown)
        if isinstance(one, Arc) and isinstance(other, Arc):
            assert other.head_length == pytest.approx(one.head_length * grown)
            assert abs(other.rise) == pytest.approx(abs(one.rise) * grown)
        if not isinstance(one, Label) and not isinstance(other, Label):
            assert other.width > one.width


def test_alt_text_tells_the_jumps_and_the_answer() -> None:
    assert open_number_line.worked(SHAPES["past and back"]).alt == (
        "Open number line: start at 46, jump forward 40 to 86, jump back 2 to 84. The answer is 84."
    )
    assert open_number_line.worked(SHAPES["counting up"]).alt == (
        "Open number line: start at 67, jump forward 3 to 70, jump forward 12 to 82. "
        "The jumps make 15 in all, the answer."
    )


@pytest.mark.parametrize("size", SIZES)
def test_counting_up_rings_the_sum_and_others_the_landing(size: str) -> None:
    for name, ringed in (
        ("counting up", "15"),
        ("counting up past", "38"),
        ("past and back", "84"),
        ("many", "1000"),
        ("counting up by hundreds", "1000"),
    ):
        drawing = open_number_line.worked((SHAPES | LONG)[name], measures=SIZES[size])
        (ring,) = (one for one in drawing.items if isinstance(one, Ring))
        assert [one.text for one in labels_of(drawing) if one.box.overlaps(ring.box)] == [ringed]


def test_a_solution_by_lines_has_no_number_line() -> None:
    lines = Solution("+", 6, 6, None, (), ("6 + 6 = 12",), "last line", ("Double 6.",))
    with pytest.raises(ValueError, match="needs jumps"):
        open_number_line.worked(lines)


@pytest.mark.parametrize("size", SIZES)
def test_blank_lines_hold_nothing_more_than_asked_for(size: str) -> None:
    measures = SIZES[size]
    assert labels_of(open_number_line.blank(measures=measures)) == []
    placed = open_number_line.blank(46, measures=measures)
    assert [(one.text, one.size) for one in labels_of(placed)] == [("46", measures.sizes[0])]
    circle = open_number_line.blank(empty_circle=True, measures=measures)
    assert [one for one in circle.items if isinstance(one, Label | Arc)] == []
    (dot,) = (one for one in circle.items if isinstance(one, Dot))
    assert not dot.filled and dot.x == measures.width / 2


def now(name: str) -> Drawing:
    match name:
        case "blank":
            return open_number_line.blank()
        case "blank 46":
            return open_number_line.blank(46)
        case "blank circle":
            return open_number_line.blank(empty_circle=True)
        case "parts":
            return tape_diagram.parts(34, 25, None)
        case "comparison":
            return tape_diagram.compare(39, None, 72)
    return open_number_line.worked(SHAPES[name])


@pytest.mark.parametrize("name", BEFORE)
def test_pictures_at_normal_are_what_they_were(name: str) -> None:
    before: dict[str, Any] = BEFORE[name]
    items = tuple(item(kind, values) for kind, values in before["items"])
    expected = Drawing(**{**before, "items": items})
    assert now(name) == expected


def item(kind: str, values: dict[str, Any]) -> drawings.Item:
    """The item of these values; what it has got since has the value that changes nothing."""
    made: drawings.Item = getattr(drawings, kind)(
        **{name: Box(**one) if name == "box" else one for name, one in values.items()}
    )
    return made


@pytest.mark.parametrize("name", SHAPES)
def test_a_line_shown_in_part_is_the_whole_with_the_rest_left_out(name: str) -> None:
    solution = SHAPES[name]
    whole = open_number_line.worked(solution)
    assert open_number_line.worked(solution, shown=len(solution.jumps)) == whole
    for shown in range(1, len(solution.jumps)):
        part = open_number_line.worked(solution, shown=shown)
        assert (part.width, part.height) == (whole.width, whole.height)
        assert set(part.items) < set(whole.items)
        assert sum(isinstance(one, Arc) for one in part.items) == shown
        assert not any(isinstance(one, Ring) for one in part.items)
        assert part.alt.endswith("There is more to come.")
        assert f"to {solution.jumps[shown - 1].to}." in part.alt
