"""`storybank count`: counting warm-ups as files, a page for children and a key."""

import argparse
import sys
from pathlib import Path
from typing import Any

from storybank.errors import RequestError, unknown_value
from storybank.luck import checked_seed

DEFAULT_FOLDER = "storybank-count"
_SEED_HELP = "the same seed gives the same warm-ups"


def add_to(commands: Any) -> None:
    """Adds the command to the parser."""
    count = commands.add_parser(
        "count",
        help="make counting warm-ups: strips with gaps, jumps, what comes next",
        description="Counting warm-ups by ones, fives, tens and hundreds, forward and back, from "
        "any number: count.docx for children and count-key.docx with what to say.",
    )
    count.add_argument(
        "--by",
        type=int,
        nargs="+",
        metavar="N",
        help="1, 5, 10 or 100, also several (all that fit)",
    )
    count.add_argument(
        "--from", dest="start", type=int, metavar="N", help="the first number (drawn by the seed)"
    )
    count.add_argument(
        "--back",
        action="store_true",
        help="count back (without --from: forward and back in turn)",
    )
    count.add_argument(
        "--steps", type=int, metavar="N", help="numbers of a count, 4 to 20 (as many as fit, to 11)"
    )
    count.add_argument(
        "--within", type=int, default=1000, metavar="N", help="largest number, 10 to 1000 (1000)"
    )
    count.add_argument(
        "--count", type=int, metavar="N", help="warm-ups, 1 to 20 (3; with --from 1)"
    )
    count.add_argument("--seed", type=int, metavar="N", help=_SEED_HELP)
    count.add_argument("--format", metavar="docx,html", default="docx", help="(docx)")
    count.add_argument("--paper", metavar="letter|a4", default="letter", help="(letter)")
    count.add_argument("--large-print", action="store_true", help="18 points and more everywhere")
    count.add_argument("--out", type=Path, metavar="FOLDER", default=Path(DEFAULT_FOLDER))
    count.add_argument("--overwrite", action="store_true", help="replace files that are there")
    count.set_defaults(command=run)


def run(options: argparse.Namespace) -> int:
    """Makes the warm-ups; nothing is written before all of it is made."""
    from storybank import counting, documents
    from storybank.documents import _counting

    layout = documents.Layout(paper=options.paper, large_print=options.large_print)
    formats = _formats(options.format)
    seed = _seed(options.seed)
    wish = counting.Wish(
        options.by or (), options.start, options.back, options.steps, options.within, options.count
    )
    counts = counting.asked_for(wish, seed)
    contents = documents.render_pages(_counting.pages(counts, layout), formats, layout)
    written = documents.write_files(options.out, contents, overwrite=options.overwrite)
    if options.seed is None:
        print(
            f"seed {seed}: the same wish with --seed {seed} gives these warm-ups again",
            file=sys.stderr,
        )
    for one in counts:
        print(one.says[0].partition(". ")[0].replace("We count", "Count"))
    for path in written:
        print(f"  {path}")
    return 0


def _formats(text: str) -> list[str]:
    valid = ("docx", "html")
    chosen = [name.strip() for name in text.split(",") if name.strip()]
    for name in chosen:
        if name not in valid:
            raise RequestError(unknown_value("format of pages", name, valid))
    if not chosen:
        raise RequestError(f"--format is empty. Choose from: {', '.join(valid)}.")
    return list(dict.fromkeys(chosen))


def _seed(seed: int | None) -> int:
    if seed is None:
        import secrets

        return secrets.randbelow(1_000_000)
    return checked_seed(seed)
