"""Elements of the Office Open XML namespaces, made by lxml so that every text is escaped."""

from functools import cache
from typing import Any

from lxml import etree

NAMESPACES = {
    "w": "http://schemas.openxmlformats.org/wordprocessingml/2006/main",
    "r": "http://schemas.openxmlformats.org/officeDocument/2006/relationships",
    "wp": "http://schemas.openxmlformats.org/drawingml/2006/wordprocessingDrawing",
    "a": "http://schemas.openxmlformats.org/drawingml/2006/main",
    "pic": "http://schemas.openxmlformats.org/drawingml/2006/picture",
    "asvg": "http://schemas.microsoft.com/office/drawing/2016/SVG/main",
    "cp": "http://schemas.openxmlformats.org/package/2006/metadata/core-properties",
    "dc": "http://purl.org/dc/elements/1.1/",
    "dcterms": "http://purl.org/dc/terms/",
    "xsi": "http://www.w3.org/2001/XMLSchema-instance",
    "ep": "http://schemas.openxmlformats.org/officeDocument/2006/extended-properties",
    "ct": "http://schemas.openxmlformats.org/package/2006/content-types",
    "rel": "http://schemas.openxmlformats.org/package/2006/relationships",
    "xml": "http://www.w3.org/XML/1998/namespace",
}


@cache
def qualified(name: str) -> str:
    """`w:p` with its namespace written out; a name without a prefix stays as it is."""
    prefix, _, local = name.rpartition(":")
    return f"{{{NAMESPACES[prefix]}}}{local}" if prefix else local


def root(name: str, *prefixes: str, default: str | None = None) -> etree._Element:
    """A new root element that declares `prefixes`, and `default` without one."""
    names: dict[Any, str] = {prefix: NAMESPACES[prefix] for prefix in prefixes}
    if default:
        names[None] = NAMESPACES[default]
    return etree.Element(qualified(name), nsmap=names)


def add(parent: etree._Element, name: str, /, **values: str | int) -> etree._Element:
    """A new last child of `parent`; attributes as `w_val="x"` for `w:val`, `id=1` for `id`."""
    child = etree.SubElement(parent, qualified(name))
    for key, value in values.items():
        child.set(qualified(key.replace("_", ":", 1)), str(value))
    return child


def to_bytes(element: etree._Element) -> bytes:
    """The element as an XML part."""
    return etree.tostring(element, xml_declaration=True, encoding="UTF-8", standalone=True)
