"""Grows a bank: problems by their numbers in the space of a request, piece by piece.

A piece is kept in one transaction together with the word that it is there, so that a grow that
was stopped or killed goes on with the pieces that are missing.
"""

import sqlite3
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path
from typing import Any

from storybank.bank import _actions, _keeping
from storybank.bank._bank import Bank
from storybank.bank._rows import Row, row_of, terms_of
from storybank.errors import BankError, RequestError
from storybank.problem_set import Space
from storybank.request import Request
from storybank.version import VERSION

PIECE = 500
"""Problems that are kept at once; pieces begin at its multiples."""
Piece = tuple[int, int]
Report = Callable[[int, int], None]


@dataclass(frozen=True, slots=True)
class Growth:
    """A grow as the bank knows it: its number, its action, its recipe, how far it is to go."""

    number: int
    action: int
    recipe: int
    request: Request
    pieces: tuple[Piece, ...]
    """Those that are missing."""
    there: int
    """Problems of the slice that were kept before."""

    @property
    def wanted(self) -> int:
        """How many problems the slice has."""
        return self.there + sum(count for _, count in self.pieces)


def pieces_of(problems: int, part: tuple[int, int]) -> list[Piece]:
    """The pieces of slice I of N, each as its first number and how many; slices never meet."""
    at, of = part
    whole = -(-problems // PIECE)
    first, last = whole * (at - 1) // of, whole * at // of
    return [(piece * PIECE, min(PIECE, problems - piece * PIECE)) for piece in range(first, last)]


def begin(bank: Bank, request: Request, problems: int, part: tuple[int, int] = (1, 1)) -> Growth:
    """The grow of a request: a new one, or one that was begun before and goes on.

    Without a seed a grow of the same wishes goes on with the seed it had, or one is drawn. `part`
    is the slice. Raises RequestError where there are not so many different problems.
    """
    if problems < 1 or not 1 <= part[0] <= part[1]:
        raise RequestError(
            f"--problems {problems} with --slice {part[0]}/{part[1]} cannot be grown. Ask for 1 "
            "problem or more, and for a slice such as 2/4."
        )
    with bank.told() as connection:
        seed = request.seed if request.seed is not None else _earlier_seed(connection, request)
    space = Space(replace(request, seed=seed))
    if problems > space.size:
        raise RequestError(
            f"There are {space.size:,} different problems for these wishes, and {problems:,} were "
            f"asked for. Ask for --problems {space.size}, more themes or situations, --strategy "
            "any, or a larger --within."
        )
    request = replace(request, seed=space.request["seed"])
    with bank.writing() as connection:
        recipe = _keeping.recipe(connection, _recipe(space.request), VERSION)
        connection.execute(
            "INSERT INTO growth (recipe) VALUES (?) ON CONFLICT DO NOTHING", (recipe,)
        )
        (number,) = connection.execute(
            "SELECT id FROM growth WHERE recipe = ?", (recipe,)
        ).fetchone()
        done = dict(
            connection.execute("SELECT first, count FROM grown WHERE growth = ?", (number,))
        )
        every = pieces_of(problems, part)
        missing = tuple(one for one in every if done.get(one[0], 0) < one[1])
        action = _actions.begin(connection, "grow", finished=False) if missing else 0
    there = sum(count for _, count in every) - sum(count for _, count in missing)
    return Growth(int(number), action, recipe, request, missing, there)


def _earlier_seed(connection: sqlite3.Connection, request: Request) -> int | None:
    """The seed of the latest grow of the same wishes, or None."""
    asked = _without_seed(_recipe(Space(replace(request, seed=0)).request))
    rows = connection.execute(
        "SELECT recipe.request FROM growth JOIN recipe ON recipe.id = growth.recipe "
        "WHERE recipe.version = ? ORDER BY growth.id DESC",
        (VERSION,),
    )
    for (text,) in rows:
        found = _keeping.terms_as_json(text)
        if _without_seed(found) == asked:
            return int(found["seed"])
    return None


def _recipe(request: Mapping[str, Any]) -> dict[str, Any]:
    return {**request, "names": None, "count": None}


def _without_seed(request: Mapping[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in request.items() if key != "seed"}


@lru_cache(maxsize=1)
def _space(request: Request) -> Space:
    return Space(request)


def rows_of(request: Request, first: int, count: int) -> list[Row]:
    """The rows of a piece; the same wherever and whenever it is made."""
    space = _space(_hashable(request))
    terms = terms_of(space.request)
    return [row_of(space.problem(n), terms, n) for n in range(first, first + count)]


def _hashable(request: Request) -> Request:
    """The request with its lists as tuples, so that its space is made only once."""
    from dataclasses import fields

    values = {one.name: getattr(request, one.name) for one in fields(request)}
    lists: dict[str, Any] = {
        name: tuple(value) for name, value in values.items() if isinstance(value, list)
    }
    return replace(request, **lists)


def keep_piece(bank: Bank, growth: Growth, piece: Piece, rows: Sequence[Row]) -> int:
    """How many problems of a piece were new; all are kept, and that they are, or none.

    Raises BankError if the grow was taken back meanwhile.
    """
    with bank.writing() as connection:
        (undone,) = connection.execute(
            "SELECT undone FROM action WHERE id = ?", (growth.action,)
        ).fetchone()
        if undone:
            raise BankError("This grow was undone by another program while it ran, so it stopped.")
        new = _keeping.keep(
            connection, rows, bank.shelf_numbers, recipe=growth.recipe, action=growth.action
        )
        connection.execute(
            "INSERT INTO grown (growth, first, count, action) VALUES (?, ?, ?, ?) "
            "ON CONFLICT (growth, first) DO UPDATE SET count = max(count, excluded.count)",
            (growth.number, *piece, growth.action),
        )
    return new


def grow_here(bank: Bank, growth: Growth, report: Report | None = None) -> None:
    """Grows all missing pieces in this process."""
    there = growth.there
    for piece in growth.pieces:
        keep_piece(bank, growth, piece, rows_of(growth.request, *piece))
        there += piece[1]
        if report is not None:
            report(there, growth.wanted)


def end(bank: Bank, growth: Growth) -> int:
    """How many problems the grow has added in all; says so in the bank."""
    if not growth.action:
        return 0
    with bank.writing() as connection:
        (new,) = connection.execute(
            "SELECT count(*) FROM problem WHERE action = ?", (growth.action,)
        ).fetchone()
        _actions.tell(connection, growth.action, f"{new} problems")
    return int(new)


def grown(connection: sqlite3.Connection, growth: Growth) -> int:
    """How many problems of the slice are kept by now."""
    wanted = {first for first, _ in growth.pieces}
    rows: Iterator[Piece] = connection.execute(
        "SELECT first, count FROM grown WHERE growth = ?", (growth.number,)
    )
    return growth.there + sum(count for first, count in rows if first in wanted)


def grow(
    path: Path,
    request: Request,
    problems: int,
    *,
    workers: int = 1,
    part: tuple[int, int] = (1, 1),
    cluster: str | None = None,
    report: Report | None = None,
) -> tuple[Growth, int]:
    """The grow as it began, and how many problems it added to the bank in the file.

    `workers` processes write into the one file; with `cluster` the pieces are made by a Dask
    cluster at that address. Stopped or killed it goes on when it is asked for again, to the same
    bank as an unbroken run. Raises BankError and RequestError.
    """
    with Bank(path) as bank:
        growth = begin(bank, request, problems, part)
        if cluster is not None:
            from storybank.bank._cluster import grow_on

            grow_on(cluster, bank, growth, report)
        elif workers == 1 or len(growth.pieces) < 2:
            grow_here(bank, growth, report)
        else:
            from storybank.bank._workers import grow_with

            grow_with(workers, path, bank, growth, report)
        return growth, end(bank, growth)
