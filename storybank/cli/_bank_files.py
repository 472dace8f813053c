"""`storybank bank export`: the problems of a bank as JSON Lines, a table, or Word files."""

import os
import sys
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path
from typing import IO

from storybank.bank import Bank, Wanted
from storybank.errors import BankError, OutputError, RequestError

_IN_A_SET = 2000


def export(
    bank: Bank, wanted: Wanted, out: str, most: int | None, *, overwrite: bool
) -> tuple[int, str | None]:
    """How many problems were written, and where; by the name of `out` lines, a table or a folder.

    Raises OutputError for a file that is there and what cannot be written.
    """
    from storybank.bank import as_lines, write_table

    if most is not None and most < 1:
        raise RequestError(f"--most is {most}. Choose a whole number from 1 on.")
    if out == "-":
        try:
            count = _count(as_lines(one for _, one in bank.records(wanted, most)), sys.stdout)
            sys.stdout.flush()
        except BrokenPipeError:
            raise
        except OSError as error:
            raise OutputError(
                f"Standard output could not be written: {error.strerror}. The bank is as it was. "
                "Free some room, or write to a file: --out liked.jsonl."
            ) from error
        return count, None
    path = Path(out)
    suffix = path.suffix.lower()
    if suffix == ".jsonl":
        return _streamed(
            path,
            lambda file: _count(as_lines(one for _, one in bank.records(wanted, most)), file),
            overwrite=overwrite,
        ), out
    if suffix == ".csv":
        return _streamed(
            path,
            lambda file: write_table(file, bank.records(wanted, most)),
            overwrite=overwrite,
            mark="\ufeff",
        ), out
    if suffix:
        raise OutputError(
            f'Nothing is exported to a file that ends in "{suffix}" ("{path.name}"). Choose a '
            "name that ends in .jsonl or .csv, or a folder for Word files."
        )
    return _as_set(bank, wanted, path, most, overwrite=overwrite), out


def _count(lines: Iterator[str], file: IO[str]) -> int:
    count = 0
    for line in lines:
        file.write(line)
        count += 1
    return count


def _streamed(
    path: Path, write: Callable[[IO[str]], int], *, overwrite: bool, mark: str = ""
) -> int:
    """How many problems `write` wrote; the file is moved into place when it is whole."""
    from storybank.documents import check_targets

    check_targets(path.parent, [path.name], overwrite=overwrite)
    beside = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with beside.open("w", encoding="utf-8", newline="") as file:
            file.write(mark)
            count = write(file)
        beside.replace(path)
    except OSError as error:
        raise OutputError(
            f'"{path}" could not be written: {error.strerror}. Nothing was changed. Free some '
            "room or choose another folder."
        ) from error
    finally:
        with suppress(OSError):
            beside.unlink(missing_ok=True)
    return count


def _as_set(bank: Bank, wanted: Wanted, folder: Path, most: int | None, *, overwrite: bool) -> int:
    from storybank import documents
    from storybank.model import ProblemSet

    found = bank.find(wanted, min(most or _IN_A_SET, _IN_A_SET) + 1)
    if not found:
        raise BankError(
            "No problem of the bank is as wanted, so nothing was written. Ask for less at once."
        )
    if len(found) > _IN_A_SET:
        raise BankError(
            f"More than {_IN_A_SET:,} problems are as wanted, and a Word file holds at most so "
            "many. Say --most, or ask for more at once; JSON Lines hold any number."
        )
    found = found[: most or _IN_A_SET]
    problems = tuple(one.problem() for one in found)
    request, version = bank.recipe_of(found[0])
    made = ProblemSet(request, problems, version)
    documents.write(made, folder, ["docx"], overwrite)
    return len(found)
