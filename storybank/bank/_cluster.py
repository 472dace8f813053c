"""Grows a bank with the workers of a Dask cluster: they make the pieces, we keep them."""

from collections import Counter
from collections.abc import Iterator
from contextlib import contextmanager
from queue import Empty, SimpleQueue
from threading import Lock, Thread
from typing import Any

from storybank.bank._bank import Bank
from storybank.bank._growing import Growth, Report, keep_piece, rows_of
from storybank.bank._pieces import Piece
from storybank.bank._rows import Row
from storybank.errors import BankError, StorybankError
from storybank.request import Request
from storybank.version import VERSION

_AHEAD = 4
"""Pieces a worker that are under way at once: so many rows wait here at most."""
_AGAIN = 20
"""How often a piece is asked for anew after the scheduler gave it up with its lost workers."""
_WAIT = 10
"""Seconds to wait for the scheduler, and for its first worker."""
_one_at_a_time = Lock()


@contextmanager
def connected(address: str) -> Iterator[Any]:
    """The client of the scheduler at `address`.

    Raises BankError where Dask is not installed, the scheduler is not there, or it has no workers
    with this version of Storybank.
    """
    try:
        from distributed import Client
    except ImportError as error:
        raise BankError(
            "A cluster needs Dask, which is not installed here. Install it with: pip install "
            "'storybank[cluster]'"
        ) from error
    try:
        if not address:
            raise ValueError("an empty address")
        client = _client(Client, address)
    except Exception as error:  # Whatever else listens there answers anything.
        raise BankError(
            f'No Dask scheduler answers at "{address}" ({error}). Start one with "dask scheduler" '
            "and give the address that it prints, such as tcp://192.0.2.7:8786."
        ) from error
    with client:
        _look_at_workers(client, address)
        yield client


def _client(kind: Any, address: str) -> Any:
    """The client, made in a thread: Dask waits for ever for what listens there but is silent."""
    answers: SimpleQueue[Any] = SimpleQueue()

    def connect() -> None:
        try:
            answers.put(kind(address, timeout=f"{_WAIT}s", set_as_default=False))
        except Exception as error:
            answers.put(error)

    Thread(target=connect, daemon=True).start()
    try:
        found = answers.get(timeout=_WAIT + 2)
    except Empty:
        found = TimeoutError(f"what listens there is silent for {_WAIT} s")
    if isinstance(found, Exception):
        raise found
    return found


def _look_at_workers(client: Any, address: str) -> None:
    try:
        client.wait_for_workers(1, timeout=_WAIT)
    except TimeoutError as error:
        raise BankError(
            f'The Dask scheduler at "{address}" has no workers. Start some with: dask worker '
            f"{address} --nworkers 4 --nthreads 1"
        ) from error
    with _told():
        for one in client.run(version).values():
            _check_version(one)


def grow_on(client: Any, bank: Bank, growth: Growth, report: Report | None = None) -> None:
    """Grows all missing pieces with the cluster of `client`.

    A worker that is lost is replaced by the others. Raises BankError where the scheduler is lost
    or a worker runs another version of Storybank.
    """
    there = growth.there
    with _told():
        for piece, rows in _made(client, growth):
            keep_piece(bank, growth, piece, rows)
            there += piece[1]
            if report is not None:
                report(there, growth.wanted)


def _made(client: Any, growth: Growth) -> Iterator[tuple[Piece, list[Row]]]:
    """The pieces with their rows, as they come; only so many are asked for ahead."""
    from distributed import KilledWorker, as_completed

    left = iter(growth.pieces)
    asked = as_completed(loop=client.loop)
    pieces: dict[str, Piece] = {}
    lost: Counter[Piece] = Counter()

    def ask(piece: Piece) -> None:
        future = client.submit(make, growth.request, *piece, pure=False)
        pieces[future.key] = piece
        asked.add(future)

    def ask_ahead() -> None:
        ahead = _AHEAD * max(1, len(client.nthreads()))
        while len(pieces) < ahead and (piece := next(left, None)) is not None:
            ask(piece)

    ask_ahead()
    for future in asked:
        piece = pieces.pop(future.key)
        try:
            made, rows = future.result()
        except KilledWorker:
            lost[piece] += 1
            if lost[piece] > _AGAIN:
                raise
            ask(piece)
            continue
        _check_version(made)
        yield piece, rows
        ask_ahead()


def _check_version(theirs: str) -> None:
    if theirs != VERSION:
        raise BankError(
            f"A worker of the cluster runs Storybank {theirs}, and this is {VERSION}. "
            "Install the same version everywhere; what is kept is kept."
        )


@contextmanager
def _told() -> Iterator[None]:
    """Turns what Dask and its workers report into what can be done about it."""
    try:
        yield
    except StorybankError:
        raise
    except Exception as error:
        said = f"{type(error).__name__}: {error}"
        raise BankError(
            f"The cluster could not make the problems ({said}). Look whether its scheduler and "
            f"workers run, with Storybank {VERSION} there, too; then the same command goes on "
            "from here."
        ) from error


def version() -> str:
    """The version of Storybank of a worker."""
    return VERSION


def make(request: Request, first: int, count: int) -> tuple[str, list[Row]]:
    """What a worker hands back of a piece: its version of Storybank, and the rows."""
    with _one_at_a_time:  # Threads of one process would only wait for one another.
        return VERSION, rows_of(request, first, count)
