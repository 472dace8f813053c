"""Writes a display list as SVG."""

from collections.abc import Iterable
from html import escape

from storybank.drawings._display import (
    Arc,
    Arrow,
    Corners,
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

FONTS = "Verdana, Roboto, DejaVu Sans, sans-serif"


def to_svg(drawing: Drawing, *, standalone: bool = True) -> str:
    """The drawing as SVG text with its title and alt text.

    With `standalone` sizes are numbers without a unit (some renderers know no other) and the
    ground is white; without it the picture is meant to stand inside a page of HTML, sized in
    points like the text there.
    """
    width, height = _n(drawing.width), _n(drawing.height)
    unit = "" if standalone else "pt"
    parts = [
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}{unit}" height="{height}{unit}" '
        f'viewBox="0 0 {width} {height}" role="img" aria-label="{escape(drawing.alt)}" '
        f'font-family="{FONTS}">'
    ]
    if standalone:
        parts.append(f"<title>{escape(drawing.title)}</title><desc>{escape(drawing.alt)}</desc>")
        parts.append(f'<rect width="{width}" height="{height}" fill="#ffffff"/>')
    parts.extend(_item(item) for item in drawing.items)
    parts.append("</svg>")
    return "".join(parts)


def _item(item: Item) -> str:
    match item:
        case Line():
            return _strokes([(item.x1, item.y1, item.x2, item.y2)], item.ink, item.width)
        case Arrow():
            return _strokes([item.shaft()], item.ink, item.width) + _head(item.head(), item.ink)
        case Cross():
            return _strokes(item.strokes(), item.ink, item.width)
        case Grid():
            edge = _item(Frame(item.box, item.width, item.ink))
            return edge + _strokes(item.inner(), item.ink, item.width)
        case Arc():
            return _arc(item)
        case Dot():
            fill = "#000000" if item.filled else "#ffffff"
            middle = f'<circle cx="{_n(item.x)}" cy="{_n(item.y)}" '
            core = f'{middle}r="{_n(item.core)}" fill="#000000"/>' if item.core else ""
            return (
                f'{middle}r="{_n(item.radius)}" '
                f'fill="{fill}" stroke="#000000" stroke-width="{_n(item.width)}"/>{core}'
            )
        case Label():
            return (
                f'<text x="{_n(item.x)}" y="{_n(item.y)}" font-size="{_n(item.size)}" '
                f'text-anchor="{item.anchor}" fill="{item.ink}">{escape(item.text)}</text>'
            )
        case Frame() | Ring():
            box = item.box
            radius = _n((box.bottom - box.top) / 2) if isinstance(item, Ring) else "0"
            return (
                f'<rect x="{_n(box.left)}" y="{_n(box.top)}" width="{_n(box.right - box.left)}" '
                f'height="{_n(box.bottom - box.top)}" rx="{radius}" '
                f'fill="none" stroke="{item.ink}" stroke-width="{_n(item.width)}"/>'
            )


def _arc(arc: Arc) -> str:
    dashes = ' stroke-dasharray="5 3"' if arc.dashed else ""
    control_x, control_y = arc.control
    return (
        f'<path d="M{_n(arc.x1)} {_n(arc.y)}Q{_n(control_x)} {_n(control_y)} '
        f'{_n(arc.x2)} {_n(arc.y)}" fill="none" stroke="{arc.ink}" '
        f'stroke-width="{_n(arc.width)}"{dashes}/>{_head(arc.head(), arc.ink)}'
    )


def _strokes(lines: Iterable[tuple[float, float, float, float]], ink: str, width: float) -> str:
    path = "".join(f"M{_n(x1)} {_n(y1)}L{_n(x2)} {_n(y2)}" for x1, y1, x2, y2 in lines)
    return f'<path d="{path}" stroke="{ink}" stroke-width="{_n(width)}"/>'


def _head(corners: Corners, ink: str) -> str:
    points = " ".join(f"{_n(x)},{_n(y)}" for x, y in corners)
    return f'<polygon points="{points}" fill="{ink}"/>'


def _n(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".")
