"""`storybank explain` and `new-names`, and the commands of the other modules here."""

import argparse
from pathlib import Path
from typing import Any

from storybank.cli import (
    _bank,
    _count,
    _coverage,
    _diagnose,
    _grow,
    _list,
    _packs,
    _serve,
    _week,
)
from storybank.errors import RequestError


def add_to(commands: Any) -> None:
    """Adds the commands to the parser."""
    explain = commands.add_parser("explain", help="every strategy for two numbers, cheapest first")
    explain.add_argument("numbers", metavar='"82 - 47"', help='also "46 + 38" and "47 + ? = 82"')
    explain.add_argument("--json", action="store_true")
    explain.set_defaults(command=_explain)
    _count.add_to(commands)
    _list.add_to(commands)
    _coverage.add_to(commands)
    _packs.add_to(commands)
    _week.add_to(commands)
    _bank.add_to(commands)
    _grow.add_to(commands)
    _diagnose.add_to(commands)
    _serve.add_to(commands)
    names = commands.add_parser("new-names", help="write a list of names to be reviewed")
    names.add_argument("--from", dest="locale", required=True, metavar="LOCALE", help="e.g. es_MX")
    names.add_argument("--out", type=Path, metavar="FILE", help="(LOCALE.names.csv)")
    names.add_argument("--overwrite", action="store_true")
    names.set_defaults(command=_new_names)


def _explain(options: argparse.Namespace) -> int:
    from storybank.explanation import explain, explain_text

    if options.json:
        print(_list.as_json(explain(options.numbers)))
    else:
        print(explain_text(options.numbers))
    return 0


def _new_names(options: argparse.Namespace) -> int:
    from storybank import people
    from storybank.documents import write_files
    from storybank.vocabulary.measures import listed_words

    text = people.new_names(options.locale, listed_words())
    path = options.out or Path(f"{options.locale}.names.csv")
    if path.suffix != ".csv":
        raise RequestError(
            f'The file "{path.name}" does not end in .csv. Choose a name such as '
            f"{options.locale}.names.csv."
        )
    write_files(path.parent, {path.name: text.encode("utf-8")}, overwrite=options.overwrite)
    print(f"{path}: read it over and delete the lines of names that do not suit your class,")
    print(f"then use it with: storybank make --names-from {path.name.removesuffix('.names.csv')}")
    return 0
