"""`storybank bank ...`: what is kept, found, marked, handed out, shared and looked after."""

import argparse
from collections.abc import Callable
from pathlib import Path
from typing import Any

_CODES = {"nargs": "+", "metavar": "CODE", "help": 'codes from the page, or numbers such as "#17"'}


def add_to(commands: Any) -> None:
    """Adds the command to the parser."""
    bank = commands.add_parser(
        "bank",
        help="keep problems, find them again, know what a class has had",
        epilog="Children's names are never kept: a class is a label such as 2B.",
    )
    parts = bank.add_subparsers(required=True, metavar="WHAT", prog="storybank bank")
    _keeping(parts)
    _marking(parts)
    _of_classes(parts)
    _sharing(parts)
    _looking_after(parts)


def _part(parts: Any, name: str, says: str) -> Any:
    part = parts.add_parser(name, help=says)
    part.add_argument("bank", type=Path, metavar="BANK", help="the file, such as our-school.bank")
    part.set_defaults(command=_later(name))
    return part


def _later(name: str) -> Callable[[argparse.Namespace], int]:
    """The work of a part, whose module is loaded only when it is asked for."""

    def run(options: argparse.Namespace) -> int:
        from storybank.cli import _bank_work

        return _bank_work.WORK[name](options)

    return run


def _keeping(parts: Any) -> None:
    add = _part(parts, "add", "keep the problems of sets; makes the bank if it is not there")
    add.add_argument("sets", nargs="+", type=Path, metavar="SET.json")
    find = _part(parts, "find", "the problems that are wanted, with codes and texts")
    wanted_to(find)
    find.add_argument("--most", type=int, default=20, metavar="N", help="at most so many (20)")
    find.add_argument("--skip", type=int, default=0, metavar="N", help="after so many (0)")
    find.add_argument("--json", action="store_true", help="whole problems as JSON")
    about = _part(parts, "about", "what a bank holds, in figures")
    about.add_argument("--json", action="store_true")


def wanted_to(part: Any) -> None:
    """Adds the options that say which problems are wanted."""
    for name, says in (
        ("theme", "themes"),
        ("scene", "scenes"),
        ("situation", "situations"),
        ("strategy", "strategies"),
        ("vocabulary", "levels of English"),
        ("standard", "codes of standards, such as 2.OA.1"),
        ("season", "seasons of the themes"),
        ("code", "codes or numbers of problems"),
    ):
        part.add_argument(
            f"--{name}", action="extend", nargs="+", default=[], metavar=name.upper(), help=says
        )
    part.add_argument("--within", type=int, metavar="N", help="no number larger than this")
    part.add_argument(
        "--words", default="", metavar="TEXT", help='words of the story: apples, or "in the tree"'
    )
    part.add_argument("--starred", action="store_true", help="only those with a star")
    part.add_argument("--noted", action="store_true", help="only those with a note")
    part.add_argument("--retired", action="store_true", help="retired ones, too")
    part.add_argument("--had-by", metavar="2B", help="those that a class has had")
    part.add_argument(
        "--new-to", metavar="2B", help="those that a class has not had, nor like ones"
    )
    part.add_argument("--like", metavar="CODE", help="those of the same meaning as this one")


def _marking(parts: Any) -> None:
    for name, says in (
        ("star", "mark problems that you like"),
        ("unstar", "take the star away"),
        ("retire", "never find or hand out these again"),
        ("bring-back", "find and hand out retired ones again"),
    ):
        _part(parts, name, says).add_argument("codes", **_CODES)
    note = _part(parts, "note", "write a note to a problem; an empty one takes it away")
    note.add_argument("code", metavar="CODE")
    note.add_argument("text", metavar="TEXT")
    _part(parts, "undo", "take back the last thing done to the bank")
    log = _part(parts, "log", "what was done to the bank, the last first")
    log.add_argument("--most", type=int, default=20, metavar="N", help="(20)")


def _of_classes(parts: Any) -> None:
    used = _part(parts, "used", "a class has had these problems")
    used.add_argument("codes", **_CODES)
    used.add_argument("--class", dest="label", required=True, metavar="2B")
    used.add_argument("--day", metavar="YYYY-MM-DD", help="(today)")
    had = _part(parts, "had", "what a class has had, by day; without a class: the classes")
    had.add_argument("--class", dest="label", metavar="2B")
    had.add_argument("--json", action="store_true")


def _sharing(parts: Any) -> None:
    export = _part(parts, "export", "write problems to a file or a folder")
    export.add_argument(
        "--out",
        required=True,
        metavar="FILE",
        help="FILE.jsonl holds all that is kept, FILE.csv a table; a folder takes Word files; "
        "- for JSON Lines on standard output",
    )
    wanted_to(export)
    export.add_argument("--most", type=int, metavar="N", help="at most so many")
    export.add_argument("--overwrite", action="store_true", help="replace files that are there")
    take_in = _part(parts, "import", "take problems in from what export wrote (.jsonl or .csv)")
    take_in.add_argument("files", nargs="+", type=Path, metavar="FILE")
    take_in.add_argument("--skip-bad", action="store_true", help="pass over bad lines")
    merge = _part(parts, "merge", "take all that other banks hold into this one")
    merge.add_argument("others", nargs="+", type=Path, metavar="OTHER")


def _looking_after(parts: Any) -> None:
    check = _part(parts, "check", "whether all is sound; every problem is judged afresh")
    check.add_argument("--quick", action="store_true", help="without judging each problem")
    _part(parts, "backup", "write a backup beside the bank")
    restore = _part(parts, "restore", "bring a backup back; the bank as it is now is kept aside")
    restore.add_argument("backup", type=Path, metavar="BACKUP")
