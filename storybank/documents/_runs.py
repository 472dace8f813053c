"""Runs of text in a Word paragraph: plain, bold, the unknown's box, right to left, fields."""

from lxml import etree

from storybank.documents._notation import UNKNOWN, directions
from storybank.documents._xml import add, qualified

_LEFT_TO_RIGHT_MARK = "\N{LEFT-TO-RIGHT MARK}"


def add_text(paragraph: etree._Element, text: str, *, bold: bool = False) -> None:
    """Adds `text` as runs.

    The unknown's box has its own character style. A stretch from right to left is a run of
    its own with `w:rtl`, and a left-to-right mark follows it, so that it does not move the
    digits beside it.
    """
    style = "Strong" if bold else None
    for stretch, right_to_left in directions(text):
        if right_to_left:
            _run(paragraph, stretch, style, right_to_left=True)
            _run(paragraph, _LEFT_TO_RIGHT_MARK, style)
            continue
        pieces = stretch.split(UNKNOWN)
        for index, piece in enumerate(pieces):
            if index:
                _run(paragraph, UNKNOWN, "Unknown")
            if piece:
                _run(paragraph, piece, style)


def add_field(paragraph: etree._Element, code: str, value: str) -> None:
    """Adds a field with the value that it shows until Word computes it anew."""
    _field_mark(paragraph, "begin")
    instruction = add(add(paragraph, "w:r"), "w:instrText")
    instruction.set(qualified("xml:space"), "preserve")
    instruction.text = f" {code} "
    _field_mark(paragraph, "separate")
    _run(paragraph, value, None)
    _field_mark(paragraph, "end")


def _field_mark(paragraph: etree._Element, kind: str) -> None:
    add(add(paragraph, "w:r"), "w:fldChar", w_fldCharType=kind)


def _run(
    paragraph: etree._Element, text: str, style: str | None, *, right_to_left: bool = False
) -> None:
    run = add(paragraph, "w:r")
    if style or right_to_left:
        properties = add(run, "w:rPr")
        if style:
            add(properties, "w:rStyle", w_val=style)
        if right_to_left:
            add(properties, "w:rtl")
    element = add(run, "w:t")
    if text != text.strip():
        element.set(qualified("xml:space"), "preserve")
    element.text = text
