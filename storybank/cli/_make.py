"""`storybank make`: a set of problems as files, or as JSON on standard output."""

import argparse
import sys
import time
from pathlib import Path
from typing import Any

from storybank.errors import RequestError, unknown_value

DEFAULT_FORMATS = "docx,json"
DEFAULT_FOLDER = "storybank-set"
_REPORT_AFTER = 1.0


def add_to(commands: Any) -> None:
    """Adds the command to the parser."""
    make = commands.add_parser("make", help="make a set of problems")
    several: dict[str, Any] = {"action": "extend", "nargs": "+", "default": []}
    make.add_argument("--theme", metavar="NAME", help="theme packs (see: list themes)", **several)
    make.add_argument("--strategy", metavar="ID", help="strategies to practise, or any", **several)
    make.add_argument(
        "--situation", metavar="ID", help="situations to tell (see: list situations)", **several
    )
    make.add_argument("--within", type=int, metavar="N", help="largest number, 5 to 1000 (100)")
    make.add_argument("--count", type=int, metavar="N", default=12, help="problems, 1 to 2000 (12)")
    make.add_argument("--vocabulary", metavar="NAME", default="level-4", help="level-1 to level-4")
    make.add_argument(
        "--pair", metavar='"46 + 38"', help="tell stories for exactly these numbers", **several
    )
    make.add_argument(
        "--crossing",
        metavar="always|never|any|PERCENT",
        default="any",
        help="whether the numbers regroup, or how many percent do",
    )
    make.add_argument(
        "--diagnose",
        action="store_true",
        help="only numbers for which known mistakes give different wrong answers",
    )
    make.add_argument("--names", metavar="FILE", help="a class list: one name a line")
    make.add_argument("--names-from", metavar="NAME", help="a list of names (see: list names)")
    make.add_argument("--seed", type=int, metavar="N", help="the same seed gives the same set")
    make.add_argument(
        "--format", metavar="docx,json,csv,html", default=DEFAULT_FORMATS, help="(docx,json)"
    )
    make.add_argument(
        "--out", metavar="FOLDER", default=DEFAULT_FOLDER, help="or - for JSON on standard output"
    )
    make.add_argument("--overwrite", action="store_true", help="replace files that are there")
    make.set_defaults(command=run)


def run(options: argparse.Namespace) -> int:
    """Makes the set; files are checked for before anything is made, and written at the end."""
    from storybank import documents
    from storybank.problem_set import make_set
    from storybank.request import Request

    formats = _formats(options.format, list(documents.formats()))
    to_stdout = options.out == "-"
    if to_stdout and formats != ["json"] and options.format != DEFAULT_FORMATS:
        raise RequestError(
            f'--out - writes JSON only, but the format asked for is "{options.format}". '
            "Use --format json with it, or name a folder."
        )
    folder = Path(options.out)
    if not to_stdout:
        documents.check(folder, formats, overwrite=options.overwrite)
    made = make_set(
        Request(
            theme=options.theme,
            strategy=options.strategy,
            situation=options.situation,
            within=options.within,
            count=options.count,
            vocabulary=options.vocabulary,
            pair=options.pair,
            crossing=options.crossing,
            diagnose=options.diagnose,
            names=options.names,
            names_from=options.names_from,
            seed=options.seed,
        ),
        _Progress(),
    )
    for note in made.notes:
        print(f"note: {note}", file=sys.stderr)
    if options.seed is None:
        seed = made.request["seed"]
        print(
            f"seed {seed}: the same wish with --seed {seed} gives this set again", file=sys.stderr
        )
    if to_stdout:
        sys.stdout.write(made.to_text())
        return 0
    written = documents.write(made, folder, formats, overwrite=options.overwrite)
    print(f"{len(made.problems)} problems:")
    for path in written:
        print(f"  {path}")
    return 0


def _formats(text: str, valid: list[str]) -> list[str]:
    chosen = [name.strip() for name in text.split(",") if name.strip()]
    for name in chosen:
        if name not in valid:
            raise RequestError(unknown_value("format", name, valid))
    if not chosen:
        raise RequestError(f"--format is empty. Choose from: {', '.join(valid)}.")
    return list(dict.fromkeys(chosen))


class _Progress:
    """Says on standard error how far a make is, once it takes longer than a second."""

    def __init__(self) -> None:
        self.started = self.said = time.monotonic()

    def __call__(self, made: int, wanted: int) -> None:
        now = time.monotonic()
        if now - self.started > _REPORT_AFTER and (now - self.said > _REPORT_AFTER):
            self.said = now
            print(f"{made} of {wanted} problems made", file=sys.stderr, flush=True)
