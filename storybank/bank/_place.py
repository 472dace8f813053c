"""Where the file of a bank is: whether one is or can be there, and by what name it is opened."""

import os
from contextlib import suppress
from pathlib import Path
from urllib.parse import quote

from storybank.bank._told import NO_BANK
from storybank.errors import BankError


def check_place(path: Path, *, create: bool) -> None:
    """Raises BankError where no file of a bank is or, with `create`, can be."""
    try:
        # In this order: another program may be making the bank just now, its log last.
        log = log_of(path)
        left = size_of(log)
        there = path.exists()
        size = size_of(path)
    except OSError as error:
        raise BankError(
            f'The bank "{path}" cannot be looked at ({error.strerror}). Check its name, and ask '
            "for the right to its folder."
        ) from error
    if there and path.is_dir():
        raise BankError(f'"{path}" is a folder, not a bank. {NO_BANK}')
    if there and not path.is_file():
        raise BankError(f'"{path}" is no file. {NO_BANK}')
    if left and not size:
        # The database would take them for leftovers of its own and delete them.
        raise BankError(
            f'The bank "{path}" is {"empty" if there else "gone"}, but "{log.name}" with the '
            "latest problems of it is still there. Nothing was changed. Bring the bank back to "
            "where it was, or move that file elsewhere."
        )
    if there:
        if not size and not create:
            raise BankError(f'The bank "{path}" is an empty file. {NO_BANK}')
        if not os.access(path, os.R_OK):
            raise BankError(
                f'The bank "{path}" cannot be read: you have no right to. Ask for the right to '
                "read it."
            )
    elif not create:
        raise BankError(
            f'There is no bank "{path}". Check the name and the folder; "storybank bank add" makes '
            "a new one."
        )
    elif not path.parent.is_dir():
        raise BankError(
            f'The bank "{path}" cannot be made: there is no folder "{path.parent}". Make the '
            "folder first, or choose another."
        )


def size_of(path: Path) -> int:
    """Its bytes, or 0 where it is not there (any more)."""
    with suppress(FileNotFoundError, NotADirectoryError):
        return path.stat().st_size
    return 0


def log_of(path: Path) -> Path:
    """The file beside a bank in which its latest problems may stand."""
    real = path.resolve()
    return real.with_name(f"{real.name}-wal")


def name_of(path: Path, mode: str) -> str:
    """The name by which the database opens a file, whatever letters are in it."""
    return f"file:{quote(os.fsencode(path.absolute()))}?mode={mode}"


def to_read(path: Path) -> str:
    """The name by which a bank is only read, even where no file may be put beside it."""
    log = log_of(path)
    beside = os.access(log.parent, os.W_OK)
    if beside and os.access(path, os.W_OK):
        # Who may write takes away again what the database puts beside a file while it is open.
        return name_of(path, "rw")
    alone = not size_of(log)
    return name_of(path, "ro&immutable=1" if alone and not beside else "ro")


def still(path: Path) -> str:
    """The mode for a bank in a folder where no log can be made."""
    log = path.with_name(f"{path.name}-wal")
    return "ro" if log.exists() and log.stat().st_size else "ro&immutable=1"
