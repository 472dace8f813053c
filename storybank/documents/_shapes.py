"""A drawing as shapes of Word that can be moved, with its picture for readers that know none.

A DrawingML group within `mc:AlternateContent` (ECMA-376 parts 1 and 3; [MS-ODRAWXML] for the group
of Word): first a rectangle without line or fill as large as all of it, which keeps the place of
the rest.
"""

from collections.abc import Iterable, Sequence

from lxml import etree

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

_W = "http://schemas.openxmlformats.org/wordprocessingml/2006/main"
_A = "http://schemas.openxmlformats.org/drawingml/2006/main"
_WP = "http://schemas.openxmlformats.org/drawingml/2006/wordprocessingDrawing"
_MC = "http://schemas.openxmlformats.org/markup-compatibility/2006"
_WPG = "http://schemas.microsoft.com/office/word/2010/wordprocessingGroup"
_WPS = "http://schemas.microsoft.com/office/word/2010/wordprocessingShape"
_EMU = 12700
_Point = tuple[float, float]
_BLACK = "#000000"


def alternatives(
    inline: etree._Element, drawing: Drawing, number: int, scale: float
) -> etree._Element:
    """The choice between a drawing's shapes and its picture `inline`, for a run of text.

    `number` is that of the picture in the document, from which the shapes take ids of their own;
    `scale` is how large the drawing is shown.
    """
    choice = etree.Element(
        f"{{{_MC}}}AlternateContent", nsmap={"mc": _MC, "wpg": _WPG, "wps": _WPS}
    )
    shapes = _sub(choice, _MC, "Choice", Requires="wpg")
    _group(_sub(shapes, _W, "drawing"), drawing, number, scale)
    picture = _sub(_sub(choice, _MC, "Fallback"), _W, "drawing")
    picture.append(inline)
    return choice


def _group(parent: etree._Element, drawing: Drawing, number: int, scale: float) -> None:
    width, height = _emu(drawing.width), _emu(drawing.height)
    shown = {"cx": str(round(width * scale)), "cy": str(round(height * scale))}
    inline = _sub(parent, _WP, "inline", distT="0", distB="0", distL="0", distR="0")
    _sub(inline, _WP, "extent", **shown)
    name = f"{drawing.title} {number} in shapes"
    _sub(inline, _WP, "docPr", id=str(1_000_000 + number), name=name, descr=drawing.alt)
    _sub(inline, _WP, "cNvGraphicFramePr")
    graphic = etree.SubElement(inline, f"{{{_A}}}graphic", nsmap={"a": _A})
    group = _sub(_sub(graphic, _A, "graphicData", uri=_WPG), _WPG, "wgp")
    _sub(group, _WPG, "cNvGrpSpPr")
    frame = _sub(_sub(group, _WPG, "grpSpPr"), _A, "xfrm")
    _sub(frame, _A, "off", x="0", y="0")
    _sub(frame, _A, "ext", **shown)
    _sub(frame, _A, "chOff", x="0", y="0")
    _sub(frame, _A, "chExt", cx=str(width), cy=str(height))
    _preset(group, "rect", Box(0, 0, drawing.width, drawing.height))
    for item in drawing.items:
        _item(group, item)


def _item(group: etree._Element, item: Item) -> None:
    match item:
        case Line():
            _strokes(group, [((item.x1, item.y1), (item.x2, item.y2))], item.ink, item.width)
        case Arrow():
            x1, y1, x2, y2 = item.shaft()
            _strokes(group, [((x1, y1), (x2, y2))], item.ink, item.width)
            _polygon(group, item.head(), item.ink)
        case Cross():
            _strokes(group, _pairs(item.strokes()), item.ink, item.width)
        case Grid():
            _preset(group, "rect", item.box, ink=item.ink, width=item.width)
            if item.inner():
                _strokes(group, _pairs(item.inner()), item.ink, item.width)
        case Arc():
            _curve(group, item)
            _polygon(group, item.head(), item.ink)
        case Dot():
            fill = _BLACK if item.filled else "#ffffff"
            _preset(
                group, "ellipse", _round(item, item.radius), ink=_BLACK, width=item.width, fill=fill
            )
            if item.core:
                _preset(group, "ellipse", _round(item, item.core), fill=_BLACK)
        case Frame():
            _preset(group, "rect", item.box, ink=item.ink, width=item.width)
        case Ring():
            _preset(group, "roundRect", item.box, ink=item.ink, width=item.width, round_ends=True)
        case Label():
            _text(group, item)


def _strokes(
    group: etree._Element, lines: Sequence[tuple[_Point, _Point]], ink: str, width: float
) -> None:
    path = [
        (name, (point,))
        for line in lines
        for name, point in zip(("moveTo", "lnTo"), line, strict=True)
    ]
    _custom(group, path, ink=ink, width=width)


def _polygon(group: etree._Element, corners: Sequence[_Point], ink: str) -> None:
    first, *others = corners
    path = [("moveTo", (first,)), *(("lnTo", (one,)) for one in others), ("close", ())]
    _custom(group, path, fill=ink)


def _curve(group: etree._Element, arc: Arc) -> None:
    path = [("moveTo", ((arc.x1, arc.y),)), ("quadBezTo", (arc.control, (arc.x2, arc.y)))]
    _custom(group, path, ink=arc.ink, width=arc.width, dashed=arc.dashed)


def _custom(
    group: etree._Element,
    path: Sequence[tuple[str, tuple[_Point, ...]]],
    *,
    ink: str | None = None,
    width: float = 0.0,
    fill: str | None = None,
    dashed: bool = False,
) -> None:
    """A shape along points; its box is as large as they need, control points included."""
    points = [point for _, some in path for point in some]
    box = Box(
        min(x for x, _ in points), min(y for _, y in points),
        max(x for x, _ in points), max(y for _, y in points),
    )  # fmt: skip
    properties = _shape(group, box)
    geometry = _sub(properties, _A, "custGeom")
    for name in ("avLst", "gdLst", "ahLst", "cxnLst"):
        _sub(geometry, _A, name)
    _sub(geometry, _A, "rect", l="0", t="0", r="r", b="b")
    wide, high = _emu(box.right - box.left), _emu(box.bottom - box.top)
    drawn = _sub(
        _sub(geometry, _A, "pathLst"), _A, "path", w=str(max(wide, 1)), h=str(max(high, 1)),
        **({} if fill else {"fill": "none"}),
    )  # fmt: skip
    for name, some in path:
        step = _sub(drawn, _A, name)
        for x, y in some:
            _sub(step, _A, "pt", x=str(_emu(x - box.left)), y=str(_emu(y - box.top)))
    _paint(properties, ink, width, fill, dashed=dashed)
    _sub(_of(properties), _WPS, "bodyPr")


def _preset(
    group: etree._Element,
    form: str,
    box: Box,
    *,
    ink: str | None = None,
    width: float = 0.0,
    fill: str | None = None,
    round_ends: bool = False,
) -> None:
    properties = _shape(group, box)
    values = _sub(_sub(properties, _A, "prstGeom", prst=form), _A, "avLst")
    if round_ends:
        _sub(values, _A, "gd", name="adj", fmla="val 50000")
    _paint(properties, ink, width, fill)
    _sub(_of(properties), _WPS, "bodyPr")


def _text(group: etree._Element, label: Label) -> None:
    """A label in a text box somewhat larger than itself, so that other fonts find room too."""
    box, spare = label.box, 0.4 * label.size
    middle, half = (box.left + box.right) / 2, (box.right - box.left) / 2 + spare
    properties = _shape(
        group, Box(middle - half, box.top - spare, middle + half, box.bottom + spare)
    )
    _sub(_sub(properties, _A, "prstGeom", prst="rect"), _A, "avLst")
    _paint(properties, None, 0.0, None)
    shape = _of(properties)
    paragraph = _sub(_sub(_sub(shape, _WPS, "txbx"), _W, "txbxContent"), _W, "p")
    form = _sub(paragraph, _W, "pPr")
    _sub(form, _W, "spacing", **{f"{{{_W}}}before": "0", f"{{{_W}}}after": "0"})
    _sub(form, _W, "jc", **{f"{{{_W}}}val": "center"})
    run = _sub(paragraph, _W, "r")
    letters = _sub(run, _W, "rPr")
    _sub(letters, _W, "color", **{f"{{{_W}}}val": label.ink.lstrip("#")})
    for name in ("sz", "szCs"):
        _sub(letters, _W, name, **{f"{{{_W}}}val": str(round(2 * label.size))})
    _sub(run, _W, "t").text = label.text
    _sub(shape, _WPS, "bodyPr", wrap="none", lIns="0", tIns="0", rIns="0", bIns="0", anchor="ctr")


def _shape(group: etree._Element, box: Box) -> etree._Element:
    """The properties of a new shape of the group, with its place."""
    shape = _sub(group, _WPS, "wsp")
    _sub(shape, _WPS, "cNvSpPr")
    properties = _sub(shape, _WPS, "spPr")
    place = _sub(properties, _A, "xfrm")
    _sub(place, _A, "off", x=str(_emu(box.left)), y=str(_emu(box.top)))
    _sub(place, _A, "ext", cx=str(_emu(box.right - box.left)), cy=str(_emu(box.bottom - box.top)))
    return properties


def _paint(
    properties: etree._Element,
    ink: str | None,
    width: float,
    fill: str | None,
    *,
    dashed: bool = False,
) -> None:
    _color(properties, fill)
    if ink is None:
        _color(_sub(properties, _A, "ln"), None)
        return
    line = _sub(properties, _A, "ln", w=str(_emu(width)))
    _color(line, ink)
    if dashed:
        _sub(line, _A, "prstDash", val="dash")


def _color(parent: etree._Element, ink: str | None) -> None:
    if ink is None:
        _sub(parent, _A, "noFill")
    else:
        _sub(_sub(parent, _A, "solidFill"), _A, "srgbClr", val=ink.lstrip("#"))


def _of(properties: etree._Element) -> etree._Element:
    shape = properties.getparent()
    if shape is None:
        raise ValueError("The properties belong to no shape.")
    return shape


def _round(dot: Dot, radius: float) -> Box:
    return Box(dot.x - radius, dot.y - radius, dot.x + radius, dot.y + radius)


def _pairs(lines: Iterable[tuple[float, float, float, float]]) -> list[tuple[_Point, _Point]]:
    return [((x1, y1), (x2, y2)) for x1, y1, x2, y2 in lines]


def _emu(points: float) -> int:
    return round(points * _EMU)


def _sub(parent: etree._Element, space: str, tag: str, /, **attributes: str) -> etree._Element:
    return etree.SubElement(parent, f"{{{space}}}{tag}", attributes)
