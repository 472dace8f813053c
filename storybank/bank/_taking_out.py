"""Takes problems out of a bank: as JSON Lines, as a table, as a set to be printed."""

from typing import IO

from storybank.bank._bank import Bank
from storybank.bank._lines import as_lines
from storybank.bank._table import write_table
from storybank.bank._wanted import Wanted
from storybank.errors import BankError
from storybank.model import ProblemSet

KINDS = ("jsonl", "csv")
_IN_A_SET = 2000
_MARK = "\ufeff"
"""By this mark spreadsheets know that a table is UTF-8."""


def take_out(
    bank: Bank, wanted: Wanted, stream: IO[str], kind: str, most: int | None = None
) -> int:
    """How many of the wanted problems were written: as lines (`jsonl`) or as a table (`csv`)."""
    if kind == "csv":
        stream.write(_MARK)
        return write_table(stream, bank.records(wanted, most))
    count = 0
    for line in as_lines(one for _, one in bank.records(wanted, most)):
        stream.write(line)
        count += 1
    return count


def as_set(bank: Bank, wanted: Wanted, most: int | None = None) -> ProblemSet:
    """The wanted problems as one set, to be written as Word files.

    Raises BankError where none is wanted, and where more are than a Word file holds.
    """
    found = bank.find(wanted, min(most or _IN_A_SET, _IN_A_SET) + 1)
    if not found:
        raise BankError(
            "No problem of the bank is as wanted, so nothing was written. Ask for less at once."
        )
    if len(found) > _IN_A_SET:
        raise BankError(
            f"More than {_IN_A_SET:,} problems are as wanted, and a Word file holds at most so "
            "many. Ask for more at once, or for at most so many (--most); JSON Lines hold any "
            "number."
        )
    found = found[: most or _IN_A_SET]
    request, version = bank.recipe_of(found[0])
    return ProblemSet(request, tuple([one.problem() for one in found]), version)
