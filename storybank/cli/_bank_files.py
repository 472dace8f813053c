"""`storybank bank export`: the problems of a bank as JSON Lines, a table, or Word files."""

import os
import sys
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import IO

from storybank.bank import Bank, Wanted
from storybank.errors import OutputError, RequestError


def export(
    bank: Bank, wanted: Wanted, out: str, most: int | None, *, overwrite: bool
) -> tuple[int, str | None]:
    """How many problems were written, and where; by the name of `out` lines, a table or a folder.

    Raises OutputError for a file that is there and what cannot be written.
    """
    from storybank.bank import take_out

    if most is not None and most < 1:
        raise RequestError(f"--most is {most}. Choose a whole number from 1 on.")
    if out == "-":
        try:
            count = take_out(bank, wanted, sys.stdout, "jsonl", most)
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
    if suffix in (".jsonl", ".csv"):
        kind = suffix.removeprefix(".")
        return _streamed(
            path, lambda file: take_out(bank, wanted, file, kind, most), overwrite=overwrite
        ), out
    if suffix:
        raise OutputError(
            f'Nothing is exported to a file that ends in "{suffix}" ("{path.name}"). Choose a '
            "name that ends in .jsonl or .csv, or a folder for Word files."
        )
    return _as_set(bank, wanted, path, most, overwrite=overwrite), out


def _streamed(path: Path, write: Callable[[IO[str]], int], *, overwrite: bool) -> int:
    """How many problems `write` wrote; the file is moved into place when it is whole."""
    from storybank.documents import check_targets

    check_targets(path.parent, [path.name], overwrite=overwrite)
    beside = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        with beside.open("w", encoding="utf-8", newline="") as file:
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
    from storybank.bank import as_set

    made = as_set(bank, wanted, most)
    documents.write(made, folder, ["docx"], overwrite)
    return len(made.problems)
