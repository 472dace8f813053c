"""The parts of a Word file beside its text: properties, settings, theme, header, footer."""

from functools import cache

from lxml import etree

from storybank.documents._runs import add_field, add_text
from storybank.documents._xml import add, root, to_bytes

FONT = "Verdana"
_FIXED_DATE = "2000-01-01T00:00:00Z"
_COLORS = {
    "dk1": "000000", "lt1": "FFFFFF", "dk2": "1F3864", "lt2": "F2F2F2", "accent1": "1F4E9E",
    "accent2": "A33A00", "accent3": "3F6B2A", "accent4": "6A3D8F", "accent5": "00657A",
    "accent6": "7A5C00", "hlink": "1F4E9E", "folHlink": "6A3D8F",
}  # fmt: skip


def core_properties(title: str) -> bytes:
    """Title, language and dates of the document; the dates are fixed, so bytes repeat."""
    core = root("cp:coreProperties", "cp", "dc", "dcterms", "xsi")
    for name, text in (
        ("dc:title", title),
        ("dc:creator", "Storybank"),
        ("cp:lastModifiedBy", "Storybank"),
        ("cp:revision", "1"),
    ):
        add(core, name).text = text
    for name in ("dcterms:created", "dcterms:modified"):
        date = add(core, name, xsi_type="dcterms:W3CDTF")
        date.text = _FIXED_DATE
    add(core, "dc:language").text = "en-US"
    return to_bytes(core)


@cache
def app_properties() -> bytes:
    """The name of the program that made the document."""
    element = root("ep:Properties", default="ep")
    add(element, "ep:Application").text = "Storybank"
    return to_bytes(element)


@cache
def settings() -> bytes:
    """The settings part: present-day layout, so that Word opens it in no older mode."""
    element = root("w:settings", "w")
    add(element, "w:zoom", w_percent=100)
    add(element, "w:defaultTabStop", w_val=720)
    add(element, "w:characterSpacingControl", w_val="doNotCompress")
    compat = add(element, "w:compat")
    add(
        compat,
        "w:compatSetting",
        w_name="compatibilityMode",
        w_uri="http://schemas.microsoft.com/office/word",
        w_val=15,
    )
    add(element, "w:themeFontLang", w_val="en-US")
    add(element, "w:decimalSymbol", w_val=".")
    add(element, "w:listSeparator", w_val=",")
    return to_bytes(element)


@cache
def font_table() -> bytes:
    """The font that the theme names, with what may stand in for it."""
    element = root("w:fonts", "w")
    font = add(element, "w:font", w_name=FONT)
    add(font, "w:altName", w_val="DejaVu Sans")
    add(font, "w:family", w_val="swiss")
    add(font, "w:pitch", w_val="variable")
    return to_bytes(element)


@cache
def theme() -> bytes:
    """The theme: one font for headings and text, so that one change restyles the whole."""
    element = root("a:theme", "a")
    element.set("name", "Storybank")
    elements = add(element, "a:themeElements")
    colors = add(elements, "a:clrScheme", name="Storybank")
    for name, value in _COLORS.items():
        add(add(colors, f"a:{name}"), "a:srgbClr", val=value)
    fonts = add(elements, "a:fontScheme", name="Storybank")
    for name in ("a:majorFont", "a:minorFont"):
        group = add(fonts, name)
        add(group, "a:latin", typeface=FONT)
        add(group, "a:ea", typeface="")
        add(group, "a:cs", typeface="")
    formats = add(elements, "a:fmtScheme", name="Storybank")
    for name in ("a:fillStyleLst", "a:lnStyleLst", "a:effectStyleLst", "a:bgFillStyleLst"):
        group = add(formats, name)
        for _ in range(3):
            if name == "a:effectStyleLst":
                add(add(group, "a:effectStyle"), "a:effectLst")
                continue
            holder = add(group, "a:ln", w=9525) if name == "a:lnStyleLst" else group
            add(add(holder, "a:solidFill"), "a:schemeClr", val="phClr")
    return to_bytes(element)


def header(text: str) -> bytes:
    """The top of each page."""
    element = root("w:hdr", "w")
    paragraph = _paragraph(element, "Header")
    add_text(paragraph, text)
    return to_bytes(element)


@cache
def footer() -> bytes:
    """The foot of each page: its number and how many there are."""
    element = root("w:ftr", "w")
    paragraph = _paragraph(element, "Footer")
    add_text(paragraph, "Page ")
    add_field(paragraph, "PAGE", "1")
    add_text(paragraph, " of ")
    add_field(paragraph, "NUMPAGES", "1")
    return to_bytes(element)


def _paragraph(parent: etree._Element, style: str) -> etree._Element:
    paragraph = add(parent, "w:p")
    add(add(paragraph, "w:pPr"), "w:pStyle", w_val=style)
    return paragraph
