"""`storybank make --bank`: a set that a class has not had, kept and recorded in a bank."""

import argparse
import secrets
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from storybank.cli._progress import Progress
from storybank.errors import BankError, RequestError

if TYPE_CHECKING:
    from storybank.model import ProblemSet
    from storybank.request import Request


def add_to(command: Any) -> None:
    """Adds the options to the command."""
    command.add_argument(
        "--bank", type=Path, metavar="FILE", help="keep the problems in a bank (see: bank --help)"
    )
    command.add_argument(
        "--class",
        dest="label",
        metavar="2B",
        help="with --bank: only what this class has not had, from the bank first; recorded",
    )
    command.add_argument("--day", metavar="YYYY-MM-DD", help="with --class: given on (today)")
    command.add_argument(
        "--all-new", action="store_true", help="with --class: nothing from the bank, all made anew"
    )


@contextmanager
def made(options: argparse.Namespace, request: "Request") -> Iterator["ProblemSet"]:
    """The set, to be written inside; where that fails what the bank recorded of it is undone."""
    if options.bank is None:
        for said, given in (
            (f"--class {options.label}", options.label is not None),
            (f"--day {options.day}", options.day is not None),
            ("--all-new", options.all_new),
        ):
            if given:
                raise RequestError(
                    f"{said} was given without --bank. Name the file of a bank, such as --bank "
                    "our-school.bank."
                )
        yield _made(options.change, request)
        return
    if options.change:
        raise RequestError(
            f"--change {options.change[0]} was given with --bank, and a bank hands out stories as "
            "they are kept. Leave one of the two out: make the set with --change first, then keep "
            "it with storybank bank add."
        )
    if options.label is None and (options.day is not None or options.all_new):
        raise RequestError(
            "--day and --all-new are about a class. Name it, such as --class 2B, or leave them out."
        )
    from storybank.bank import Bank, check_class
    from storybank.request import settle

    # All that may be wrong with the wish is said before a new bank is made.
    check_class(options.label, options.day)
    settle(request, 0)
    with Bank(options.bank) as bank:
        made = bank.hand_out(
            request,
            options.label,
            day=options.day,
            from_bank=options.label is not None and not options.all_new,
            report=Progress(),
        )
        try:
            yield made
        except BaseException:
            try:
                bank.give_up(bank.last)
            except BankError as error:
                print(
                    f"note: what was made stays recorded in {options.bank}, though it was not "
                    f"written: {error}",
                    file=sys.stderr,
                )
            raise


def _made(texts: list[str], request: "Request") -> "ProblemSet":
    """The set, with the changes made that the texts ask for."""
    if not texts:
        from storybank.problem_set import make_set

        return make_set(request, Progress())
    from storybank.revision import changes_of, revise

    changes = changes_of(texts)
    for text, change in zip(texts, changes, strict=True):
        if change.kind in ("words", "plain"):
            raise RequestError(
                f"--change {text} is about words of your own, and a command has none. Make the set "
                "without it and change the words in Word."
            )
    revised = revise(request, changes, seed=secrets.randbelow(1_000_000))
    made = revised.problem_set
    return replace(made, notes=(*made.notes, *revised.notes))
