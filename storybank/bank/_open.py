"""A bank that is open: its connection, reading and writing, and what is known by number."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from types import TracebackType
from typing import Self

from storybank.bank import _file, _keeping
from storybank.bank._matching import Shelves
from storybank.bank._told import told


class OpenBank:
    """The file of a bank, opened; all that a bank can do is done through it."""

    def __init__(self, path: Path | str, *, create: bool = True, wait: float = _file.WAIT) -> None:
        """The bank of a file; with `create` it is made where there is none.

        `wait` is how many seconds to wait for another program that is writing. A bank of an older
        version is backed up beside its file and upgraded. Raises BankError for a file that is no
        bank, is damaged or newer, or cannot be opened.
        """
        self.path = Path(path)
        self.connection = _file.open_bank(self.path, create=create, wait=wait)
        self._know(_file.epoch(self.connection))
        self.last: int | None = None
        """The number of the latest action of `hand_out`."""
        self.handed: tuple[int, ...] = ()
        """The numbers of the problems of the latest `hand_out`, in the order of its set."""

    def _know(self, epoch: int) -> None:
        self.epoch = epoch
        self.shelf_numbers = _keeping.Shelves()
        self.shelves = Shelves(self.connection)

    def _look(self) -> None:
        """Forgets what is known by number if another program has brought a backup back."""
        epoch = _file.epoch(self.connection)
        if epoch != self.epoch:
            self._know(epoch)

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()

    def close(self) -> None:
        """Closes the file; nothing is lost without it."""
        self.connection.close()

    @contextmanager
    def told(self) -> Iterator[sqlite3.Connection]:
        """For reading; what the database reports is said as BankError."""
        with told(self.path):
            yield self.connection

    @contextmanager
    def writing(self) -> Iterator[sqlite3.Connection]:
        """For writing all or nothing; what the database reports is said as BankError."""
        known = dict(self.shelf_numbers.numbers)
        epoch = self.epoch
        with told(self.path):
            try:
                with _file.transaction(self.connection):
                    self._look()
                    yield self.connection
            except BaseException:
                self.shelf_numbers.numbers = known if self.epoch == epoch else {}
                raise
