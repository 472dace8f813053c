"""How much of a page blocks take, and groups of them put on pages by it.

LibreOffice tears a picture out of a long row of paragraphs that are each to keep with the next, so
a group that would go over the end of a page begins a new one.
"""

from collections.abc import Sequence
from dataclasses import replace
from math import ceil

from storybank.documents._layout import Layout
from storybank.documents._page import Group, Heading, Paragraph, Picture, Piece
from storybank.documents._styles import PARAGRAPH_STYLES

_LINE, _LETTER, _UNDER_PICTURE = 1.22, 0.56, 2.0
"""Of the type size: a line, a letter of Verdana on average; and points under a picture."""


def height(pieces: Sequence[Piece], layout: Layout) -> float:
    """The height in points of `pieces` as `layout` prints them, an estimate.

    Raises ValueError for a table, whose height hangs on its cells.
    """
    total = 0.0
    for piece in pieces:
        match piece:
            case Heading():
                total += _of_text(piece.text, f"heading{piece.level}", layout)
            case Paragraph():
                total += _of_text(f"{piece.lead} {piece.text}", piece.style, layout)
            case Picture():
                style, drawing = PARAGRAPH_STYLES["drawing"], piece.drawing
                shown = drawing.height * min(1.0, layout.text_width / drawing.width)
                total += style.before + shown + _UNDER_PICTURE + style.after
            case _:
                raise ValueError(f"The height of {type(piece).__name__} is not known.")
    return total


def on_pages(made: Sequence[Sequence[Piece]], layout: Layout, filled: float) -> list[Group]:
    """A group of each list of pieces, all of which begin with a heading; each stays on a page.

    The heading of one that has no room below those before it begins a new page. `filled` is
    what stands on the first page already, in points.
    """
    groups = []
    for place, (first, *others) in enumerate(made):
        needed = height([first, *others], layout)
        new_page = place > 0 and filled + needed > layout.text_height
        filled = needed if new_page else filled + needed
        if new_page and isinstance(first, Heading):
            first = replace(first, new_page=True)
        groups.append(Group((first, *others)))
    return groups


def _of_text(text: str, style: str, layout: Layout) -> float:
    form = PARAGRAPH_STYLES[style]
    size = layout.type_size(form.size)
    lines = ceil(len(text) * _LETTER * size / layout.text_width)
    return form.before + max(1, lines) * _LINE * size + form.after
