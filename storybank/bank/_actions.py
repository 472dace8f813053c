"""What was done to a bank, action by action, and how the last one is taken back."""

import sqlite3
from dataclasses import dataclass
from datetime import date
from typing import Any

from storybank.bank import _file
from storybank.errors import BankError

FIELDS = ("star", "retired", "note")
"""What may be changed about a problem once it is kept."""
_DID = ("problem", "change", "handed", "grown")
"""Tables that say which action something came with."""
_FORGET_PIECES = """
DELETE FROM grown WHERE (growth, first) IN (
    SELECT growth.id, (SELECT max(first) FROM grown AS piece
        WHERE piece.growth = growth.id AND piece.first <= problem.place
            AND problem.place < piece.first + piece.count)
    FROM problem JOIN growth ON growth.recipe = problem.recipe
    WHERE problem.action = ?)
"""


@dataclass(frozen=True, slots=True)
class Action:
    """One action: its number, the day, what kind it was, what it did, whether it was taken back.

    One that is not `finished` is going on, or was killed: undoing it takes back what it did.
    """

    number: int
    day: str
    what: str
    told: str
    undone: bool
    finished: bool = True


def begin(
    connection: sqlite3.Connection, what: str, told: str = "", *, finished: bool = True
) -> int:
    """The number of a new action; one that takes several transactions is finished later."""
    added = connection.execute(
        "INSERT INTO action (day, what, told, finished) VALUES (?, ?, ?, ?)",
        (date.today().isoformat(), what, _shown(told), int(finished)),
    )
    assert added.lastrowid is not None
    return added.lastrowid


def tell(connection: sqlite3.Connection, action: int, told: str) -> None:
    """Says what a finished action has done; one that did nothing is forgotten.

    Otherwise undoing it would seem to take back what was done before.
    """
    _forget_empty(connection, action)
    if any(
        connection.execute(f"SELECT 1 FROM {table} WHERE action = ? LIMIT 1", (action,)).fetchone()
        for table in _DID
    ):
        connection.execute(
            "UPDATE action SET told = ?, finished = 1 WHERE id = ?", (_shown(told), action)
        )
    else:
        connection.execute("DELETE FROM action WHERE id = ?", (action,))


def check_running(connection: sqlite3.Connection, action: int) -> None:
    """Raises BankError if an action that takes several transactions was taken back meanwhile."""
    what, undone = connection.execute(
        "SELECT what, undone FROM action WHERE id = ?", (action,)
    ).fetchone()
    if undone:
        raise BankError(f"This {what} was undone by another program while it ran, so it stopped.")


def _shown(told: str) -> str:
    """The text, also of a file whose name is not made of letters."""
    return told.encode("utf-8", "backslashreplace").decode()


def actions(connection: sqlite3.Connection, most: int = 20) -> list[Action]:
    """The latest actions, the last one first."""
    rows = connection.execute(
        "SELECT id, day, what, told, undone, finished FROM action ORDER BY id DESC LIMIT ?",
        (_file.bounded(most),),
    )
    return [
        Action(number, day, what, told, bool(undone), bool(finished))
        for number, day, what, told, undone, finished in rows
    ]


def change(
    connection: sqlite3.Connection, action: int, problem: int, field: str, value: Any
) -> bool:
    """Whether the field of a problem was changed; what it was before is remembered."""
    assert field in FIELDS
    (before,) = connection.execute(
        f"SELECT {field} FROM problem WHERE id = ?", (problem,)
    ).fetchone()
    if before == value:
        return False
    connection.execute(
        "INSERT INTO change VALUES (?, ?, ?, ?) ON CONFLICT DO NOTHING",
        (action, problem, field, str(before)),
    )
    connection.execute(f"UPDATE problem SET {field} = ? WHERE id = ?", (value, problem))
    return True


def undo_last(connection: sqlite3.Connection, only: int | None = None) -> Action:
    """The last action that was not taken back, which is now; to be called in a transaction.

    Raises BankError where nothing is left to take back, or where that is not the one of `only`.
    """
    found = connection.execute(
        "SELECT id, day, what, told FROM action WHERE NOT undone ORDER BY id DESC LIMIT 1"
    ).fetchone()
    if found is None:
        raise BankError("There is nothing to undo: nothing was done to this bank yet.")
    number, day, what, told = found
    if only not in (None, number):
        raise BankError(
            "What was to be undone is not the last thing done to this bank any more, so nothing "
            f"was undone. The last thing is now: {what} of {day}{f': {told}' if told else ''}."
        )
    give_up(connection, number)
    return Action(number, day, what, told, True)


def give_up(connection: sqlite3.Connection, action: int) -> None:
    """Takes an action back and says so; to be called in a transaction."""
    take_back(connection, action)
    connection.execute("UPDATE action SET undone = 1, finished = 1 WHERE id = ?", (action,))


def take_back(connection: sqlite3.Connection, action: int) -> None:
    """Takes back all that an action did: hand-outs, changed fields, problems that it added."""
    connection.execute("DELETE FROM handed WHERE action = ?", (action,))
    _forget_empty(connection, action)
    changes = connection.execute(
        "SELECT problem, field, before FROM change WHERE action = ?", (action,)
    ).fetchall()
    for problem, field, before in changes:
        assert field in FIELDS
        value = before if field == "note" else int(before)
        connection.execute(f"UPDATE problem SET {field} = ? WHERE id = ?", (value, problem))
    connection.execute("DELETE FROM change WHERE action = ?", (action,))
    connection.execute("DELETE FROM grown WHERE action = ?", (action,))
    # A piece that an earlier action grew in part is to be grown again, or it would stay in part.
    connection.execute(_FORGET_PIECES, (action,))
    connection.execute(
        "DELETE FROM problem WHERE action = ? "
        "AND NOT EXISTS (SELECT 1 FROM handed WHERE handed.problem = problem.id)",
        (action,),
    )


def _forget_empty(connection: sqlite3.Connection, action: int) -> None:
    """Takes away hand-outs of an action without a problem, and classes that had nothing."""
    connection.execute(
        "DELETE FROM hand_out WHERE action = ? "
        "AND NOT EXISTS (SELECT 1 FROM handed WHERE handed.hand_out = hand_out.id)",
        (action,),
    )
    connection.execute(
        "DELETE FROM class "
        "WHERE NOT EXISTS (SELECT 1 FROM hand_out WHERE hand_out.class = class.id) "
        "AND NOT EXISTS (SELECT 1 FROM handed WHERE handed.class = class.id)"
    )
