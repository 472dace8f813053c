"""Backups of a bank beside its file."""

import errno
import os
import re
import shutil
import sqlite3
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from pathlib import Path

from storybank.bank._told import in_use
from storybank.errors import BankError, OutputError

_PAGES = 2000
_NO_LINKS = (errno.EPERM, errno.ENOTSUP, errno.EOPNOTSUPP, errno.ENOSYS, errno.EINVAL, errno.EMLINK)
_LEFT = 60.0
"""Seconds after which what a process that is gone was writing may be cleared away."""


def back_up(connection: sqlite3.Connection, path: Path, what: str) -> Path:
    """The file of a new backup beside the bank; it is whole, or it is not there at all.

    `what` stands in its name, such as version-1. Other programs may write meanwhile.
    """
    target = free_name(path, what)
    copied(connection, target, path)
    return target


def copied(connection: sqlite3.Connection, target: Path, path: Path) -> None:
    """Copies a bank into a new file, moved into place when it is whole."""
    with written(connection, target, path) as beside:
        put(beside, target)


@contextmanager
def written(connection: sqlite3.Connection, target: Path, path: Path) -> Iterator[Path]:
    """A whole copy of a bank beside `target`, on the disk, to be moved there inside.

    What goes wrong is said as BankError or OutputError, and nothing is left over.
    """
    beside = target.with_name(f".{target.name}.{os.getpid()}.part")
    _clear_away(path)
    try:
        _remove(beside)
        with closing(sqlite3.connect(beside, isolation_level=None)) as copy:
            connection.backup(copy, pages=_PAGES, progress=lambda *at: check_free(at[0], path))
            copy.execute("PRAGMA journal_mode = DELETE")
        with beside.open("rb+") as stream:
            os.fsync(stream.fileno())
        yield beside
    except sqlite3.Error as error:
        raise BankError(
            f'No copy of the bank "{path}" could be made ({error}), so nothing was changed. '
            "Free some room on the disk, or check that you may write in its folder."
        ) from error
    except OSError as error:
        raise OutputError(
            f'"{target}" could not be written ({error.strerror}), so nothing was changed. '
            "Choose another name or folder."
        ) from error
    finally:
        _remove(beside)


def check_free(state: int, path: Path) -> None:
    """Raises BankError where a copy waits for a lock: of itself it would wait for ever."""
    if state in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):
        raise BankError(in_use(path))


def put(beside: Path, target: Path) -> None:
    """Gives a whole file its name, which must be free, for good. Raises OSError."""
    try:
        # Unlike a rename, a link never replaces what another program put there meanwhile.
        os.link(beside, target)
    except OSError as error:
        if error.errno not in _NO_LINKS:
            raise
        # Many USB sticks know no links.
        if target.exists():
            raise FileExistsError(errno.EEXIST, os.strerror(errno.EEXIST)) from error
        beside.rename(target)
    settle(target.parent)


def put_copy(path: Path, target: Path) -> None:
    """Gives a file a second name, or the same content a second time. Raises OSError."""
    try:
        os.link(path, target)
    except OSError as error:
        if error.errno not in _NO_LINKS:
            raise
        shutil.copyfile(path, target)
        with target.open("rb+") as stream:
            os.fsync(stream.fileno())


def settle(folder: Path) -> None:
    """Has the names in a folder written to the disk, where the system can do so."""
    with suppress(OSError):
        opened = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(opened)
        finally:
            os.close(opened)


def _remove(beside: Path) -> None:
    for mark in ("", "-journal", "-wal", "-shm"):
        with suppress(OSError):
            Path(f"{beside}{mark}").unlink(missing_ok=True)


def _clear_away(path: Path) -> None:
    """Removes unfinished backups of this bank that processes left which were killed."""
    with suppress(OSError):
        for found in path.parent.iterdir():
            ours = found.name.startswith(f".{path.name}.")
            named = re.search(r"\.([0-9]+)\.part(-[a-z]+)?$", found.name)
            if not ours or named is None:
                continue
            aged = abs(time.time() - found.stat().st_mtime)
            if aged > _LEFT and _is_gone(int(named[1])):
                found.unlink(missing_ok=True)


def _is_gone(process: int) -> bool:
    if os.name != "posix":
        return False
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return True
    except (OSError, OverflowError):
        pass
    return False


def free_name(path: Path, what: str) -> Path:
    """A name beside the bank that no file has; `what` stands in it."""
    for number in range(1, 10_000):
        mark = what if number == 1 else f"{what}-{number}"
        target = path.with_name(f"{path.name}.backup-{mark}")
        if not any(Path(f"{target}{one}").exists() for one in ("", "-wal")):
            return target
    raise OutputError(f'There are too many backups beside "{path}". Move some elsewhere.')
