"""The set as one HTML page to print: all kinds of page that were asked for, in order."""

from collections.abc import Iterable, Mapping
from html import escape

from storybank.documents import kinds
from storybank.documents._format import Format
from storybank.documents._layout import Layout
from storybank.documents._notation import directions
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
from storybank.documents._styles import PARAGRAPH_STYLES
from storybank.drawings import to_svg
from storybank.model import ProblemSet

FORMAT = Format(id="html", title="Web page to print", suffix=".html")

_STYLE = """
:root { color: #000; background: #fff; }
body { line-height: 1.2; margin: 1em auto; }
.top { border-bottom: 1px solid #000; padding-bottom: .4em; }
.fill, .sum { white-space: pre-wrap; }
.drawing { display: flex; align-items: flex-end; gap: 8pt; }
.unknown { font-size: 1.25em; line-height: 1; } .sum .unknown { font-size: 2.25em; }
.cut { border-top: 1.5pt dashed #000; padding-top: 4pt; }
table { border-collapse: collapse; width: 100%; margin: .6em 0; }
th, td { border: 1px solid #000; padding: .25em .5em; text-align: left; font-weight: normal; }
th { background: #eee; } svg { max-width: 100%; height: auto; }
.problem { break-inside: avoid; } .new-page, main + section, section + section.kind {
  break-before: page; }
.cards { display: grid; margin-top: 8pt; }
.cards > article { border: 1.5pt dashed #000; padding: 8pt; min-height: 150pt; margin: -0.75pt;
  break-inside: avoid; }
@media screen {
  .again { display: none; }
  .kind + .kind { border-top: 3px double #000; margin-top: 3em; padding-top: 2em; }
}
@media print {
  body { margin: 0; max-width: none; }
}
""".strip()
_TAGS = {"title": "h1", "heading1": "h2", "heading2": "h3", "cell": "td", "cell-header": "th"}


def render(problem_set: ProblemSet, layout: Layout) -> dict[str, bytes]:
    """The file `set.html`: one self-contained page without scripts."""
    pages = {kind: kinds.page(kind, problem_set, layout) for kind in layout.pages}
    return {"set.html": _document(pages, layout)}


def render_pages(pages: Mapping[str, Page], layout: Layout) -> dict[str, bytes]:
    """A self-contained file for each page, named after its name."""
    return {f"{name}{FORMAT.suffix}": _document({name: one}, layout) for name, one in pages.items()}


def fragments(blocks: Iterable[Block]) -> str:
    """The blocks as they stand in a page, without any style of their own, for the web page."""
    return "".join(
        _table(one, widths=False) if isinstance(one, Table) else _block(one) for one in blocks
    )


def _document(pages: Mapping[str, Page], layout: Layout) -> bytes:
    """The pages in order as one HTML file."""
    title = next(iter(pages.values())).title
    parts = [
        '<!DOCTYPE html>\n<html lang="en-US">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{escape(title)}</title>\n<style>\n{_style(layout)}\n</style>\n"
        "</head>\n<body>\n<main>\n"
    ]
    for name, page in pages.items():
        parts.extend(_page(page, name))
    parts.append("</main>\n</body>\n</html>\n")
    return "".join(parts).encode("utf-8")


def _style(layout: Layout) -> str:
    """The style sheet: the sizes and room of the named styles, then what HTML needs besides."""
    font = layout.font.replace("\\", "").replace('"', "").replace("<", "")
    width, height = layout.size
    rules = [
        f'body {{ font: {layout.type_size(12):g}pt "{font}", "DejaVu Sans", sans-serif; '
        f"max-width: {layout.text_width:g}pt; }}",
        f"@page {{ size: {width:g}pt {height:g}pt; margin: 36pt {layout.margin:g}pt; }}",
    ]
    for name, style in PARAGRAPH_STYLES.items():
        bold = "bold" if style.bold else "normal"
        tab = f" tab-size: {style.tab:g}pt;" if style.tab else ""
        rules.append(
            f"{_TAGS.get(name, f'.{name}')} {{ font-size: {layout.type_size(style.size):g}pt; "
            f"font-weight: {bold}; margin: {style.before:g}pt 0 {style.after:g}pt;{tab} }}"
        )
    return "\n".join((*rules, _STYLE))


def _page(page: Page, name: str) -> list[str]:
    parts = [f'<section class="kind {name}">\n']
    if page.top:
        parts.append(f'<p class="top">{_text(page.top)}</p>\n')
    for block in page.blocks:
        if isinstance(block, Group) and _on_new_page(block):
            # Each printed page begins as the first one does; there is no running header in HTML.
            parts.append(
                f'<p class="top again new-page" aria-hidden="true">{_text(page.top)}</p>\n'
            )
        parts.append(_block(block))
    parts.append("</section>\n")
    return parts


def _block(block: Block) -> str:
    match block:
        case Title():
            return f"<h1>{_text(block.text)}</h1>\n"
        case Heading():
            tag = f"h{block.level + 1}"
            mark = ' class="new-page"' if block.new_page and block.number is None else ""
            lead = f"Problem {block.number} \N{MIDDLE DOT} " if block.number else ""
            return f"<{tag}{mark}>{lead}{_text(block.text)}</{tag}>\n"
        case Paragraph():
            lead = f"<strong>{_text(block.lead)}</strong> " if block.lead else ""
            return f'<p class="{block.style}">{lead}{_text(block.text)}</p>\n'
        case Picture():
            lead = f"<strong>{_text(block.lead)}</strong>" if block.lead else ""
            return f'<p class="drawing">{lead}{to_svg(block.drawing, standalone=False)}</p>\n'
        case Table():
            return _table(block)
        case Cards():
            return _cards(block)
        case Group():
            inner = "".join(_block(one) for one in block.blocks)
            return f'<section class="problem">\n{inner}</section>\n'


def _cards(cards: Cards) -> str:
    made = "".join(
        f"<article>\n{''.join(_block(one) for one in card)}</article>\n" for card in cards.cards
    )
    columns = f"grid-template-columns: repeat({cards.columns}, 1fr)"
    return f'<div class="cards" style="{columns}">\n{made}</div>\n'


def _on_new_page(group: Group) -> bool:
    first = group.blocks[0]
    return isinstance(first, Heading) and first.new_page


def _table(table: Table, *, widths: bool = True) -> str:
    whole = sum(table.widths)
    head = "".join(
        f'<th scope="col"{_width(share, whole) if widths else ""}>{_text(cell)}</th>'
        for cell, share in zip(table.header, table.widths, strict=True)
    )
    rows = "".join(
        "<tr>" + "".join(f"<td>{_text(cell)}</td>" for cell in row) + "</tr>\n"
        for row in table.rows
    )
    return f"<table>\n<thead><tr>{head}</tr></thead>\n<tbody>\n{rows}</tbody>\n</table>\n"


def _width(share: int, whole: int) -> str:
    return f' style="width: {100 * share // whole}%"'


def _text(text: str) -> str:
    parts = []
    for stretch, right_to_left in directions(text):
        clean = escape(stretch).replace(
            "\N{WHITE SQUARE}", '<span class="unknown">\N{WHITE SQUARE}</span>'
        )
        parts.append(f'<bdi dir="rtl">{clean}</bdi>' if right_to_left else clean)
    return "".join(parts)
