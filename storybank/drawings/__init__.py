"""Drawings as display lists, one file each, with writers for SVG and PNG."""

from storybank.drawings import open_number_line
from storybank.drawings._display import Arc, Box, Dot, Drawing, Item, Label, Line, Ring, text_width
from storybank.drawings._png import to_png
from storybank.drawings._svg import to_svg

__all__ = [
    "Arc",
    "Box",
    "Dot",
    "Drawing",
    "Item",
    "Label",
    "Line",
    "Ring",
    "open_number_line",
    "text_width",
    "to_png",
    "to_svg",
]
