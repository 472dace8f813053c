"""How a backup is brought back."""

import sqlite3
from contextlib import closing, suppress
from pathlib import Path

from storybank.bank import _backup, _file
from storybank.bank._place import to_read
from storybank.bank._told import told
from storybank.errors import BankError

_MARKS = ("-wal", "-shm", "")


def restore(path: Path, backup: Path, wait: float = _file.WAIT) -> Path | None:
    """Where the bank as it was now is, after the backup was brought back; None if there was none.

    Programs that have a sound bank open go on with what was restored. Raises BankError, with
    nothing changed, for a backup that is no whole bank, and for a damaged bank that is in use.
    """
    if not backup.is_file():
        raise BankError(f'There is no backup "{backup}". Backups stand beside the bank.')
    if path.is_dir() or (path.exists() and not path.is_file()):
        raise BankError(f'"{path}" is no file. Name the file of the bank, then its backup.')
    if path.exists() and path.samefile(backup):
        raise BankError(f'"{backup}" is the bank itself. Name a backup of it.')
    if not _file.is_sound(backup):
        raise BankError(
            f'"{backup}" is no whole bank, so it was not brought back and nothing was changed. '
            "Try an older backup."
        )
    path = path.resolve()
    if path.exists() and path.stat().st_size and _file.is_sound(path):
        return _over(path, backup, wait)
    return _in_place_of(path, backup)


def _over(path: Path, backup: Path, wait: float) -> Path:
    """Writes the backup over a whole bank, in one transaction that other programs wait for."""
    kept: list[Path] = []
    with (
        told(path),
        closing(sqlite3.connect(path, timeout=wait, isolation_level=None)) as bank,
        closing(sqlite3.connect(path, timeout=wait, isolation_level=None)) as before,
        closing(_reading(backup)) as source,
    ):
        bank.execute("PRAGMA synchronous = EXTRA")
        bank.execute("PRAGMA journal_mode = WAL")

        def keep(state: int, *_: int) -> None:
            _backup.check_free(state, path)
            # The first page is written: from here on no other program can write, so that what it
            # has kept stands in the backup.
            if not kept:
                kept.append(_backup.back_up(before, path, "before-restore"))

        try:
            source.backup(bank, pages=1, progress=keep)
        except BaseException:
            for one in kept:
                with suppress(OSError):
                    one.unlink()
            raise
    return kept[0]


def _in_place_of(path: Path, backup: Path) -> Path | None:
    """Puts the backup in the place of a damaged bank, or of none."""
    _check_unused(path)
    aside = _backup.free_name(path, "damaged")
    there = [mark for mark in _MARKS if Path(f"{path}{mark}").exists()]
    with (
        told(backup),
        closing(_reading(backup)) as source,
        _backup.written(source, path, path) as fresh,
    ):
        for mark in there:
            if mark:
                Path(f"{path}{mark}").rename(f"{aside}{mark}")
            else:
                _backup.put_copy(path, aside)
        if "" in there:
            # In one step: whenever it is stopped, a bank is there.
            fresh.replace(path)
        else:
            _backup.put(fresh, path)
    _backup.settle(path.parent)
    return aside if there else None


def _reading(backup: Path) -> sqlite3.Connection:
    return sqlite3.connect(to_read(backup), uri=True, isolation_level=None)


def _check_unused(path: Path) -> None:
    """Raises BankError if another program has a damaged bank open: it would go on with that."""
    try:
        import fcntl
    except ImportError:
        return
    try:
        with path.open("rb+") as stream:
            # The bytes that the database locks while a file is open (its file format, "Locking").
            fcntl.lockf(stream, fcntl.LOCK_EX | fcntl.LOCK_NB, 510, (1 << 30) + 2)
    except FileNotFoundError:
        return
    except BlockingIOError as error:
        raise BankError(
            f'The bank "{path}" is damaged, and another program has it open. Nothing was changed. '
            "Close that program and try again."
        ) from error
    except OSError:
        return
