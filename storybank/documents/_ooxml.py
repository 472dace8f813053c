"""What a Word file needs and python-docx has no call for, set in its elements by lxml."""

from lxml import etree

_W = "http://schemas.openxmlformats.org/wordprocessingml/2006/main"
_R = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_A = "http://schemas.openxmlformats.org/drawingml/2006/main"
_SVG = "http://schemas.microsoft.com/office/drawing/2016/SVG/main"
_VALUE = f"{{{_W}}}val"
_SVG_EXTENSION = "{96DAC541-7B7A-43D3-8B79-37D633B846F1}"
_SPACE = "{http://www.w3.org/XML/1998/namespace}space"
CARDS = "Cards to cut out"
_SETTINGS = (
    "zoom", "defaultTabStop", "characterSpacingControl", "compat", "themeFontLang",
    "clrSchemeMapping", "decimalSymbol", "listSeparator",
)  # fmt: skip


def add_run(
    paragraph: etree._Element,
    text: str,
    style_id: str | None = None,
    *,
    right_to_left: bool = False,
) -> None:
    """Adds a run of text in a character style; python-docx takes thirty times as long for it."""
    run = _add(paragraph, "r")
    if style_id or right_to_left:
        properties = _add(run, "rPr")
        if style_id:
            _add(properties, "rStyle", style_id)
        if right_to_left:
            _add(properties, "rtl")
    for index, piece in enumerate(text.split("\t")):
        if index:
            _add(run, "tab")
        if piece or not index:
            element = _add(run, "t")
            element.set(_SPACE, "preserve")
            element.text = piece


def add_break(paragraph: etree._Element) -> None:
    """Adds a line break."""
    _add(_add(paragraph, "r"), "br")


def add_field(paragraph: etree._Element, code: str, value: str) -> None:
    """Adds a complex field with the value that it shows until Word computes it anew."""
    _field_mark(paragraph, "begin")
    instruction = _add(_add(paragraph, "r"), "instrText")
    instruction.set(_SPACE, "preserve")
    instruction.text = f" {code} "
    _field_mark(paragraph, "separate")
    _add(_add(paragraph, "r"), "t").text = value
    _field_mark(paragraph, "end")


def add_svg(inline: etree._Element, relation: str, name: str, alt: str) -> None:
    """Gives an inline picture its SVG form, its name and its alt text."""
    for about in inline.iter("{*}docPr", "{*}cNvPr"):
        about.set("name", name)
        about.set("descr", alt)
    blip = next(inline.iter(f"{{{_A}}}blip"))
    extensions = etree.SubElement(blip, f"{{{_A}}}extLst")
    extension = etree.SubElement(extensions, f"{{{_A}}}ext", uri=_SVG_EXTENSION)
    picture = etree.SubElement(extension, f"{{{_SVG}}}svgBlip", nsmap={"asvg": _SVG})
    picture.set(f"{{{_R}}}embed", relation)


def keep_row_whole(row: etree._Element, *, header: bool, least: int = 0) -> None:
    """Keeps a table row on one page, and repeats it on each page if it is the `header`.

    `least` is its height in points at least; it grows with what it holds.
    """
    properties = row.find(f"{{{_W}}}trPr")
    if properties is None:
        properties = etree.Element(f"{{{_W}}}trPr")
        row.insert(0, properties)
    _add(properties, "cantSplit")
    if least:
        _add(properties, "trHeight", str(20 * least)).set(f"{{{_W}}}hRule", "atLeast")
    if header:
        _add(properties, "tblHeader")


def make_cards(table: etree._Element) -> None:
    """Gives a table dashed edges and says what it is for: it holds no data, and no header."""
    properties = table.find(f"{{{_W}}}tblPr")
    if properties is None:
        raise ValueError("A table must have its properties set before its edges.")
    edges = etree.Element(f"{{{_W}}}tblBorders")
    for side in ("top", "left", "bottom", "right", "insideH", "insideV"):
        edge = _add(edges, side, "dashed")
        for key, value in (("sz", "8"), ("space", "0"), ("color", "000000")):
            edge.set(f"{{{_W}}}{key}", value)
    before = properties.find(f"{{{_W}}}tblLayout")
    if before is None:
        properties.append(edges)
    else:
        before.addprevious(edges)
    room = etree.Element(f"{{{_W}}}tblCellMar")
    for side in ("top", "left", "bottom", "right"):
        edge = _add(room, side)
        edge.set(f"{{{_W}}}w", "140")
        edge.set(f"{{{_W}}}type", "dxa")
    look = properties.find(f"{{{_W}}}tblLook")
    if look is None:
        properties.append(room)
    else:
        look.addprevious(room)
    _add(properties, "tblCaption", CARDS)


def set_outline_level(style: etree._Element, level: int) -> None:
    """Makes a paragraph style one of the document's outline, 0 for the highest level."""
    properties = style.find(f"{{{_W}}}pPr")
    if properties is None:
        raise ValueError("A heading's style must have its room set before its level.")
    _add(properties, "outlineLvl", str(level))


def set_dashed_top(style: etree._Element) -> None:
    """Draws a dashed line above the paragraphs of a style, to cut along."""
    properties = style.find(f"{{{_W}}}pPr")
    if properties is None:
        raise ValueError("A style must have its room set before its edge.")
    edges = etree.Element(f"{{{_W}}}pBdr")
    edge = _add(edges, "top", "dashed")
    for key, value in (("sz", "8"), ("space", "6"), ("color", "000000")):
        edge.set(f"{{{_W}}}{key}", value)
    room = properties.find(f"{{{_W}}}spacing")
    if room is None:
        properties.append(edges)
    else:
        room.addprevious(edges)


def set_complex_script_sizes(style: etree._Element) -> None:
    """Gives letters of right-to-left and other complex scripts the size and weight of the rest."""
    for name, complex_name in (("b", "bCs"), ("sz", "szCs")):
        for element in style.iter(f"{{{_W}}}{name}"):
            twin = etree.Element(f"{{{_W}}}{complex_name}")
            for key, value in element.attrib.items():
                twin.set(key, value)
            element.addnext(twin)


def reduce_settings(settings: etree._Element) -> None:
    """Leaves the few settings that matter, with the layout rules of present-day Word."""
    for child in list(settings):
        if etree.QName(child).localname not in _SETTINGS:
            settings.remove(child)
    for zoom in settings.iter(f"{{{_W}}}zoom"):
        zoom.attrib.clear()
        zoom.set(f"{{{_W}}}percent", "100")
    for language in settings.iter(f"{{{_W}}}themeFontLang"):
        language.attrib.clear()
        language.set(f"{{{_W}}}val", "en-US")
    for compat in settings.iter(f"{{{_W}}}compat"):
        for child in list(compat):
            if child.get(f"{{{_W}}}name") == "compatibilityMode":
                child.set(f"{{{_W}}}val", "15")
            else:
                compat.remove(child)


def theme_in_font(theme: bytes, font: str) -> bytes:
    """A theme part whose headings and text are both set in `font`."""
    root = etree.fromstring(theme)
    for group in root.iter(f"{{{_A}}}majorFont", f"{{{_A}}}minorFont"):
        for child in list(group):
            if etree.QName(child).localname == "font":
                group.remove(child)
            elif etree.QName(child).localname == "latin":
                child.set("typeface", font)
    return _part(root)


def table_of_one_font(fonts: bytes, font: str, stand_in: str) -> bytes:
    """A font table part with one font, and what may stand in for it."""
    root = etree.fromstring(fonts)
    root[:] = []
    entry = _add(root, "font")
    entry.set(f"{{{_W}}}name", font)
    _add(entry, "altName", stand_in)
    _add(entry, "family", "swiss")
    _add(entry, "pitch", "variable")
    return _part(root)


def _part(root: etree._Element) -> bytes:
    return etree.tostring(root, xml_declaration=True, encoding="UTF-8", standalone=True)


def _field_mark(paragraph: etree._Element, kind: str) -> None:
    _add(_add(paragraph, "r"), "fldChar").set(f"{{{_W}}}fldCharType", kind)


def _add(parent: etree._Element, name: str, value: str | None = None) -> etree._Element:
    child = etree.SubElement(parent, f"{{{_W}}}{name}")
    if value is not None:
        child.set(_VALUE, value)
    return child
