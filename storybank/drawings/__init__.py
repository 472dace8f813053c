"""Drawings as display lists, one file each, with writers for SVG and PNG."""

from storybank.drawings import open_number_line, tape_diagram
from storybank.drawings._display import (
    Arc,
    Box,
    Dot,
    Drawing,
    Frame,
    Item,
    Label,
    Line,
    Ring,
    text_width,
)
from storybank.drawings._svg import to_svg

__all__ = [
    "Arc",
    "Box",
    "Dot",
    "Drawing",
    "Frame",
    "Item",
    "Label",
    "Line",
    "Ring",
    "open_number_line",
    "tape_diagram",
    "text_width",
    "to_png",
    "to_svg",
]


def to_png(drawing: Drawing) -> bytes:
    """The drawing as PNG, as `_png.to_png` makes it; Pillow is loaded only when it is asked for."""
    from storybank.drawings import _png

    return _png.to_png(drawing)
