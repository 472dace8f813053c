"""`storybank diagnose`: which known mistakes a class's wrong answers agree with."""

import argparse
import sys
from pathlib import Path
from typing import Any

from storybank.errors import RequestError

DEFAULT_FORMATS = "docx"
_FORM_FILE = "answers.csv"
_PAGE = "diagnosis"


def add_to(commands: Any) -> None:
    """Adds the command to the parser."""
    diagnose = commands.add_parser(
        "diagnose", help="which known mistakes a class's wrong answers agree with"
    )
    diagnose.add_argument("set", metavar="SET.json", type=Path, help="a set made with JSON")
    diagnose.add_argument(
        "answers",
        metavar="ANSWERS.csv",
        type=Path,
        nargs="?",
        help="a row a child: name or number, then the answer under each problem's code",
    )
    diagnose.add_argument(
        "--form", action="store_true", help="the table to fill in, with the codes of the set"
    )
    diagnose.add_argument(
        "--out", metavar="FOLDER", type=Path, help="write a page there; nothing without it"
    )
    diagnose.add_argument("--format", metavar="docx,html", help="(docx)")
    diagnose.add_argument("--json", action="store_true", help="the same as JSON")
    diagnose.add_argument("--paper", metavar="letter|a4", help="(letter)")
    diagnose.add_argument("--large-print", action="store_true", help="18 points and more")
    diagnose.add_argument("--overwrite", action="store_true", help="replace files that are there")
    diagnose.set_defaults(command=run)


def run(options: argparse.Namespace) -> int:
    """Prints what the answers agree with; files are written only into a folder that is named."""
    _check(options)
    if options.form:
        return _form(options)
    from storybank import diagnosis
    from storybank.cli import _list

    found = diagnosis.diagnose(options.set, options.answers)
    for note in found.notes:
        print(f"note: {note}", file=sys.stderr)
    written = []
    if options.out is not None:
        from storybank import documents
        from storybank.documents import _diagnosis

        layout = documents.Layout(
            pages=(), paper=options.paper or "letter", large_print=options.large_print
        )
        pages = {_PAGE: _diagnosis.page(found)}
        formats = _formats(options.format or DEFAULT_FORMATS)
        contents = documents.render_pages(pages, formats, layout)
        written = documents.write_files(options.out, contents, overwrite=options.overwrite)
    if options.json:
        print(_list.as_json(found.to_json()))
    else:
        print(diagnosis.as_text(found), end="")
    for path in written:
        print(f"written: {path}", file=sys.stderr)
    return 0


def _check(options: argparse.Namespace) -> None:
    """Nothing, if the options go together. Raises RequestError, saying which do not."""
    example = f"storybank diagnose {options.set.name} answers.csv"
    if options.form and options.answers is not None:
        raise RequestError(
            f'--form and the table "{options.answers.name}" were both given: --form makes a new '
            "table. Leave one of them out."
        )
    if not options.form and options.answers is None:
        raise RequestError(
            f"No table of answers was given beside {options.set.name}. Write: {example}; "
            f"storybank diagnose {options.set.name} --form makes a table to fill in."
        )
    if options.form and options.json:
        raise RequestError(
            "--form and --json were both given: the form is a table for a spreadsheet. Leave "
            "--json out."
        )
    pages = {
        "--format": options.format,
        "--paper": options.paper,
        "--large-print": options.large_print,
    }
    asked = [name for name, value in pages.items() if value]
    if asked and options.form:
        raise RequestError(
            f"{asked[0]} is for the page about answers, and --form makes a table. Leave "
            f"{asked[0]} out."
        )
    if asked and options.out is None:
        raise RequestError(
            f"{asked[0]} was given but no folder, and no file is written without one. Add "
            f"--out FOLDER, or leave {asked[0]} out."
        )


def _formats(text: str) -> list[str]:
    chosen = [name.strip() for name in text.split(",") if name.strip()]
    if not chosen:
        raise RequestError("--format is empty. Choose from: docx, html.")
    return chosen


def _form(options: argparse.Namespace) -> int:
    from storybank import diagnosis

    answered = diagnosis.read_set(options.set)
    if answered.lists:
        print(f"note: {diagnosis.left_out(answered)}", file=sys.stderr)
    text = diagnosis.text_of_form(answered)
    if options.out is None:
        sys.stdout.write(text.replace("\r\n", "\n"))
        return 0
    from storybank.documents import write_files

    contents = {_FORM_FILE: text.encode("utf-8-sig")}
    (path,) = write_files(options.out, contents, overwrite=options.overwrite)
    print(f"{path}: write a row a child: the name or number, then the answer to each problem.")
    print(f"  storybank diagnose {options.set} {path}")
    return 0
