"""Makes the bank of a version that has none here yet: python tests/bank/old/make.py

What is stored is never made again: it is what an older Storybank has written.
"""

import sys
from contextlib import closing
from pathlib import Path
from sqlite3 import Connection, connect

from storybank import Request, make_set
from storybank.bank import _actions, _classes, _file, _keeping, _pieces
from storybank.bank._rows import row_of, terms_of
from storybank.bank._schema import CURRENT

HERE = Path(__file__).parent
SETS = (
    Request(strategy=["any"], count=3, seed=51),
    Request(units=["any"], count=2, seed=52),
    Request(steps=2, count=2, seed=53),
    Request(addends=3, count=1, seed=54, vocabulary="level-2"),
)


def make(path: Path, version: int) -> None:
    """Writes a bank of that version with problems of several kinds, and marks where it has them."""
    with closing(connect(path, isolation_level=None)) as connection:
        connection.execute("PRAGMA journal_mode = WAL")
        _file.upgrade(connection, path, empty=True, upto=version)
        if version < 3:
            connection.execute("CREATE TEMP TABLE words (text)")  # What is kept is told to it.
        with _file.transaction(connection):
            for request in SETS:
                _add(connection, request)
            _mark(connection)
            if version >= 2:
                _hand_out(connection)
            if version >= 3:
                _say_grown(connection)


def _add(connection: Connection, request: Request) -> None:
    made = make_set(request)
    action = _actions.begin(connection, "add", f"{len(made.problems)} problems")
    recipe = _keeping.recipe(connection, _keeping.stored(made.request), made.version)
    rows = [row_of(one, terms_of(made.request), place) for place, one in enumerate(made.problems)]
    _keeping.keep(connection, rows, _keeping.Shelves(), recipe=recipe, action=action)


def _mark(connection: Connection) -> None:
    for number, field, value in ((1, "star", 1), (4, "note", "good for pairs"), (2, "retired", 1)):
        action = _actions.begin(connection, field)
        _actions.change(connection, action, number, field, value)


def _hand_out(connection: Connection) -> None:
    action = _actions.begin(connection, "used", "2B, 2026-09-14")
    rows = connection.execute("SELECT id, meaning FROM problem WHERE id IN (1, 4, 6)").fetchall()
    _classes.record(connection, "2B", "2026-09-14", rows, action, "0123456789abcdef")


def _say_grown(connection: Connection) -> None:
    action = _actions.begin(connection, "grow", "3 problems")
    connection.execute("INSERT INTO growth (recipe) VALUES (1)")
    assert action
    _pieces.mark(connection, 1, (0, 3))


if __name__ == "__main__":
    for each in range(1, CURRENT + 1):
        target = HERE / f"version-{each}.bank"
        if not target.exists():
            make(target, each)
            sys.stdout.write(f"{target.name}\n")
