"""The pieces of a grow: which problems of a space are asked for, and which are kept already.

A piece is the number of its first problem and how many there are. What is kept stands in the
table `grown`, where no two pieces meet, so that each can be taken back with what it hangs on.
"""

import sqlite3
from collections.abc import Iterable

PIECE = 500
"""Problems that are kept at once; no piece goes beyond a multiple of it."""
Piece = tuple[int, int]


def pieces_of(problems: int, part: tuple[int, int]) -> list[Piece]:
    """The pieces of slice I of N, each as its first number and how many; slices never meet."""
    at, of = part
    whole = -(-problems // PIECE)
    first, last = whole * (at - 1) // of, whole * at // of
    return [(piece * PIECE, min(PIECE, problems - piece * PIECE)) for piece in range(first, last)]


def count(pieces: Iterable[Piece]) -> int:
    """How many problems there are in the pieces."""
    return sum(some for _, some in pieces)


def missing(
    connection: sqlite3.Connection, growth: int, pieces: Iterable[Piece]
) -> tuple[Piece, ...]:
    """What is not kept yet of pieces that are in order."""
    kept = connection.execute(
        "SELECT first, count FROM grown WHERE growth = ? ORDER BY first", (growth,)
    )
    return _without(pieces, kept)


def mark(connection: sqlite3.Connection, growth: int, piece: Piece) -> None:
    """Notes that a piece is kept now.

    It is noted with the latest action that stands, whoever keeps it: some of its problems may have
    been there before by that one. When that is taken back, the piece is asked for again.
    """
    (action,) = connection.execute("SELECT max(id) FROM action WHERE NOT undone").fetchone()
    for first, some in _cut(piece):
        kept = connection.execute(
            "SELECT first, count FROM grown WHERE growth = ? AND first > ? AND first < ? "
            "ORDER BY first",
            (growth, first - PIECE, first + some),
        )
        connection.executemany(
            "INSERT INTO grown (growth, first, count, action) VALUES (?, ?, ?, ?)",
            [(growth, *one, action) for one in _without([(first, some)], kept)],
        )


def _cut(piece: Piece) -> Iterable[Piece]:
    first, some = piece
    end = first + some
    while first < end:
        upto = min(end, (first // PIECE + 1) * PIECE)
        yield first, upto - first
        first = upto


def _without(pieces: Iterable[Piece], kept: Iterable[Piece]) -> tuple[Piece, ...]:
    """What is left of pieces without what is kept; both are in order."""
    left = []
    rows = iter(kept)
    row = next(rows, None)
    for first, some in pieces:
        end = first + some
        while row is not None and row[0] < end:
            if row[0] > first:
                left.append((first, row[0] - first))
            first = max(first, row[0] + row[1])
            if first > end:
                break
            row = next(rows, None)
        if first < end:
            left.append((first, end - first))
    return tuple(left)
