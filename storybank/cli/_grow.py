"""`storybank grow`: very many different problems into a bank, by several processes or a cluster."""

import argparse
import re
import sys
import time
from pathlib import Path
from typing import Any

from storybank.cli import _settings, _wishes
from storybank.cli._progress import Progress
from storybank.errors import RequestError


def add_to(commands: Any) -> None:
    """Adds the command to the parser."""
    grow = commands.add_parser("grow", help="fill a bank with very many different problems")
    grow.add_argument("--problems", type=int, required=True, metavar="N", help="how many")
    grow.add_argument("--bank", type=Path, required=True, metavar="FILE", help="the bank")
    grow.add_argument("--workers", type=int, default=1, metavar="N", help="processes (1)")
    grow.add_argument(
        "--slice", metavar="I/N", default="1/1", help="only this part, to be merged later (1/1)"
    )
    grow.add_argument("--cluster", metavar="ADDRESS", help="make them on a Dask cluster")
    _wishes.add_to(grow)
    _settings.add_to(grow)
    grow.add_argument(
        "--seed", type=int, metavar="N", help="the same seed gives the same problems everywhere"
    )
    grow.set_defaults(command=run)


def run(options: argparse.Namespace) -> int:
    """Grows the bank; stopped, the same command goes on."""
    from storybank.bank import grow

    wish = _settings.merged(options, vars(options))
    request = _wishes.request(options, wish)
    started = time.monotonic()
    try:
        growth, new = grow(
            options.bank,
            request,
            options.problems,
            workers=options.workers,
            part=_part(options.slice),
            cluster=options.cluster,
            report=Progress("problems grown"),
        )
    except KeyboardInterrupt:
        print(
            "storybank: stopped; what was grown is kept, and the same command goes on.",
            file=sys.stderr,
        )
        return 130
    seconds = time.monotonic() - started
    if growth.there:
        print(f"note: {growth.there:,} were grown before", file=sys.stderr)
    print(f"seed {growth.request.seed}", file=sys.stderr)
    print(f"{options.bank}: {new:,} problems new, {seconds:.0f} s")
    return 0


def _part(text: str) -> tuple[int, int]:
    found = re.fullmatch(r"([0-9]{1,6})/([0-9]{1,6})", text)
    if not found or not 1 <= int(found[1]) <= int(found[2]):
        raise RequestError(
            f'--slice "{text}" is no part of a whole. Write which one and of how many, such as 2/4.'
        )
    return int(found[1]), int(found[2])
