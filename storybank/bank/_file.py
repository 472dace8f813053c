"""The file of a bank: opened, made, upgraded."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from pathlib import Path

from storybank.bank import _packing
from storybank.bank._place import check_place, log_of, name_of, size_of, still, to_read
from storybank.bank._schema import APPLICATION, CURRENT, STEPS, statements
from storybank.bank._told import NO_BANK, damaged, is_damage, told
from storybank.errors import BankError

WAIT = 30.0
"""How long, in seconds, one program waits for another that is writing."""
LARGEST = 1 << 62


def bounded(number: int) -> int:
    """The number, or the largest or smallest that the database can be asked about."""
    return max(-LARGEST, min(number, LARGEST))


def open_bank(path: Path, *, create: bool, wait: float = WAIT) -> sqlite3.Connection:
    """A connection to the bank in a file, upgraded if it is of an older version.

    With `create` a bank is made where there is none. A bank in a place that cannot be written is
    opened for reading. Raises BankError for anything else that is no bank.
    """
    check_place(path, create=create)
    with told(path):
        try:
            return _opened(path, wait, create=create)
        except sqlite3.OperationalError as error:
            if not _is_for_reading(error) or not path.exists():
                raise
            return _for_reading(path, wait)


def _opened(path: Path, wait: float, *, create: bool) -> sqlite3.Connection:
    connection = _connect(path, "rwc" if create else "rw", wait)
    try:
        _settle(connection, path, wait, create=create)
    except BaseException:
        connection.close()
        raise
    return connection


def _check_end(connection: sqlite3.Connection, path: Path) -> None:
    """Raises BankError for a file whose last page was cut off, which the database overlooks."""
    (size,) = connection.execute("PRAGMA page_size").fetchone()
    more = path.stat().st_size % size
    logs = (log_of(path), path.resolve().with_name(f"{path.resolve().name}-journal"))
    if more > 1 and not any(size_of(one) for one in logs):
        raise BankError(damaged(path, f"its last page has {more} of {size} bytes"))


def _connect(path: Path, mode: str, wait: float) -> sqlite3.Connection:
    name = name_of(path, mode)
    connection = sqlite3.connect(name, uri=True, timeout=wait, isolation_level=None)
    try:
        connection.execute("PRAGMA foreign_keys = ON")
        connection.execute("PRAGMA recursive_triggers = OFF")
        connection.execute("PRAGMA synchronous = EXTRA")
    except BaseException:
        connection.close()
        raise
    return connection


def _settle(connection: sqlite3.Connection, path: Path, wait: float, *, create: bool) -> None:
    if version_of(connection, path, empty=create) < CURRENT:
        upgrade(connection, path, empty=create)
    _check_end(connection, path)
    (mode,) = connection.execute("PRAGMA journal_mode").fetchone()
    if mode != "wal":
        # Else one who reads keeps others from writing. A bank that cannot be switched now, since
        # it is in use or may only be read, is as safe, and will be another time.
        connection.execute("PRAGMA busy_timeout = 1000")
        with suppress(sqlite3.OperationalError):
            connection.execute("PRAGMA journal_mode = WAL")
        connection.execute(f"PRAGMA busy_timeout = {int(wait * 1000)}")


def version_of(connection: sqlite3.Connection, path: Path, *, empty: bool = False) -> int:
    """How many steps of tables the bank has; with `empty` 0 for a database without tables.

    Raises BankError for a database of another program and for a newer bank.
    """
    (application,) = connection.execute("PRAGMA application_id").fetchone()
    (version,) = connection.execute("PRAGMA user_version").fetchone()
    (tables,) = connection.execute("SELECT count(*) FROM sqlite_schema").fetchone()
    if application == 0 and version == 0 and tables == 0 and empty:
        return 0
    if application == 0 and version == 0 and tables == 0:
        raise BankError(
            f'The bank "{path}" holds nothing. If it is a copy, the file "{path.name}-wal" beside '
            "the bank belongs to it: copy both, or close all programs that use the bank and copy "
            f"it then. {NO_BANK}"
        )
    if application != APPLICATION or version < 1:
        raise BankError(f'"{path}" is a database of another program, not a bank. {NO_BANK}')
    if version > CURRENT:
        raise BankError(
            f'The bank "{path}" was written by a newer Storybank (its tables have version '
            f"{version}; this one knows them up to {CURRENT}). Nothing was changed. Install the "
            "newer Storybank, or open the backup that it made beside the file."
        )
    return int(version)


def epoch(connection: sqlite3.Connection) -> int:
    """A number that changes when a backup is brought back over the bank.

    What was known by number before, such as shelves, then has other numbers.
    """
    (number,) = connection.execute("PRAGMA schema_version").fetchone()
    return int(number)


def upgrade(
    connection: sqlite3.Connection, path: Path, *, empty: bool = False, upto: int = CURRENT
) -> None:
    """Takes all the steps that the bank lacks, or none; a bank that has some is backed up first.

    Of two programs that do so at once one waits and then finds the steps taken.
    """
    from storybank.bank._backup import back_up

    backup = None
    try:
        with transaction(connection):
            version = version_of(connection, path, empty=empty)
            if 0 < version < upto:
                # Read by another connection: one that is about to write cannot be copied.
                with closing(_connect(path, "ro", WAIT)) as before:
                    backup = back_up(before, path, f"version-{version}")
            for step in range(version + 1, upto + 1):
                for one in statements(STEPS[step - 1]):
                    connection.execute(one)
                if step == 1:
                    _packing.store(connection)
                    connection.execute(f"PRAGMA application_id = {APPLICATION}")
                connection.execute(f"PRAGMA user_version = {step}")
    except BaseException:
        if backup is not None:
            # Else each try to open a bank that cannot be upgraded would leave one more.
            with suppress(OSError):
                backup.unlink()
        raise


def _is_for_reading(error: sqlite3.OperationalError) -> bool:
    name = getattr(error, "sqlite_errorname", "")
    return name.startswith(("SQLITE_READONLY", "SQLITE_CANTOPEN", "SQLITE_PERM"))


def _for_reading(path: Path, wait: float) -> sqlite3.Connection:
    """A connection to a bank in a folder that cannot be written: without a log beside it."""
    connection = _connect(path, still(path), wait)
    try:
        if version_of(connection, path) < CURRENT:
            raise BankError(
                f'The bank "{path}" is of an older version and has to be upgraded, but it cannot '
                "be written. Copy it to a folder of your own, or ask for the right to write."
            )
    except BaseException:
        connection.close()
        raise
    return connection


def look_into(path: Path, wait: float = WAIT) -> tuple[sqlite3.Connection, str]:
    """A connection to a bank that is only to be read, of any version, and its mode for others.

    It may be in a folder that cannot be written. Where it can be, the connection is one for
    writing, which is never done: the last such to be closed takes away the log beside the file.
    """
    check_place(path, create=False)
    try:
        return _looked_into(path, "rw", wait), "ro"
    except sqlite3.OperationalError as error:
        if not _is_for_reading(error):
            raise
    return _looked_into(path, still(path), wait), still(path)


def look_at(path: Path) -> None:
    """Nothing, if the file is a bank of any version. Raises BankError otherwise."""
    with told(path):
        look_into(path)[0].close()


def _looked_into(path: Path, mode: str, wait: float) -> sqlite3.Connection:
    connection = _connect(path, mode, wait)
    try:
        version_of(connection, path)
    except BaseException:
        connection.close()
        raise
    return connection


@contextmanager
def transaction(connection: sqlite3.Connection) -> Iterator[None]:
    """All that is written inside, or nothing of it."""
    try:
        connection.execute("BEGIN IMMEDIATE")
        yield
        connection.execute("COMMIT")
    except BaseException:
        if connection.in_transaction:
            connection.execute("ROLLBACK")
        raise


def has_our_tables(connection: sqlite3.Connection, version: int = CURRENT) -> bool:
    """Whether a bank of that version has just the tables that it should have.

    Someone could have put others, and triggers, into a bank that is given on.
    """
    with closing(sqlite3.connect(":memory:", isolation_level=None)) as fresh:
        for step in STEPS[:version]:
            for one in statements(step):
                fresh.execute(one)
        asked = "SELECT type, name, sql FROM sqlite_schema ORDER BY type, name"
        return connection.execute(asked).fetchall() == fresh.execute(asked).fetchall()


def is_sound(path: Path) -> bool:
    """Whether a file is a bank whose pages are whole.

    Raises BankError where that cannot be found out, since it may not be read or is in use.
    """
    try:
        with (
            told(path),
            closing(sqlite3.connect(to_read(path), uri=True, timeout=WAIT)) as connection,
        ):
            version_of(connection, path)
            _check_end(connection, path)
            return bool(connection.execute("PRAGMA quick_check(1)").fetchone() == ("ok",))
    except BankError as error:
        cause = error.__cause__
        if isinstance(cause, sqlite3.Error) and not is_damage(cause):
            raise
        return False
