"""Backups of a bank beside its file, and how one is brought back."""

import os
import sqlite3
from contextlib import closing, suppress
from pathlib import Path

from storybank.bank import _file
from storybank.errors import BankError, OutputError

_PAGES = 2000


def back_up(connection: sqlite3.Connection, path: Path, what: str) -> Path:
    """The file of a new backup beside the bank; it is whole, or it is not there at all.

    `what` stands in its name, such as version-1. Other programs may write meanwhile.
    """
    target = _free_name(path, what)
    copied(connection, target, path)
    return target


def copied(connection: sqlite3.Connection, target: Path, path: Path) -> None:
    """Copies a bank into a new file, moved into place when it is whole."""
    beside = target.with_name(f".{target.name}.{os.getpid()}.part")
    try:
        with closing(sqlite3.connect(beside, isolation_level=None)) as copy:
            connection.backup(copy, pages=_PAGES)
            copy.execute("PRAGMA journal_mode = DELETE")
        with beside.open("rb+") as stream:
            os.fsync(stream.fileno())
        # Unlike a rename, a link never replaces what another program put there meanwhile.
        os.link(beside, target)
    except sqlite3.Error as error:
        raise BankError(
            f'No backup of the bank "{path}" could be made ({error}), so nothing was changed. '
            "Free some room on the disk, or check that you may write in its folder."
        ) from error
    except OSError as error:
        raise OutputError(
            f'"{target}" could not be written ({error.strerror}), so nothing was changed. '
            "Choose another name or folder."
        ) from error
    finally:
        for name in (beside, Path(f"{beside}-journal"), Path(f"{beside}-wal")):
            with suppress(OSError):
                name.unlink(missing_ok=True)


def _free_name(path: Path, what: str) -> Path:
    for number in range(1, 10_000):
        mark = what if number == 1 else f"{what}-{number}"
        target = path.with_name(f"{path.name}.backup-{mark}")
        if not target.exists():
            return target
    raise OutputError(f'There are too many backups beside "{path}". Move some elsewhere.')


def restore(path: Path, backup: Path, wait: float = _file.WAIT) -> Path | None:
    """Where the bank as it was now is, after the backup was brought back; None if there was none.

    Programs that have the bank open go on with what was restored. Raises BankError, with nothing
    changed, for a backup that is no whole bank.
    """
    if not backup.is_file():
        raise BankError(f'There is no backup "{backup}". Backups stand beside the bank.')
    if path.exists() and backup.exists() and path.samefile(backup):
        raise BankError(f'"{backup}" is the bank itself. Name a backup of it.')
    if not _file.is_sound(backup):
        raise BankError(
            f'"{backup}" is no whole bank, so it was not brought back and nothing was changed. '
            "Try an older backup."
        )
    if not path.exists():
        with _file.told(backup), closing(sqlite3.connect(backup, isolation_level=None)) as source:
            copied(source, path, path)
        return None
    if _file.is_sound(path):
        return _over(path, backup, wait)
    aside = _free_name(path, "damaged")
    with _file.told(backup), closing(sqlite3.connect(backup, isolation_level=None)) as source:
        fresh = path.with_name(f".{path.name}.{os.getpid()}.restored")
        copied(source, fresh, path)
    for mark in ("", "-wal", "-shm"):
        with suppress(FileNotFoundError):
            Path(f"{path}{mark}").rename(f"{aside}{mark}")
    fresh.rename(path)
    return aside


def _over(path: Path, backup: Path, wait: float) -> Path:
    """Writes the backup over a whole bank, in one transaction that other programs wait for."""
    with (
        _file.told(path),
        closing(sqlite3.connect(path, timeout=wait, isolation_level=None)) as bank,
        closing(sqlite3.connect(backup, isolation_level=None)) as source,
    ):
        kept = back_up(bank, path, "before-restore")
        source.backup(bank)
        bank.execute("PRAGMA journal_mode = WAL")
    return kept
