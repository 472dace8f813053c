"""The text of a Word file: each block of the page model as paragraphs, tables and pictures."""

from collections.abc import Sequence

from lxml import etree

from storybank.documents._package import Package
from storybank.documents._page import Block, Group, Heading, Page, Paragraph, Picture, Table, Title
from storybank.documents._runs import add_field, add_text
from storybank.documents._styles import HEADER_CELL, TABLE
from storybank.documents._xml import NAMESPACES, add, root, to_bytes
from storybank.drawings import to_png, to_svg

_EMU = 12700
_TEXT_WIDTH = 9360
_SVG_EXTENSION = "{96DAC541-7B7A-43D3-8B79-37D633B846F1}"


class Body:
    """Writes the blocks of one page model into a package."""

    def __init__(self, package: Package) -> None:
        """A body whose pictures go into `package`."""
        self._package = package
        self._document = root("w:document", "w", "r", "wp", "a", "pic", "asvg")
        self._body = add(self._document, "w:body")
        self._pictures = 0

    def to_bytes(self, page: Page, header: str, footer: str) -> bytes:
        """The document part; `header` and `footer` are relation ids."""
        for block in page.blocks:
            if isinstance(block, Group):
                for inner in block.blocks[:-1]:
                    self._block(inner, keep=True)
                self._block(block.blocks[-1], keep=False)
            else:
                self._block(block, keep=False)
        section = add(self._body, "w:sectPr")
        add(section, "w:headerReference", w_type="default", r_id=header)
        add(section, "w:footerReference", w_type="default", r_id=footer)
        add(section, "w:pgSz", w_w=12240, w_h=15840)
        add(
            section, "w:pgMar", w_top=1440, w_right=1440, w_bottom=1080, w_left=1440,
            w_header=720, w_footer=540, w_gutter=0,
        )  # fmt: skip
        return to_bytes(self._document)

    def _block(self, block: Block, *, keep: bool) -> None:
        match block:
            case Title():
                add_text(self._paragraph("Title", keep=True), block.text)
            case Heading():
                self._heading(block)
            case Paragraph():
                paragraph = self._paragraph(block.style.capitalize(), keep=keep)
                if block.lead:
                    add_text(paragraph, f"{block.lead} ", bold=True)
                add_text(paragraph, block.text)
            case Picture():
                self._picture(block, keep=keep)
            case Table():
                self._table(block, keep=keep)
            case Group():
                raise TypeError("A group stands only at the top of a page model.")

    def _paragraph(
        self, style: str, *, keep: bool, parent: etree._Element | None = None, top: bool = False
    ) -> etree._Element:
        paragraph = add(self._body if parent is None else parent, "w:p")
        properties = add(paragraph, "w:pPr")
        add(properties, "w:pStyle", w_val=style)
        if keep:
            add(properties, "w:keepNext")
        add(properties, "w:keepLines")
        if top:
            add(properties, "w:pageBreakBefore")
        return paragraph

    def _heading(self, heading: Heading) -> None:
        paragraph = self._paragraph(f"Heading{heading.level}", keep=True, top=heading.new_page)
        if heading.number is not None:
            add_text(paragraph, "Problem ")
            add_field(paragraph, "SEQ Problem \\* ARABIC", str(heading.number))
            add_text(paragraph, " \N{MIDDLE DOT} ")
        add_text(paragraph, heading.text)

    def _table(self, table: Table, *, keep: bool) -> None:
        element = add(self._body, "w:tbl")
        properties = add(element, "w:tblPr")
        add(properties, "w:tblStyle", w_val=TABLE)
        add(properties, "w:tblW", w_w=_TEXT_WIDTH, w_type="dxa")
        add(properties, "w:tblLayout", w_type="fixed")
        add(properties, "w:tblLook", w_val="0020", w_firstRow=1, w_lastRow=0,
            w_firstColumn=0, w_lastColumn=0, w_noHBand=1, w_noVBand=1)  # fmt: skip
        widths = [_TEXT_WIDTH * share // sum(table.widths) for share in table.widths]
        grid = add(element, "w:tblGrid")
        for width in widths:
            add(grid, "w:gridCol", w_w=width)
        self._row(element, table.header, widths, HEADER_CELL, keep=True)
        for row in table.rows:
            self._row(element, row, widths, "Cell", keep=keep)

    def _row(
        self,
        table: etree._Element,
        cells: Sequence[str],
        widths: Sequence[int],
        style: str,
        *,
        keep: bool,
    ) -> None:
        row = add(table, "w:tr")
        properties = add(row, "w:trPr")
        add(properties, "w:cantSplit")
        if style == HEADER_CELL:
            add(properties, "w:tblHeader")
        for text, width in zip(cells, widths, strict=True):
            cell = add(row, "w:tc")
            about = add(cell, "w:tcPr")
            add(about, "w:tcW", w_w=width, w_type="dxa")
            add(about, "w:vAlign", w_val="center")
            add_text(self._paragraph(style, keep=keep, parent=cell), text)

    def _picture(self, block: Picture, *, keep: bool) -> None:
        drawing = block.drawing
        self._pictures += 1
        number, name = self._pictures, f"{drawing.title} {self._pictures}"
        png = self._package.picture(to_png(drawing), "png")
        svg = self._package.picture(to_svg(drawing).encode(), "svg")
        size = {"cx": round(drawing.width * _EMU), "cy": round(drawing.height * _EMU)}
        run = add(self._paragraph("Drawing", keep=keep), "w:r")
        inline = add(add(run, "w:drawing"), "wp:inline", distT=0, distB=0, distL=0, distR=0)
        add(inline, "wp:extent", **size)
        add(inline, "wp:docPr", id=number, name=name, descr=drawing.alt)
        locks = add(add(inline, "wp:cNvGraphicFramePr"), "a:graphicFrameLocks")
        locks.set("noChangeAspect", "1")
        data = add(add(inline, "a:graphic"), "a:graphicData", uri=NAMESPACES["pic"])
        picture = add(data, "pic:pic")
        about = add(picture, "pic:nvPicPr")
        add(about, "pic:cNvPr", id=number, name=name, descr=drawing.alt)
        add(about, "pic:cNvPicPr")
        fill = add(picture, "pic:blipFill")
        blip = add(fill, "a:blip", r_embed=png)
        extension = add(add(blip, "a:extLst"), "a:ext", uri=_SVG_EXTENSION)
        add(extension, "asvg:svgBlip", r_embed=svg)
        add(add(fill, "a:stretch"), "a:fillRect")
        shape = add(picture, "pic:spPr")
        place = add(shape, "a:xfrm")
        add(place, "a:off", x=0, y=0)
        add(place, "a:ext", **size)
        add(add(shape, "a:prstGeom", prst="rect"), "a:avLst")
