"""Puts rows into a bank: each problem once, with its recipe and on its shelf."""

import json
import sqlite3
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from storybank import people
from storybank.bank import _packing
from storybank.bank._rows import Row, Shelf

_INSERT = """
INSERT INTO problem (digest, meaning, numbers, shelf, luck, largest, reach, code, recipe, place,
    action, packing, text, body)
VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
ON CONFLICT (digest) DO NOTHING
"""


@dataclass
class Shelves:
    """The shelves and terms that are known by number already, to be asked for only once.

    A number found in a transaction that is given up must be forgotten with it.
    """

    numbers: dict[Shelf, int] = field(default_factory=dict)

    def number(self, connection: sqlite3.Connection, shelf: Shelf) -> int:
        """The number of a shelf, which is put up if it is new."""
        found = self.numbers.get(shelf)
        if found is None:
            found = _number(
                connection,
                "shelf",
                theme=shelf.theme,
                scene=shelf.scene,
                situation=shelf.situation,
                strategy=shelf.strategy,
                vocabulary=shelf.vocabulary,
                standards=shelf.standards,
                season=shelf.season,
                terms=_number(connection, "terms", terms=shelf.terms),
            )
            self.numbers[shelf] = found
        return found


def stored(request: Mapping[str, Any]) -> dict[str, Any]:
    """The request as it is kept: without the file of a class list or of somebody's own names."""
    ours = request.get("names_from") in people.rosters()
    return {**request, "names": None, "names_from": request["names_from"] if ours else None}


def recipe(connection: sqlite3.Connection, request: Mapping[str, Any] | str, version: str) -> int:
    """The number of the recipe: the request of a set, or its JSON, and the version that made it."""
    text = request if isinstance(request, str) else _packing.text_of(request)
    return _number(connection, "recipe", version=version, request=text)


def keep(
    connection: sqlite3.Connection,
    rows: Iterable[Row],
    shelves: Shelves,
    *,
    recipe: int,
    action: int,
) -> int:
    """How many of the rows were new, and are kept now; to be called in a transaction."""
    _packing.store(connection)
    before = last_number(connection)
    packing = _packing.number()
    values = [
        (
            row.digest, row.meaning, row.numbers, shelves.number(connection, row.shelf), row.luck,
            row.largest, row.reach, row.code, recipe, row.place, action, packing, row.text,
            row.body,
        )
        for row in rows
    ]  # fmt: skip
    kept = connection.executemany(_INSERT, values).rowcount
    index_words(connection, before)
    return kept


def last_number(connection: sqlite3.Connection) -> int:
    """The largest number of a problem; those added later have larger ones."""
    return int(connection.execute("SELECT coalesce(max(id), 0) FROM problem").fetchone()[0])


def index_words(connection: sqlite3.Connection, after: int) -> None:
    """Makes the problems with larger numbers than `after` known to the full-text search.

    All at once: a trigger that does it one by one takes four times as long.
    """
    connection.execute(
        "INSERT INTO words (rowid, text) SELECT id, text FROM problem WHERE id > ? ORDER BY id",
        (after,),
    )


def number_with(connection: sqlite3.Connection, digest: bytes) -> int | None:
    """The number of the problem of that digest, or None where the bank has none."""
    found = connection.execute("SELECT id FROM problem WHERE digest = ?", (digest,)).fetchone()
    return None if found is None else int(found[0])


def numbers_of(connection: sqlite3.Connection, rows: Iterable[Row]) -> tuple[int, ...]:
    """The numbers of the problems of these rows, which the bank has."""
    found = [number_with(connection, row.digest) for row in rows]
    return tuple([number for number in found if number is not None])


def code_of(connection: sqlite3.Connection, digest: bytes) -> str | None:
    """The code under which the bank has the problem of that digest, or None.

    A code depends on the names in the text, so the same problem made for others has another one.
    """
    found = connection.execute("SELECT code FROM problem WHERE digest = ?", (digest,)).fetchone()
    return None if found is None else str(found[0])


def is_retired(connection: sqlite3.Connection, digest: bytes) -> bool:
    """Whether the bank has the problem of that digest and it was retired."""
    asked = "SELECT 1 FROM problem WHERE digest = ? AND retired"
    return connection.execute(asked, (digest,)).fetchone() is not None


def _number(connection: sqlite3.Connection, table: str, **values: Any) -> int:
    """The number of the row with these values, which is added if it is new."""
    where = " AND ".join(f"{name} = ?" for name in values)
    asked = f"SELECT id FROM {table} WHERE {where}"
    found = connection.execute(asked, tuple(values.values())).fetchone()
    if found is None:
        marks = ", ".join("?" for _ in values)
        added = connection.execute(
            f"INSERT INTO {table} ({', '.join(values)}) VALUES ({marks})", tuple(values.values())
        )
        assert added.lastrowid is not None
        return added.lastrowid
    return int(found[0])


def object_of(text: str) -> dict[str, Any]:
    """What the JSON of a stored request or of terms says, by key."""
    found: dict[str, Any] = json.loads(text)
    return found
