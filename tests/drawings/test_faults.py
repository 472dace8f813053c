"""The checks of drawings fire on drawings that are spoiled."""

import pytest
from drawings.faults import faults, grey, too_weak
from PIL import Image

from storybank.drawings import (
    Arc,
    Arrow,
    Box,
    Cross,
    Dot,
    Drawing,
    Frame,
    Grid,
    Item,
    Label,
    Line,
    Ring,
)
from storybank.drawings._display import BACK, FORWARD

SPOILED: dict[str, tuple[tuple[Item, ...], list[str]]] = {
    "labels": ((Label(40, 20, "46"), Label(50, 20, "47")), ["46 touches 47"]),
    "frame": ((Frame(Box(10, 5, 40, 30)), Label(38, 20, "46")), ["46 lies on a line"]),
    "line": ((Line(10, 15, 90, 15), Label(38, 20, "46")), ["46 lies on a line"]),
    "grid": ((Grid(Box(5, 5, 95, 45), 2, 1), Label(50, 20, "46")), ["46 lies on a line"]),
    "slanting arrow": ((Arrow(20, 5, 60, 45, "#000000"), Label(42, 32, "4")), ["4 lies on a line"]),
    "arrowhead": ((Arrow(5, 15, 30, 15, "#000000"), Label(24, 13.6, "4")), ["4 lies on a line"]),
    "dot": ((Dot(50, 30), Label(50, 35, "4")), ["4 lies on a dot"]),
    "dots": ((Dot(50, 30), Dot(57, 30)), ["the dots at 50, 30 and 57, 30 touch"]),
    "ring": ((Ring(Box(30, 5, 60, 30)),), ["the ring is around []"]),
}


@pytest.mark.parametrize("name", SPOILED)
def test_what_touches_is_found(name: str) -> None:
    items, expected = SPOILED[name]
    found = faults(Drawing(100, 50, items, "t", "a"))
    assert sorted(set(found)) == expected


def test_a_label_on_a_curve_or_a_cross_is_found() -> None:
    on_curve = Arc(10, 90, 40, 20, "#000000"), Label(50, 24, "4")
    assert "4 lies on a line" in faults(Drawing(100, 50, on_curve, "t", "a"))
    under_curve = Arc(10, 90, 40, 20, "#000000"), Label(50, 38, "4")
    assert faults(Drawing(100, 50, under_curve, "t", "a")) == []
    on_cross = Cross(Box(40, 10, 60, 30)), Label(50, 22, "4")
    assert "4 lies on a line" in faults(Drawing(100, 50, on_cross, "t", "a"))


OUTSIDE: tuple[Item, ...] = (
    Label(2, 20, "46"),
    Line(50, 30, 50, 51),
    Dot(98, 30),
    Arc(10, 90, 20, 30, "#000000"),
    Arrow(5, 2, 50, 2, "#000000"),
    Cross(Box(-1, 5, 5, 11)),
    Frame(Box(0, 5, 40, 30)),
)


@pytest.mark.parametrize("item", OUTSIDE, ids=lambda one: type(one).__name__)
def test_what_stands_outside_is_found(item: Item) -> None:
    found = faults(Drawing(100, 50, (item,), "t", "a"))
    assert found and all(one.endswith("is outside") for one in found)
    assert faults(Drawing(200, 100, (moved(item),), "t", "a")) == []


def moved(item: Item) -> Item:
    """The item 20 points further right and down."""
    values = {}
    for name in type(item).__dataclass_fields__:
        value = getattr(item, name)
        if isinstance(value, Box):
            value = Box(value.left + 20, value.top + 20, value.right + 20, value.bottom + 20)
        values[name] = value + 20 if name in ("x", "y", "x1", "x2", "y1", "y2") else value
    return type(item)(**values)


def test_thin_lines_and_pale_inks_are_found() -> None:
    weak = Line(10, 10, 20, 10, 0.9), Label(10, 20, "4", ink="#999999"), Dot(9, 9, width=0.5)
    assert [one.split()[-1] for one in too_weak(Drawing(50, 50, weak, "t", "a"))] == [
        "thin", "pale", "pale", "thin",
    ]  # fmt: skip


@pytest.mark.parametrize("ink", [FORWARD, BACK, "#ff0000", "#008000"])
def test_inks_are_turned_to_grey_as_pillow_does(ink: str) -> None:
    level = Image.new("RGB", (1, 1), ink).convert("L").getpixel((0, 0))
    assert grey(ink) == f"#{level:02x}{level:02x}{level:02x}"
