"""`storybank make`: a set of problems as files, or as JSON on standard output."""

import argparse
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

from storybank.cli import _from_bank, _settings, _wishes
from storybank.errors import RequestError, unknown_value

if TYPE_CHECKING:
    from storybank.documents import Layout
    from storybank.model import ProblemSet

DEFAULT_FORMATS = "docx,json"
DEFAULT_FOLDER = "storybank-set"


def add_to(commands: Any) -> None:
    """Adds the command to the parser."""
    make = commands.add_parser("make", help="make a set of problems")
    _wishes.add_to(make)
    make.add_argument("--count", type=int, metavar="N", default=12, help="problems, 1 to 2000 (12)")
    _settings.add_to(make)
    make.add_argument("--seed", type=int, metavar="N", help="the same seed gives the same set")
    make.add_argument(
        "--change",
        metavar="swap-3",
        help="then change stories by their places: swap-3, numbers-3, level-3-level-2, renew-1-4, "
        "up-3, down-3, remove-3, more",
        **_wishes.several(),
    )
    make.add_argument(
        "--format", metavar="docx,json,csv,html", default=DEFAULT_FORMATS, help="(docx,json)"
    )
    make.add_argument(
        "--pages",
        metavar="KIND",
        help="kinds of page: student, key ... (see: list pages)",
        **_wishes.several(),
    )
    make.add_argument("--paper", metavar="letter|a4", help="(letter)")
    make.add_argument(
        "--large-print", action="store_true", default=None, help="18 points and more everywhere"
    )
    make.add_argument("--font", metavar="NAME", help="a font of your machine (Verdana)")
    make.add_argument(
        "--lines",
        metavar="started|blank|none",
        help="the number lines for children (as their level has them)",
    )
    make.add_argument(
        "--unknown",
        metavar="box|blank|question-mark",
        default="box",
        help="the number to find (box)",
    )
    make.add_argument(
        "--drawings",
        metavar="pictures|shapes",
        default="pictures",
        help="shapes: to be moved in Word (pictures)",
    )
    make.add_argument(
        "--template", metavar="FILE", help="a Word file of your school: its styles and header"
    )
    make.add_argument(
        "--out", metavar="FOLDER", default=DEFAULT_FOLDER, help="or - for JSON on standard output"
    )
    make.add_argument("--overwrite", action="store_true", help="replace files that are there")
    _from_bank.add_to(make)
    make.set_defaults(command=run)


def run(options: argparse.Namespace) -> int:
    """Makes the set; files are checked for before anything is made, and written at the end."""
    from storybank import documents, vocabulary

    formats = _formats(options.format, list(documents.formats()))
    to_stdout = options.out == "-"
    if to_stdout and formats != ["json"] and options.format != DEFAULT_FORMATS:
        raise RequestError(
            f'--out - writes JSON only, but the format asked for is "{options.format}". '
            "Use --format json with it, or name a folder."
        )
    wish = _settings.merged(options, vars(options))
    folder, layout = Path(options.out), _layout(wish)
    if not to_stdout:
        levels = vocabulary.ids() if options.levels_side_by_side else ()
        documents.check(folder, formats, levels=levels, layout=layout, overwrite=options.overwrite)
    request = _wishes.request(options, wish)
    with _from_bank.made(options, request) as made:
        _deliver(options, made, None if to_stdout else (folder, formats, layout))
    return 0


def _deliver(
    options: argparse.Namespace,
    made: "ProblemSet",
    files: "tuple[Path, list[str], Layout] | None",
) -> None:
    """Says what is to be said of a set, and writes its files, or prints it as JSON."""
    from storybank import documents

    for note in made.notes:
        print(f"note: {note}", file=sys.stderr)
    if options.seed is None:
        seed = made.request["seed"]
        print(
            f"seed {seed}: the same wish with --seed {seed} gives this set again", file=sys.stderr
        )
    if files is None:
        sys.stdout.write(made.to_text())
        sys.stdout.flush()
        return
    folder, formats, layout = files
    written = documents.write(made, folder, formats, options.overwrite, layout)
    print(f"{len(made.problems)} problems:")
    for path in written:
        print(f"  {path}")


def _layout(wish: Mapping[str, Any]) -> "Layout":
    """The pages and their looks. `--pages student,key` may be written too."""
    from storybank.documents import Layout, kinds

    pages = [one.strip() for text in wish["pages"] for one in text.split(",") if one.strip()]
    if wish["pages"] and not pages:
        raise RequestError(f"--pages is empty. Choose from: {', '.join(kinds.ids())}.")
    said = {key: wish[key] for key in ("paper", "large_print", "font") if wish[key] is not None}
    if pages:
        said["pages"] = tuple(dict.fromkeys(pages))
    if wish["template"] is not None:
        said["template"] = Path(wish["template"])
    looks = {key: wish[key] for key in ("lines", "unknown", "drawings")}
    return Layout(**looks, **said)


def _formats(text: str, valid: list[str]) -> list[str]:
    chosen = [name.strip() for name in text.split(",") if name.strip()]
    for name in chosen:
        if name not in valid:
            raise RequestError(unknown_value("format", name, valid))
    if not chosen:
        raise RequestError(f"--format is empty. Choose from: {', '.join(valid)}.")
    return list(dict.fromkeys(chosen))
