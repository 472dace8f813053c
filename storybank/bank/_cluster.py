"""Grows a bank with the workers of a Dask cluster: they make the pieces, we keep them."""

from collections.abc import Iterator
from typing import Any

from storybank.bank._bank import Bank
from storybank.bank._growing import Growth, Piece, Report, keep_piece, rows_of
from storybank.bank._rows import Row
from storybank.errors import BankError
from storybank.request import Request
from storybank.version import VERSION

_AHEAD = 4
"""Pieces a worker that are under way at once: so many rows wait here at most."""
_RETRIES = 20
"""How often a piece is made anew after its worker was lost."""


def grow_on(address: str, bank: Bank, growth: Growth, report: Report | None = None) -> None:
    """Grows all missing pieces with the cluster whose scheduler is at `address`.

    A worker that is lost is replaced by the others. Raises BankError where Dask is not installed,
    the scheduler is not there or its workers run another version of Storybank.
    """
    try:
        from distributed import Client
    except ImportError as error:
        raise BankError(
            "A cluster needs Dask, which is not installed here. Install it with: pip install "
            "'storybank[cluster]'"
        ) from error
    try:
        client = Client(address, timeout="10s", set_as_default=False)
    except (OSError, ValueError) as error:
        raise BankError(
            f'No Dask scheduler answers at "{address}" ({error}). Start one with "dask scheduler" '
            "and give the address that it prints, such as tcp://192.0.2.7:8786."
        ) from error
    there = growth.there
    with client:
        for piece, rows in _made(client, growth):
            keep_piece(bank, growth, piece, rows)
            there += piece[1]
            if report is not None:
                report(there, growth.wanted)


def _made(client: Any, growth: Growth) -> Iterator[tuple[Piece, list[Row]]]:
    """The pieces with their rows, as they come; only so many are asked for ahead."""
    from distributed import as_completed

    left = iter(growth.pieces)
    ahead = _AHEAD * max(1, len(client.scheduler_info().get("workers", ())))
    asked = as_completed()
    pieces: dict[str, Piece] = {}

    def ask() -> bool:
        piece = next(left, None)
        if piece is None:
            return False
        future = client.submit(make, growth.request, *piece, pure=False, retries=_RETRIES)
        pieces[future.key] = piece
        asked.add(future)
        return True

    for _ in range(ahead):
        if not ask():
            break
    for future in asked:
        version, rows = future.result()
        if version != VERSION:
            raise BankError(
                f"A worker of the cluster runs Storybank {version}, and this is {VERSION}. "
                "Install the same version everywhere; what is kept is kept."
            )
        yield pieces.pop(future.key), rows
        ask()


def make(request: Request, first: int, count: int) -> tuple[str, list[Row]]:
    """What a worker hands back of a piece: its version of Storybank, and the rows."""
    return VERSION, rows_of(request, first, count)
