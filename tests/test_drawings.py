"""Drawings: labels never touch, longer is longer, both writers show the same picture."""

import struct
from collections.abc import Iterator
from itertools import combinations
from random import Random

import font_roboto
import pytest
import resvg_py
from lxml import etree

from storybank import strategies
from storybank.drawings import (
    Arc,
    Box,
    Dot,
    Drawing,
    Label,
    Line,
    Ring,
    open_number_line,
    to_png,
    to_svg,
)
from storybank.drawings._png_file import read_alpha
from storybank.model import Form, Jump, Solution


def by_jumps(start: int, *sizes: int, answer_is: str = "landing") -> Solution:
    made, place = [], start
    for size in sizes:
        made.append(Jump(place, place + size, size, "why"))
        place += size
    return Solution("+", start, sum(sizes), start, tuple(made), (), answer_is, ("Jump.",))


SHAPES = {
    "forward": by_jumps(46, 30, 8),
    "back": by_jumps(82, -40, -7),
    "past and back": by_jumps(46, 40, -2),
    "back past and forward": by_jumps(82, -50, 3),
    "counting up": by_jumps(67, 3, 12, answer_is="sum of jumps"),
    "counting up past": by_jumps(44, 40, -2, answer_is="sum of jumps"),
    "hops": by_jumps(8, 1, 1, 1),
    "many": by_jumps(100, *[100] * 9),
}


def faults(drawing: Drawing) -> list[str]:
    labels = [one for one in drawing.items if isinstance(one, Label)]
    rings = [one for one in drawing.items if isinstance(one, Ring)]
    found = []
    for first, second in combinations(labels, 2):
        if first.box.overlaps(second.box):
            found.append(f"{first.text} touches {second.text}")
    page = Box(0, 0, drawing.width, drawing.height)
    for box in (*(one.box for one in labels), *(one.box for one in rings)):
        if (
            box.left < page.left
            or box.right > page.right
            or box.top < 0
            or box.bottom > page.bottom
        ):
            found.append(f"{box} is outside")
    for ring in rings:
        inside = [one.text for one in labels if one.box.overlaps(ring.box)]
        if len(inside) != 1:
            found.append(f"the ring is around {inside}")
    for line in (one for one in drawing.items if isinstance(one, Line)):
        found += [
            f"{one.text} lies on the line"
            for one in labels
            if one.box.top < line.y1 < one.box.bottom
        ]
    return found


def shape_of(solution: Solution) -> tuple[object, ...]:
    """What the layout depends on: the sizes of the jumps and the number of digits."""
    digits = tuple(len(str(jump.to)) for jump in solution.jumps)
    sizes = tuple(jump.by for jump in solution.jumps)
    return len(str(solution.start)), digits, sizes, solution.answer_is


def all_solutions(limit: int, pairs: Iterator[tuple[int, int]]) -> Iterator[Solution]:
    for a, b in pairs:
        for form in Form:
            if (form is Form.ADD and a + b > limit) or (form is not Form.ADD and b >= a):
                continue
            for strategy in strategies.by_rank():
                solution = strategy.solve(form, a, b, limit)
                if solution is not None and solution.jumps:
                    yield solution


def check_all(solutions: Iterator[Solution]) -> int:
    seen: set[tuple[object, ...]] = set()
    for solution in solutions:
        shape = shape_of(solution)
        if shape not in seen:
            seen.add(shape)
            assert faults(open_number_line.worked(solution)) == [], solution
    return len(seen)


def test_no_labels_touch_for_any_pair_within_100() -> None:
    pairs = ((a, b) for a in range(1, 100) for b in range(1, 100))
    assert check_all(all_solutions(100, pairs)) > 2000


def test_no_labels_touch_for_pairs_within_1000() -> None:
    luck = Random(5)
    pairs = ((luck.randint(1, 1000), luck.randint(1, 999)) for _ in range(2000))
    assert check_all(all_solutions(1000, pairs)) > 2000


def test_the_check_for_touching_labels_fires() -> None:
    near = Drawing(100, 50, (Label(40, 20, "46"), Label(50, 20, "47")), "t", "a")
    assert faults(near) == ["46 touches 47"]
    assert faults(Drawing(100, 50, (Label(2, 20, "46"),), "t", "a")) != []


@pytest.mark.parametrize("name", SHAPES)
def test_longer_jumps_are_drawn_longer(name: str) -> None:
    solution = SHAPES[name]
    arcs = [one for one in open_number_line.worked(solution).items if isinstance(one, Arc)]
    sizes = [
        (abs(jump.by), abs(arc.x2 - arc.x1)) for jump, arc in zip(solution.jumps, arcs, strict=True)
    ]
    for (size, length), (other_size, other_length) in combinations(sizes, 2):
        if size != other_size:
            assert (size > other_size) == (length > other_length)
    for jump, arc in zip(solution.jumps, arcs, strict=True):
        assert (jump.by > 0) == (arc.x2 > arc.x1)
        back = (jump.by > 0) != (solution.jumps[0].by > 0)
        assert arc.dashed == back == (arc.rise < 0)


def test_alt_text_tells_the_jumps_and_the_answer() -> None:
    assert open_number_line.worked(SHAPES["past and back"]).alt == (
        "Open number line: start at 46, jump forward 40 to 86, jump back 2 to 84. The answer is 84."
    )
    assert open_number_line.worked(SHAPES["counting up"]).alt == (
        "Open number line: start at 67, jump forward 3 to 70, jump forward 12 to 82. "
        "The jumps make 15 in all, the answer."
    )


def test_counting_up_rings_the_sum_and_others_the_landing() -> None:
    for name, ringed in (
        ("counting up", "15"),
        ("counting up past", "38"),
        ("past and back", "84"),
    ):
        drawing = open_number_line.worked(SHAPES[name])
        (ring,) = (one for one in drawing.items if isinstance(one, Ring))
        labels = [one for one in drawing.items if isinstance(one, Label)]
        assert [one.text for one in labels if one.box.overlaps(ring.box)] == [ringed]


def test_a_solution_by_lines_has_no_number_line() -> None:
    lines = Solution("+", 6, 6, None, (), ("6 + 6 = 12",), "last line", ("Double 6.",))
    with pytest.raises(ValueError, match="needs jumps"):
        open_number_line.worked(lines)


def test_blank_lines_hold_nothing_more_than_asked_for() -> None:
    assert [one for one in open_number_line.blank().items if isinstance(one, Label)] == []
    placed = open_number_line.blank(46)
    assert [one.text for one in placed.items if isinstance(one, Label)] == ["46"]
    circle = open_number_line.blank(empty_circle=True)
    assert [one for one in circle.items if isinstance(one, Label | Arc)] == []


@pytest.mark.parametrize("name", SHAPES)
def test_lines_are_thick_enough_and_inks_dark_enough(name: str) -> None:
    for item in open_number_line.worked(SHAPES[name]).items:
        if isinstance(item, Line | Arc | Ring):
            assert item.width >= 1
        if isinstance(item, Line | Arc | Ring | Label):
            assert contrast_with_white(item.ink) >= 4.5


def contrast_with_white(ink: str) -> float:
    """Contrast ratio of WCAG 2.2 (relative luminance)."""
    shares = [int(ink[start : start + 2], 16) / 255 for start in (1, 3, 5)]
    red, green, blue = (
        one / 12.92 if one <= 0.04045 else ((one + 0.055) / 1.055) ** 2.4 for one in shares
    )
    return 1.05 / (0.2126 * red + 0.7152 * green + 0.0722 * blue + 0.05)


def test_svg_is_well_formed_and_says_what_it_shows() -> None:
    drawing = open_number_line.worked(SHAPES["past and back"])
    root = etree.fromstring(to_svg(drawing).encode())
    assert root.get("aria-label") == drawing.alt
    assert root.get("viewBox") == f"0 0 {root.get('width')} {root.get('height')}"


@pytest.mark.parametrize("name", SHAPES)
def test_png_shows_what_an_svg_renderer_shows(name: str) -> None:
    drawing = open_number_line.worked(SHAPES[name])
    png = to_png(drawing)
    width, height = struct.unpack(">II", png[16:24])
    # Only opacity is compared: what is not paper, drawn by an independent renderer.
    bare = to_svg(drawing, standalone=False).replace('fill="#ffffff"', 'fill="none"')
    _, drawn_height, rows = read_alpha(
        bytes(
            resvg_py.svg_to_bytes(
                svg_string=bare, width=width, font_files=[font_roboto.Roboto],
                skip_system_fonts=True,
            )
        )
    )  # fmt: skip
    assert abs(drawn_height - height) <= 1
    ours = {
        (x, y) for y, row in enumerate(palette_rows(png, width, height))
        for x, level in enumerate(row) if level > 5
    }  # fmt: skip
    theirs = {(x, y) for y, row in enumerate(rows) for x, one in enumerate(row) if one > 127}
    assert len(theirs) > 10_000
    # A dot beside is near enough: sizes are rounded to whole dots in two ways. The line shows
    # inside the empty circles here, since their white ground was taken out above.
    circles = [one for one in drawing.items if isinstance(one, Dot) and not one.filled]
    missing = [
        one for one in far_from(theirs, ours)
        if all(abs(one[0] - dot.x * 220 / 72) > 12 for dot in circles)
    ]  # fmt: skip
    # Less than one dot in 500 stands alone: dashes end and slopes are smoothed a little apart.
    assert len(missing) < len(theirs) / 500
    assert len(far_from(ours, theirs)) < len(ours) / 500
    moved = {(x, y + 3) for x, y in ours}
    assert len(far_from(moved, theirs)) > len(ours) / 10


def far_from(dots: set[tuple[int, int]], others: set[tuple[int, int]]) -> list[tuple[int, int]]:
    """The dots that have none of `others` on or beside them."""
    return [
        (x, y)
        for x, y in dots
        if not any((x + dx, y + dy) in others for dx in (-1, 0, 1) for dy in (-1, 0, 1))
    ]


def palette_rows(png: bytes, width: int, height: int) -> list[list[int]]:
    """The level of ink, 0 to 10, of each dot."""
    import zlib

    place = png.index(b"IDAT") + 4
    raw = zlib.decompress(png[place:])
    rows = [raw[(width + 1) * y + 1 : (width + 1) * (y + 1)] for y in range(height)]
    return [[0 if not one else (one - 1) % 10 + 1 for one in row] for row in rows]
