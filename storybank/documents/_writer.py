"""Puts the blocks of a page model into a document that python-docx has opened."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from copy import deepcopy
from itertools import groupby
from typing import TYPE_CHECKING, Any

from storybank.documents import _ooxml
from storybank.documents._notation import UNKNOWN, directions
from storybank.documents._page import (
    Block,
    Cards,
    Group,
    Heading,
    Page,
    Paragraph,
    Picture,
    Table,
    Title,
)
from storybank.documents._styles import CELL_GRID, PARAGRAPH_STYLES, STRONG, TO_FILL, UNKNOWN_NUMBER

if TYPE_CHECKING:
    from docx.document import Document

_EMU = 12700
_CARD_HEIGHT = 150
_LEFT_TO_RIGHT_MARK = "\N{LEFT-TO-RIGHT MARK}"

# An element of the document's tree: lxml and python-docx have different types for it.
Element = Any


class Writer:
    """Writes paragraphs, tables and pictures.

    An empty paragraph or table of each form is made by python-docx once and then copied, since
    its own calls take far longer; they are moved into the document at the end, since each
    search for the place to insert at goes through all that stands there.
    """

    def __init__(
        self, document: Document, picture: Callable[[Picture], Element], text_width: float
    ) -> None:
        """A writer into `document`; `picture` makes what stands in a run for a picture.

        `text_width` is the room between the margins, in points.
        """
        self._document = document
        self._text_width = text_width
        self._strong: str = document.styles[STRONG].style_id
        self._unknown: str = document.styles[UNKNOWN_NUMBER].style_id
        self._to_fill: str = document.styles[TO_FILL].style_id
        self._picture = picture
        self._written: list[Element] = []
        self._patterns: dict[tuple[object, ...], Element] = {}

    def write(self, page: Page) -> None:
        """Writes all blocks of `page`; those of a group but its last keep with the next."""
        for block in page.blocks:
            if isinstance(block, Group):
                self._group(block)
            else:
                self._block(block, keep=False)
        section: Element = self._document.element.body.sectPr
        for element in self._written:
            section.addprevious(element)

    def _group(self, group: Group) -> None:
        """Writes blocks that stay together; facts in a row become one paragraph, a line each.

        LibreOffice tears pictures out of a long row of paragraphs that are each to keep with
        the next; a paragraph that is to keep its lines together it leaves whole.
        """
        left = len(group.blocks)
        for fact, row in groupby(group.blocks, _is_fact):
            blocks = list(row)
            left -= len(blocks)
            if fact:
                self._lines(blocks, keep=left > 0)
                continue
            for index, block in enumerate(blocks, start=1):
                self._block(block, keep=left > 0 or index < len(blocks))

    def _lines(self, blocks: Sequence[Block], *, keep: bool) -> None:
        paragraph = self._paragraph("fact", keep=keep)
        for index, block in enumerate(blocks):
            if isinstance(block, Paragraph):
                if index:
                    _ooxml.add_break(paragraph)
                self._add_lead_and_text(paragraph, block)

    def _block(self, block: Block, *, keep: bool) -> None:
        match block:
            case Title():
                self._add_text(self._paragraph("title", keep=True), block.text)
            case Heading():
                self._heading(block)
            case Paragraph():
                self._add_lead_and_text(self._paragraph(block.style, keep=keep), block)
            case Picture():
                paragraph = self._paragraph("drawing", keep=keep)
                if block.lead:
                    self._add_text(paragraph, f"{block.lead} ", bold=True)
                paragraph.add_r().append(self._picture(block))
            case Table():
                self._table(block, keep=keep)
            case Cards():
                self._cards(block)
            case Group():
                raise TypeError("A group stands only at the top of a page model.")

    def _heading(self, heading: Heading) -> None:
        style = f"heading{heading.level}"
        paragraph = self._paragraph(style, keep=True, new_page=heading.new_page)
        if heading.number is not None:
            self._add_text(paragraph, "Problem ")
            if heading.counted:
                _ooxml.add_field(paragraph, "SEQ Problem \\* ARABIC", str(heading.number))
            else:
                self._add_text(paragraph, str(heading.number))
            self._add_text(paragraph, " \N{MIDDLE DOT} ")
        self._add_text(paragraph, heading.text)

    def _paragraph(self, style: str, *, keep: bool, new_page: bool = False) -> Element:
        key = (style, keep, new_page)
        if key not in self._patterns:
            made = self._document.add_paragraph(style=PARAGRAPH_STYLES[style].name)
            form = made.paragraph_format
            form.keep_together, form.keep_with_next = True, keep or None
            form.page_break_before = new_page or None
            self._patterns[key] = self._taken_out(made._p)
        paragraph = deepcopy(self._patterns[key])
        self._written.append(paragraph)
        return paragraph

    def _add_lead_and_text(self, paragraph: Element, block: Paragraph) -> None:
        if block.lead:
            self._add_text(paragraph, f"{block.lead} ", bold=True)
        self._add_text(paragraph, block.text, to_fill=block.style == "sum")

    def _add_text(
        self, paragraph: Element, text: str, *, bold: bool = False, to_fill: bool = False
    ) -> None:
        """Adds runs: the unknown's box in its style, right-to-left text with a mark after it.

        A box `to_fill` is large enough to write a number into. The mark (from left to right) keeps
        such text from moving the digits beside it.
        """
        style = self._strong if bold else None
        for stretch, right_to_left in directions(text):
            if right_to_left:
                _ooxml.add_run(paragraph, stretch, style, right_to_left=True)
                _ooxml.add_run(paragraph, _LEFT_TO_RIGHT_MARK, style)
                continue
            for index, piece in enumerate(stretch.split(UNKNOWN)):
                if index:
                    _ooxml.add_run(paragraph, UNKNOWN, self._to_fill if to_fill else self._unknown)
                if piece:
                    _ooxml.add_run(paragraph, piece, style)

    def _table(self, table: Table, *, keep: bool) -> None:
        key = (table.widths, keep)
        if key not in self._patterns:
            self._patterns[key] = self._empty_table(table.widths, keep=keep)
        element = deepcopy(self._patterns[key])
        header, pattern = element.tr_lst
        element.remove(pattern)
        self._fill(header, table.header)
        for cells in table.rows:
            row = deepcopy(pattern)
            self._fill(row, cells)
            element.append(row)
        self._written.append(element)

    def _fill(self, row: Element, cells: tuple[str, ...]) -> None:
        for cell, text in zip(row.tc_lst, cells, strict=True):
            self._add_text(cell.p_lst[0], text)

    def _empty_table(self, shares: tuple[int, ...], *, keep: bool) -> Element:
        """A table with a header row and one more row."""
        table = self._document.add_table(rows=2, cols=len(shares))
        table.style, table.autofit = CELL_GRID, False
        for column, share in zip(table.columns, shares, strict=True):
            for cell in column.cells:
                cell.width = int(_EMU * self._text_width * share / sum(shares))
            column.width = column.cells[0].width
        for row, style in zip(table.rows, ("cell-header", "cell"), strict=True):
            header = style == "cell-header"
            _ooxml.keep_row_whole(row._tr, header=header)
            for cell in row.cells:
                (paragraph,) = cell.paragraphs
                paragraph.style = PARAGRAPH_STYLES[style].name
                form = paragraph.paragraph_format
                form.keep_together, form.keep_with_next = True, keep or header or None
        return self._taken_out(table._tbl)

    def _cards(self, cards: Cards) -> None:
        """A table with dashed edges to cut along; a row is as high as its longest card needs."""
        rows = -(-len(cards.cards) // cards.columns)
        table = self._document.add_table(rows=rows, cols=cards.columns)
        table.style, table.autofit = CELL_GRID, False
        width = int(_EMU * self._text_width / cards.columns)
        for row in table.rows:
            _ooxml.keep_row_whole(row._tr, header=False, least=_CARD_HEIGHT)
            for cell in row.cells:
                cell.width = width
        _ooxml.make_cards(table._tbl)
        cells = [cell for row in table.rows for cell in row.cells]
        for cell, card in zip(cells, cards.cards, strict=False):
            cell._tc.remove(cell.paragraphs[0]._p)
            for block in card:
                self._add_lead_and_text(self._paragraph(block.style, keep=False), block)
                cell._tc.append(self._written.pop())
        for cell in cells[len(cards.cards) :]:
            self._add_text(cell.paragraphs[0]._p, "\N{NO-BREAK SPACE}")
        self._written.append(self._taken_out(table._tbl))

    def _taken_out(self, element: Element) -> Element:
        self._document.element.body.remove(element)
        return element


def _is_fact(block: Block) -> bool:
    return isinstance(block, Paragraph) and block.style == "fact"
