"""The set as one HTML page to print: student pages, then the key."""

from html import escape

from storybank.documents._format import Format
from storybank.documents._key import key_page
from storybank.documents._notation import directions
from storybank.documents._page import Block, Group, Heading, Page, Paragraph, Picture, Table, Title
from storybank.documents._student import student_page
from storybank.drawings import to_svg
from storybank.model import ProblemSet

FORMAT = Format(id="html", title="Web page to print", files=("set.html",))

_STYLE = """
:root { color: #000; background: #fff; }
body { font: 12pt/1.4 Verdana, "DejaVu Sans", sans-serif; max-width: 6.5in; margin: 1em auto; }
h1 { font-size: 20pt; margin: 0 0 .4em; } h2 { font-size: 14pt; margin: 1em 0 .3em; }
h3 { font-size: 13pt; margin: 1.2em 0 .3em; } p { margin: .35em 0; }
.top { border-bottom: 1px solid #000; padding-bottom: .4em; }
.story, .question { font-size: 14pt; }
.work { margin-bottom: 5em; } .tall { margin-bottom: 8em; } .wide { margin-bottom: 14em; }
.fill { margin-top: .9em; white-space: pre-wrap; } .help { font-size: 12pt; }
.unknown { font-size: 1.25em; line-height: 1; }
table { border-collapse: collapse; width: 100%; margin: .6em 0; }
th, td { border: 1px solid #000; padding: .25em .5em; text-align: left; font-weight: normal; }
th { font-weight: bold; background: #eee; } svg { display: block; max-width: 100%; height: auto; }
.problem { break-inside: avoid; } .new-page, .key { break-before: page; }
.problem + .problem { margin-top: 2em; }
@media screen {
  .again { display: none; }
  .key { border-top: 3px double #000; margin-top: 3em; padding-top: 2em; }
}
@page { size: letter; margin: 0.8in 1in; }
@media print {
  body { margin: 0; max-width: none; }
}
""".strip()


def render(problem_set: ProblemSet, file_name: str) -> bytes:
    """The bytes of `set.html`: one self-contained page without scripts."""
    student, key = student_page(problem_set), key_page(problem_set)
    parts = [
        '<!DOCTYPE html>\n<html lang="en-US">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{escape(student.title)}</title>\n<style>\n{_STYLE}\n</style>\n</head>\n<body>\n"
    ]
    parts.extend(_page(student, "student"))
    parts.extend(_page(key, "key"))
    parts.append("</body>\n</html>\n")
    return "".join(parts).encode("utf-8")


def _page(page: Page, name: str) -> list[str]:
    parts = [f'<main class="{name}">\n' if name == "student" else f'<section class="{name}">\n']
    parts.append(f'<p class="top">{_text(page.top)}</p>\n')
    for block in page.blocks:
        if isinstance(block, Group) and _on_new_page(block):
            # Each printed page begins as the first one does; there is no running header in HTML.
            parts.append(
                f'<p class="top again new-page" aria-hidden="true">{_text(page.top)}</p>\n'
            )
        parts.append(_block(block))
    parts.append("</main>\n" if name == "student" else "</section>\n")
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
            return f"<p>{to_svg(block.drawing, standalone=False)}</p>\n"
        case Table():
            return _table(block)
        case Group():
            inner = "".join(_block(one) for one in block.blocks)
            return f'<section class="problem">\n{inner}</section>\n'


def _on_new_page(group: Group) -> bool:
    first = group.blocks[0]
    return isinstance(first, Heading) and first.new_page


def _table(table: Table) -> str:
    head = "".join(
        f'<th scope="col" style="width: {100 * share // sum(table.widths)}%">{_text(cell)}</th>'
        for cell, share in zip(table.header, table.widths, strict=True)
    )
    rows = "".join(
        "<tr>" + "".join(f"<td>{_text(cell)}</td>" for cell in row) + "</tr>\n"
        for row in table.rows
    )
    return f"<table>\n<thead><tr>{head}</tr></thead>\n<tbody>\n{rows}</tbody>\n</table>\n"


def _text(text: str) -> str:
    parts = []
    for stretch, right_to_left in directions(text):
        clean = escape(stretch).replace(
            "\N{WHITE SQUARE}", '<span class="unknown">\N{WHITE SQUARE}</span>'
        )
        parts.append(f'<bdi dir="rtl">{clean}</bdi>' if right_to_left else clean)
    return "".join(parts)
