"""Finds problems in a bank."""

import json
import sqlite3
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from storybank import finished
from storybank.bank import _file, _packing
from storybank.bank._wanted import Known, Wanted, check, question, reference
from storybank.errors import BankError
from storybank.model import Problem

_COLUMNS = (
    "problem.id, problem.code, problem.star, problem.retired, problem.note, problem.text, "
    "problem.body, problem.packing, problem.recipe, problem.place, shelf.theme, shelf.scene, "
    "shelf.situation, shelf.strategy, shelf.vocabulary"
)
_SELECT = f"SELECT {_COLUMNS} FROM problem JOIN shelf ON shelf.id = problem.shelf"


@dataclass(frozen=True, slots=True)
class Kept:
    """A problem as it stands in the bank, found by its number or by the code on the page."""

    number: int
    code: str
    star: bool
    retired: bool
    note: str
    text: str
    theme: str
    scene: str
    situation: str
    strategy: str
    vocabulary: str
    recipe: int
    place: int
    packed: bytes
    phrases: bytes

    @property
    def node(self) -> dict[str, Any]:
        """The finished problem with the keys of the set format, unpacked each time it is asked for.

        Raises BankError for a spoiled one.
        """
        try:
            node: dict[str, Any] = _packing.unpacked(self.packed, self.phrases)
        except ValueError as error:
            raise BankError(
                f"Problem #{self.number} ({self.code}) of the bank is damaged: {error}. Nothing "
                "was changed. storybank bank check tells what else is, and bank restore brings a "
                "backup back."
            ) from error
        return node

    def problem(self) -> Problem:
        """The finished problem itself."""
        return finished.problem_from_json(self.node, f"problem #{self.number}")


def find(
    connection: sqlite3.Connection, wanted: Wanted, most: int | None = None, skip: int = 0
) -> Iterator[Kept]:
    """The problems that are wanted, in the order in which they came into the bank.

    Raises RequestError for a value that nothing can have.
    """
    check(wanted, known(connection))
    conditions, values = question(wanted)
    rows = connection.execute(
        f"{_SELECT} WHERE {conditions} ORDER BY problem.id LIMIT ? OFFSET ?",
        (*values, -1 if most is None else _file.bounded(most), _file.bounded(skip)),
    )
    phrases = Phrases(connection)
    for row in rows:
        yield kept_of(row, phrases)


def count(connection: sqlite3.Connection, wanted: Wanted) -> int:
    """How many problems are wanted."""
    check(wanted, known(connection))
    conditions, values = question(wanted)
    (found,) = connection.execute(
        f"SELECT count(*) FROM problem WHERE {conditions}", values
    ).fetchone()
    return int(found)


def named(connection: sqlite3.Connection, texts: list[str]) -> list[Kept]:
    """The problems named by code or number, in this order, each once.

    Raises BankError for a code that the bank has not, or that several problems have.
    """
    found: dict[int, Kept] = {}
    for text in texts:
        condition, value = reference(text)
        rows = connection.execute(f"{_SELECT} WHERE {condition} LIMIT 9", (value,)).fetchall()
        if not rows:
            raise BankError(
                f'The bank holds no problem "{text}". Look it up with storybank bank find.'
            )
        if len(rows) > 1:
            numbers = ", ".join(f"#{row[0]}" for row in rows)
            raise BankError(
                f'The code "{text}" is that of several problems: {numbers}. Name the one you mean '
                "by its number."
            )
        one = kept_of(rows[0], Phrases(connection))
        found.setdefault(one.number, one)
    return list(found.values())


def with_number(connection: sqlite3.Connection, number: int, phrases: "Phrases") -> Kept:
    """The problem of a number that the bank has."""
    row = connection.execute(f"{_SELECT} WHERE problem.id = ?", (number,)).fetchone()
    return kept_of(row, phrases)


def kept_of(row: Any, phrases: "Phrases") -> Kept:
    """The problem that a row of the database holds."""
    number, code, star, retired, note, text, body, packing, recipe, place, *shelf = row
    theme, scene, situation, strategy, vocabulary = shelf
    return Kept(
        number, code, bool(star), bool(retired), note, text, theme, scene, situation, strategy,
        vocabulary, recipe, place, body, phrases.of(packing),
    )  # fmt: skip


def is_there(connection: sqlite3.Connection, number: int) -> bool:
    """Whether the bank has a problem of that number that is not retired."""
    asked = "SELECT 1 FROM problem WHERE id = ? AND NOT retired"
    return connection.execute(asked, (number,)).fetchone() is not None


def meanings(connection: sqlite3.Connection, numbers: list[int]) -> list[tuple[int, int]]:
    """The problems of these numbers, each with its meaning."""
    found = []
    for number in numbers:
        row = connection.execute("SELECT meaning FROM problem WHERE id = ?", (number,)).fetchone()
        found.append((number, int(row[0])))
    return found


def known(connection: sqlite3.Connection) -> Known:
    """What stands in the bank by theme, scene, vocabulary and standard."""

    def distinct(column: str) -> tuple[str, ...]:
        rows = connection.execute(f"SELECT DISTINCT {column} FROM shelf ORDER BY 1")
        return tuple(str(one) for (one,) in rows)

    codes = {code for some in distinct("standards") for code in some.split()}
    return Known(distinct("theme"), distinct("scene"), distinct("vocabulary"), tuple(sorted(codes)))


def recipe_of(connection: sqlite3.Connection, recipe: int) -> tuple[dict[str, Any], str]:
    """The request and the version of a recipe."""
    request, version = connection.execute(
        "SELECT request, version FROM recipe WHERE id = ?", (recipe,)
    ).fetchone()
    return json.loads(request), version


def figures(connection: sqlite3.Connection) -> dict[str, Any]:
    """What stands in a bank, in figures."""

    def number(asked: str) -> int:
        return int(connection.execute(asked).fetchone()[0])

    def by(column: str) -> dict[str, int]:
        rows = connection.execute(
            f"SELECT {column}, sum(held) FROM shelf JOIN (SELECT shelf, count(*) AS held "
            f"FROM problem WHERE NOT retired GROUP BY shelf) ON shelf = shelf.id "
            f"GROUP BY {column} ORDER BY {column}"
        )
        return dict(rows.fetchall())

    return {
        "problems": number("SELECT count(*) FROM problem"),
        "starred": number("SELECT count(*) FROM problem WHERE star"),
        "retired": number("SELECT count(*) FROM problem WHERE retired"),
        "classes": number("SELECT count(*) FROM class"),
        "handed out": number("SELECT count(*) FROM handed"),
        "themes": by("theme"),
        "situations": by("situation"),
        "strategies": by("strategy"),
        "vocabularies": by("vocabulary"),
    }


class Phrases:
    """The phrases with which problems of a bank were packed, by number; each read once."""

    def __init__(self, connection: sqlite3.Connection) -> None:
        """Nothing is read yet."""
        self._connection = connection
        self._read: dict[int, bytes] = {}

    def of(self, packing: int) -> bytes:
        """The phrases of that number; nothing for an unknown one."""
        if packing not in self._read:
            found = self._connection.execute(
                "SELECT phrases FROM packing WHERE id = ?", (packing,)
            ).fetchone()
            self._read[packing] = bytes(found[0]) if found else b""
        return self._read[packing]
