"""Drawings as display lists, one file each, with writers for SVG and PNG."""

from storybank.drawings import (
    double_rows,
    handwriting,
    open_number_line,
    shifted_line,
    tape_diagram,
    ten_frame,
    tens_and_ones,
    ticked_line,
)
from storybank.drawings._display import (
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
    text_width,
)
from storybank.drawings._measures import LARGE, NORMAL, SMALL, Measures
from storybank.drawings._svg import to_svg
from storybank.drawings._worked import worked

__all__ = [
    "LARGE",
    "NORMAL",
    "SMALL",
    "Arc",
    "Arrow",
    "Box",
    "Cross",
    "Dot",
    "Drawing",
    "Frame",
    "Grid",
    "Item",
    "Label",
    "Line",
    "Measures",
    "Ring",
    "double_rows",
    "handwriting",
    "open_number_line",
    "shifted_line",
    "tape_diagram",
    "ten_frame",
    "tens_and_ones",
    "text_width",
    "ticked_line",
    "to_png",
    "to_svg",
    "worked",
]


def to_png(drawing: Drawing) -> bytes:
    """The drawing as PNG, as `_png.to_png` makes it; Pillow is loaded only when it is asked for."""
    from storybank.drawings import _png

    return _png.to_png(drawing)
