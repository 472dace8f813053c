"""`storybank coverage`: what sets cover, as a table on standard output or as a document."""

import argparse
from collections.abc import Iterator
from itertools import zip_longest
from pathlib import Path
from typing import TYPE_CHECKING, Any

from storybank.cli._list import as_json
from storybank.errors import RequestError

if TYPE_CHECKING:
    from storybank.documents import Page

NAME = "coverage"
_GAP = 2
_WIDTH = 96
_CELL = 64


def add_to(commands: Any) -> None:
    """Adds the command to the parser."""
    coverage = commands.add_parser("coverage", help="what a set, or several together, covers")
    coverage.add_argument("files", nargs="+", type=Path, metavar="SET.json")
    coverage.add_argument("--json", action="store_true", help="the counts as JSON")
    coverage.add_argument(
        "--standards",
        type=Path,
        metavar="FILE",
        help="your state's own codes: their grades, and those that nothing practices",
    )
    coverage.add_argument("--out", type=Path, metavar="FOLDER", help="write a document there, too")
    coverage.add_argument("--format", metavar="docx,html", help="of the document (docx)")
    coverage.add_argument("--overwrite", action="store_true", help="replace files that are there")
    coverage.add_argument("--paper", metavar="letter|a4", default="letter", help="(letter)")
    coverage.add_argument(
        "--large-print", action="store_true", help="18 points and more everywhere"
    )
    coverage.set_defaults(command=run)


def run(options: argparse.Namespace) -> int:
    """Prints the counts; with --out it also writes them as documents."""
    from storybank import coverage, documents, standards
    from storybank.documents import _coverage

    if options.out is None:
        _check_no_document(options)
    layout = documents.Layout(paper=options.paper, large_print=options.large_print)
    state = None if options.standards is None else standards.read(options.standards)
    counted = coverage.count(coverage.read_sets(options.files), state)
    page = _coverage.page(counted, layout)
    written = []
    if options.out is not None:
        formats = [one.strip() for one in (options.format or "docx").split(",") if one.strip()]
        if not formats:
            raise RequestError("--format is empty. Choose from: docx, html.")
        contents = documents.render_pages({NAME: page}, formats, layout)
        written = documents.write_files(options.out, contents, overwrite=options.overwrite)
    if options.json:
        print(as_json(counted.to_json()))
        return 0
    print("\n".join(_lines(page)))
    if written:
        print("\nwritten:")
        for path in written:
            print(f"  {path}")
    return 0


def _check_no_document(options: argparse.Namespace) -> None:
    """Raises RequestError for options of a document where none is to be written."""
    for name, given in (
        ("--format", options.format is not None),
        ("--overwrite", options.overwrite),
        ("--large-print", options.large_print),
    ):
        if given:
            raise RequestError(
                f"{name} is for the document, and no folder for it is named. Add --out FOLDER, or "
                f"leave {name} out."
            )


def _lines(page: "Page") -> Iterator[str]:
    """The page as lines of text, without its pictures."""
    from textwrap import wrap

    from storybank.documents._page import Heading, Paragraph, Table, Title

    for block in page.flat():
        match block:
            case Title():
                yield block.text
            case Heading():
                yield from ("", block.text)
            case Paragraph():
                yield from wrap(f"{block.lead} {block.text}".strip(), _WIDTH)
            case Table():
                yield from _table((block.header, *block.rows))


def _table(rows: tuple[tuple[str, ...], ...]) -> Iterator[str]:
    """The rows with their cells below each other; numbers stand at the right."""
    from textwrap import wrap

    columns = list(zip(*rows, strict=True))
    widths = [min(_CELL, max(map(len, column))) for column in columns]
    right = [all(one.rstrip("%").isdigit() for one in column[1:]) for column in columns]
    for row in rows:
        wrapped = [wrap(cell, _CELL) or [""] for cell in row]
        for line in zip_longest(*wrapped, fillvalue=""):
            cells = [
                text.rjust(width) if number else text.ljust(width)
                for text, width, number in zip(line, widths, right, strict=True)
            ]
            yield "  " + (" " * _GAP).join(cells).rstrip("\N{NO-BREAK SPACE} ")
