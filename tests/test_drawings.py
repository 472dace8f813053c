"""Drawings: labels never touch, longer is longer, both writers show the same picture."""

import io
from collections.abc import Iterator
from itertools import combinations
from random import Random

import font_roboto
import pytest
import resvg_py
from lxml import etree
from PIL import Image

from storybank import strategies
from storybank.drawings import (
    Arc,
    Box,
    Dot,
    Drawing,
    Frame,
    Label,
    Line,
    Ring,
    open_number_line,
    tape_diagram,
    to_png,
    to_svg,
)
from storybank.drawings._png import DPI
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


def strokes(drawing: Drawing) -> Iterator[Box]:
    """The room that straight lines and the edges of frames take."""
    for item in drawing.items:
        if isinstance(item, Line):
            yield thick(item.x1, item.y1, item.x2, item.y2, item.width)
        elif isinstance(item, Frame):
            box = item.box
            yield thick(box.left, box.top, box.right, box.top, item.width)
            yield thick(box.left, box.bottom, box.right, box.bottom, item.width)
            yield thick(box.left, box.top, box.left, box.bottom, item.width)
            yield thick(box.right, box.top, box.right, box.bottom, item.width)


def thick(x1: float, y1: float, x2: float, y2: float, width: float) -> Box:
    half = width / 2
    return Box(min(x1, x2) - half, min(y1, y2) - half, max(x1, x2) + half, max(y1, y2) + half)


def faults(drawing: Drawing) -> list[str]:
    labels = [one for one in drawing.items if isinstance(one, Label)]
    rings = [one for one in drawing.items if isinstance(one, Ring)]
    found = []
    for first, second in combinations(labels, 2):
        if first.box.overlaps(second.box):
            found.append(f"{first.text} touches {second.text}")
    page = Box(0, 0, drawing.width, drawing.height)
    for box in (*(one.box for one in (*labels, *rings)), *strokes(drawing)):
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
    for stroke in strokes(drawing):
        found += [f"{one.text} lies on a line" for one in labels if one.box.overlaps(stroke)]
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
    framed = Frame(Box(10, 5, 40, 30)), Label(38, 20, "46")
    assert faults(Drawing(100, 50, framed, "t", "a")) == ["46 lies on a line"]


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


PICTURES = {
    **{name: open_number_line.worked(solution) for name, solution in SHAPES.items()},
    "parts": tape_diagram.parts(34, 25, None),
    "comparison": tape_diagram.compare(39, None, 72),
    "letters": Drawing(120, 40, (Label(60, 25, "Zoë Müller"),), "t", "a"),
}


@pytest.mark.parametrize("name", PICTURES)
def test_png_shows_what_an_svg_renderer_shows(name: str) -> None:
    drawing = PICTURES[name]
    ours = Image.open(io.BytesIO(to_png(drawing)))
    assert ours.info["dpi"] == pytest.approx((DPI, DPI), abs=0.1)
    # Only opacity is compared: what is not paper, drawn by an independent renderer.
    bare = to_svg(drawing).replace('fill="#ffffff"', 'fill="none"')
    theirs = Image.open(
        io.BytesIO(
            resvg_py.svg_to_bytes(
                svg_string=bare, width=ours.width, font_files=[font_roboto.Roboto],
                skip_system_fonts=True,
            )
        )
    )  # fmt: skip
    assert abs(theirs.height - ours.height) <= 1
    drawn = dots(ours.point([0 if not index else (index - 1) % 10 + 1 for index in range(256)]), 5)
    expected = dots(theirs.getchannel("A"), 127)
    assert len(expected) > 500
    # A dot beside is near enough: sizes are rounded to whole dots in two ways. The line shows
    # inside the empty circles here, since their white ground was taken out above.
    circles = [one for one in drawing.items if isinstance(one, Dot) and not one.filled]
    missing = [
        one for one in far_from(expected, drawn)
        if all(abs(one[0] - dot.x * DPI / 72) > 12 for dot in circles)
    ]  # fmt: skip
    # Less than one dot in 200 stands alone: dashes end and slopes are smoothed a little apart.
    assert len(missing) < len(expected) / 200
    assert len(far_from(drawn, expected)) < len(drawn) / 200
    moved = {(x, y + 3) for x, y in drawn}
    assert len(far_from(moved, expected)) > len(drawn) / 10


def dots(picture: Image.Image, least: int) -> set[tuple[int, int]]:
    """The dots whose value is above `least`."""
    values = picture.tobytes()
    width = picture.width
    return {(at % width, at // width) for at, value in enumerate(values) if value > least}


def test_png_has_the_inks_of_the_drawing() -> None:
    drawing = PICTURES["past and back"]
    picture = Image.open(io.BytesIO(to_png(drawing)))
    used = {f"#{red:02x}{green:02x}{blue:02x}" for _, (red, green, blue) in
            picture.convert("RGB").getcolors(256) or []}  # fmt: skip
    inks = {one.ink for one in drawing.items if isinstance(one, Arc | Label | Ring)}
    assert len(inks) == 3
    assert used >= {"#ffffff", *inks}
    assert len(used) <= 32


def test_png_refuses_a_letter_that_its_font_does_not_have() -> None:
    drawing = Drawing(120, 40, (Label(60, 25, "\u05e0"),), "t", "a")
    with pytest.raises(ValueError, match="Roboto has no"):
        to_png(drawing)


def far_from(dots: set[tuple[int, int]], others: set[tuple[int, int]]) -> list[tuple[int, int]]:
    """The dots that have none of `others` on or beside them."""
    return [
        (x, y)
        for x, y in dots
        if not any((x + dx, y + dy) in others for dx in (-1, 0, 1) for dy in (-1, 0, 1))
    ]


def bars() -> Iterator[tuple[Drawing, int, tuple[int, int, int]]]:
    """Bars of both kinds with each number asked for, and the answer."""
    luck = Random(7)
    pairs = [(a, b) for a in range(1, 13) for b in range(1, 13)]
    pairs += [(luck.randint(1, 500), luck.randint(1, 500)) for _ in range(300)]
    for a, b in pairs:
        numbers = (a, b, a + b)
        for asked in range(3):
            told = [None if place == asked else one for place, one in enumerate(numbers)]
            for make in (tape_diagram.parts, tape_diagram.compare):
                yield make(*told), asked, numbers


def test_bars_have_no_labels_that_touch() -> None:
    for drawing, _, numbers in bars():
        assert faults(drawing) == [], numbers


def test_bars_ask_for_the_unknown_and_do_not_show_it() -> None:
    for drawing, asked, numbers in bars():
        told = sorted([str(one) for place, one in enumerate(numbers) if place != asked])
        labels = [one.text for one in drawing.items if isinstance(one, Label)]
        assert sorted(labels) == sorted(["?", *told])
        said = drawing.alt.replace(".", " ").replace(",", " ").split()
        assert sorted(one for one in said if one.isdigit()) == told
        assert drawing.alt.count("the number to find") == 1


def test_bars_show_which_is_larger_but_no_lengths() -> None:
    shown: dict[tuple[bool, bool], set[float]] = {}
    for drawing, asked, (first, second, _) in bars():
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


def test_difference_is_bracketed_beside_the_shorter_bar() -> None:
    drawing = tape_diagram.compare(39, None, 72)
    longer, shorter = (one.box for one in drawing.items if isinstance(one, Frame))
    bracket = next(one for one in drawing.items if isinstance(one, Line)
                   and one.y1 == one.y2 and one.x1 > shorter.right)  # fmt: skip
    assert bracket.x2 == longer.right
    assert shorter.top < bracket.y1 < shorter.bottom
    (unknown,) = (one for one in drawing.items if isinstance(one, Label) and one.text == "?")
    assert bracket.x1 < unknown.x < bracket.x2


@pytest.mark.parametrize("numbers", [(1, 2, 3), (None, None, 3), (None, None, None)])
def test_bars_need_exactly_one_unknown(numbers: tuple[int | None, ...]) -> None:
    for make in (tape_diagram.parts, tape_diagram.compare):
        with pytest.raises(ValueError, match="asks for the third"):
            make(*numbers)
