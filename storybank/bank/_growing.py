"""Grows a bank: problems by their numbers in the space of a request, piece by piece.

A piece is kept in one transaction together with the word that it is there, so that a grow that
was stopped or killed goes on with the pieces that are missing.
"""

import secrets
import sqlite3
from collections.abc import Callable, Mapping, Sequence
from contextlib import ExitStack
from dataclasses import dataclass, fields, replace
from functools import lru_cache
from pathlib import Path
from typing import Any

from storybank import people
from storybank.bank import _actions, _keeping
from storybank.bank._bank import Bank
from storybank.bank._pieces import Piece, count, mark, missing, pieces_of
from storybank.bank._place import check_place
from storybank.bank._rows import Row, row_of, terms_of
from storybank.errors import BankError, RequestError
from storybank.problem_set import Space
from storybank.request import Request, settle
from storybank.version import VERSION

MOST_WORKERS = 64
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
    epoch: int
    """The epoch of the bank: numbers of another one are of no use."""

    @property
    def wanted(self) -> int:
        """How many problems the slice has."""
        return self.there + count(self.pieces)


def begin(
    bank: Bank, request: Request, problems: int, part: tuple[int, int] = (1, 1), luck: int = 0
) -> Growth:
    """The grow of a request: a new one, or one that was begun before and goes on.

    Without a seed a grow of the same wishes goes on with the seed it had, or takes `luck`. `part`
    is the slice. Raises RequestError where there are not so many different problems.
    """
    with bank.told() as connection:
        seed = _seed(connection, request, luck)
    space = sized(replace(request, seed=seed), problems)
    with bank.writing() as connection:
        same = _seed(connection, request, luck) == seed
        if same:
            return _begun(bank, connection, replace(request, seed=seed), space, problems, part)
    # Another program has begun to grow the same meanwhile.
    return begin(bank, request, problems, part, luck)


def _begun(
    bank: Bank,
    connection: sqlite3.Connection,
    request: Request,
    space: Space,
    problems: int,
    part: tuple[int, int],
) -> Growth:
    recipe = _keeping.recipe(connection, _recipe(space.request), VERSION)
    connection.execute("INSERT INTO growth (recipe) VALUES (?) ON CONFLICT DO NOTHING", (recipe,))
    (number,) = connection.execute("SELECT id FROM growth WHERE recipe = ?", (recipe,)).fetchone()
    every = pieces_of(problems, part)
    left = missing(connection, number, every)
    action = _actions.begin(connection, "grow", finished=False) if left else 0
    there = count(every) - count(left)
    return Growth(int(number), action, recipe, request, left, there, bank.epoch)


def _seed(connection: sqlite3.Connection, request: Request, luck: int) -> int:
    """The seed of the request, of the latest grow of the same wishes, or else `luck`."""
    if request.seed is not None:
        return request.seed
    asked = _without_seed(_recipe(settle(replace(request, count=1), 0).to_json()))
    rows = connection.execute(
        "SELECT recipe.request FROM growth JOIN recipe ON recipe.id = growth.recipe "
        "WHERE recipe.version = ? ORDER BY growth.id DESC",
        (VERSION,),
    )
    for (text,) in rows:
        found = _keeping.object_of(text)
        if _without_seed(found) == asked:
            return int(found["seed"])
    return luck


def _recipe(request: Mapping[str, Any]) -> dict[str, Any]:
    return {**request, "names": None, "count": None}


def _without_seed(request: Mapping[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in request.items() if key != "seed"}


def sized(request: Request, problems: int) -> Space:
    """The problems of the request. Raises RequestError where there are fewer."""
    space = _space(_hashable(request))
    names = space.request["names_from"]
    if names is not None and names not in people.rosters():
        raise RequestError(
            f'--names-from "{names}" was asked for together with a bank, which keeps no names of '
            "your own. Leave it out; names are put into what is handed out."
        )
    if problems > space.size:
        raise RequestError(
            f"There are {space.size:,} different problems for these wishes, and {problems:,} were "
            f"asked for. Ask for --problems {space.size}, more themes or situations, --strategy "
            "any, or a larger --within."
        )
    return space


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
    values = {one.name: getattr(request, one.name) for one in fields(request)}
    lists: dict[str, Any] = {
        name: tuple(value) for name, value in values.items() if isinstance(value, list)
    }
    return replace(request, **lists)


def keep_piece(bank: Bank, growth: Growth, piece: Piece, rows: Sequence[Row]) -> int:
    """How many problems of a piece were new; all are kept, and that they are, or none.

    Raises BankError if the grow was taken back, or a backup was brought back, meanwhile.
    """
    with bank.writing() as connection:
        if bank.epoch != growth.epoch:
            raise BankError(
                "A backup was brought back by another program while this grow ran, so it stopped. "
                "The same command goes on from there."
            )
        _actions.check_running(connection, growth.action)
        new = _keeping.keep(
            connection, rows, bank.shelf_numbers, recipe=growth.recipe, action=growth.action
        )
        mark(connection, growth.number, piece)
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
        if bank.epoch != growth.epoch:
            return 0
        _actions.check_running(connection, growth.action)
        (new,) = connection.execute(
            "SELECT count(*) FROM problem WHERE action = ?", (growth.action,)
        ).fetchone()
        _actions.tell(connection, growth.action, f"{new} problems")
    return int(new)


def grown(connection: sqlite3.Connection, growth: Growth) -> int:
    """How many problems of the slice are kept by now."""
    return growth.wanted - count(missing(connection, growth.number, growth.pieces))


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
    bank as an unbroken run. Raises BankError and RequestError, and makes no bank then that was
    not there.
    """
    luck = secrets.randbelow(1_000_000)
    _check(problems, workers, part)
    check_place(path, create=True)
    if not path.exists():
        sized(request if request.seed is not None else replace(request, seed=luck), problems)
    with ExitStack() as opened:
        if cluster is not None:
            from storybank.bank._cluster import connected, grow_on

            client = opened.enter_context(connected(cluster))
        bank = opened.enter_context(Bank(path))
        growth = begin(bank, request, problems, part, luck)
        if cluster is not None:
            grow_on(client, bank, growth, report)
        elif workers == 1 or len(growth.pieces) < 2:
            grow_here(bank, growth, report)
        else:
            from storybank.bank._workers import grow_with

            grow_with(workers, path, bank, growth, report)
        return growth, end(bank, growth)


def _check(problems: int, workers: int, part: tuple[int, int]) -> None:
    if problems < 1 or not 1 <= part[0] <= part[1]:
        raise RequestError(
            f"--problems {problems} with --slice {part[0]}/{part[1]} cannot be grown. Ask for 1 "
            "problem or more, and for a slice such as 2/4."
        )
    if not 1 <= workers <= MOST_WORKERS:
        raise RequestError(f"--workers {workers} is out of range. Choose 1 to {MOST_WORKERS}.")
