"""What is said where the file of a bank cannot be used."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from storybank.errors import BankError

NO_BANK = "Name the file of a bank, such as our-school.bank."
_KEPT = "What was kept before is safe, and nothing half was written."
_DAMAGED = ("SQLITE_CORRUPT", "SQLITE_NOTADB", "SQLITE_IOERR_READ", "SQLITE_IOERR_SHORT_READ")


@contextmanager
def told(path: Path) -> Iterator[None]:
    """Turns what the database reports about the file into what a teacher can do about it."""
    try:
        yield
    except sqlite3.Error as error:
        raise BankError(_said(path, error)) from error


def in_use(path: Path) -> str:
    """What is said where another program kept the bank locked."""
    return (
        f'Another program has been writing to the bank "{path}" all this time. {_KEPT} Wait '
        "until it is done, or close it, and try again."
    )


def _said(path: Path, error: sqlite3.Error) -> str:
    name = getattr(error, "sqlite_errorname", "") or ""
    kept = _KEPT
    if name.startswith("SQLITE_FULL") or (name.startswith("SQLITE_IOERR") and _is_full(path)):
        return (
            f'There is no room left for the bank "{path}". {kept} Free some room on the disk '
            "and try again."
        )
    if name.startswith(("SQLITE_BUSY", "SQLITE_LOCKED")):
        return in_use(path)
    if name.startswith(("SQLITE_READONLY", "SQLITE_PERM", "SQLITE_CANTOPEN")):
        return (
            f'The bank "{path}" cannot be written: you may not write to the file or its folder. '
            "Nothing was changed. Copy it to a folder of your own, or ask for the right to write."
        )
    if name.startswith("SQLITE_NOTADB"):
        return f'"{path}" is no bank: its content is not that of a database. {NO_BANK}'
    if is_damage(error):
        return damaged(path, error)
    return (
        f'The bank "{path}" could not be used ({error}). {kept} Check the disk, or copy the bank '
        "elsewhere and try again."
    )


def damaged(path: Path, why: object) -> str:
    """What is said of a file whose content is at fault."""
    return (
        f'The bank "{path}" is damaged ({why}). Nothing was changed. Get a backup back with '
        f'"storybank bank restore {path} BACKUP"; backups stand beside the bank.'
    )


def is_damage(error: sqlite3.Error) -> bool:
    """Whether the content of the file is at fault; text that is none comes without a name."""
    name = getattr(error, "sqlite_errorname", "") or ""
    return name.startswith(_DAMAGED) or "decode" in str(error)


def _is_full(path: Path) -> bool:
    import shutil

    return shutil.disk_usage(path.parent if path.parent.exists() else ".").free < 1 << 20
