"""What classes have had: hand-outs by day, and what a class must not be given again."""

import secrets
import sqlite3
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from storybank.cleaning import clean_text
from storybank.errors import BankError, RequestError, near
from storybank.themes.seasons import day_of

LABEL_LIMIT = 40


@dataclass(frozen=True, slots=True)
class HandOut:
    """What a class was given on a day: the problems by number, code and text."""

    number: int
    label: str
    day: str
    problems: tuple[tuple[int, str, str], ...]


def checked_label(label: str) -> str:
    """The label of a class, such as 2B, without what does not show.

    Raises RequestError for an empty label and for one so long that it may be a list of names.
    """
    clean = clean_text(label, LABEL_LIMIT + 1)[0]
    if not clean:
        raise RequestError("The class has no label. Write a short one, such as --class 2B.")
    if len(clean) > LABEL_LIMIT:
        raise RequestError(
            f'The label "{clean[:LABEL_LIMIT]}..." of the class is longer than {LABEL_LIMIT} '
            "letters. A class is a short label, such as 2B; children's names are never kept."
        )
    return clean


def check_class(label: str | None, day: str | None) -> None:
    """Nothing, if a class may be called so and the day is one; None is not looked at.

    Raises RequestError otherwise.
    """
    if label is not None:
        checked_label(label)
    if day is not None:
        day_of(day)


def class_number(connection: sqlite3.Connection, label: str) -> int | None:
    """The number of a class, or None for one that had nothing yet."""
    found = connection.execute("SELECT id FROM class WHERE label = ?", (label,)).fetchone()
    return None if found is None else int(found[0])


def known_class(connection: sqlite3.Connection, label: str) -> int:
    """The number of a class. Raises BankError, naming all classes, for an unknown one."""
    number = class_number(connection, label)
    if number is None:
        classes = labels(connection)
        said = ", ".join(classes[:20]) if classes else "none yet"
        raise BankError(
            f'No class "{label}" is in this bank.{near(label, classes)} Its classes: {said}.'
        )
    return number


def labels(connection: sqlite3.Connection) -> list[str]:
    """The labels of all classes, sorted."""
    return [row[0] for row in connection.execute("SELECT label FROM class ORDER BY label")]


def record(
    connection: sqlite3.Connection,
    label: str,
    day: str,
    problems: Iterable[tuple[int, int]],
    action: int,
    mark: str | None = None,
) -> int:
    """How many problems, given as number and meaning, the class is now known to have had anew.

    `mark` tells the hand-out from every other one, also in a bank that this one is merged with.
    """
    connection.execute("INSERT INTO class (label) VALUES (?) ON CONFLICT DO NOTHING", (label,))
    number = class_number(connection, label)
    assert number is not None
    hand_out = _hand_out(connection, number, day, mark or secrets.token_hex(8), action)
    done = connection.executemany(
        "INSERT INTO handed (class, meaning, problem, hand_out, action) VALUES (?, ?, ?, ?, ?) "
        "ON CONFLICT DO NOTHING",
        [(number, meaning, problem, hand_out, action) for problem, meaning in problems],
    )
    return done.rowcount


def _hand_out(connection: sqlite3.Connection, number: int, day: str, mark: str, action: int) -> int:
    """The number of the hand-out of that mark, which is added if this class has none."""
    found = connection.execute("SELECT id, class FROM hand_out WHERE mark = ?", (mark,)).fetchone()
    if found is not None and found[1] == number:
        return int(found[0])
    mark = mark if found is None else secrets.token_hex(8)
    added = connection.execute(
        "INSERT INTO hand_out (class, day, mark, action) VALUES (?, ?, ?, ?)",
        (number, day, mark, action),
    )
    assert added.lastrowid is not None
    return added.lastrowid


def had(connection: sqlite3.Connection, label: str, meanings: Iterable[int]) -> set[int]:
    """Those of the meanings that a class has had already."""
    number = class_number(connection, label)
    if number is None:
        return set()
    return {
        meaning
        for meaning in meanings
        if connection.execute(
            "SELECT 1 FROM handed WHERE class = ? AND meaning = ? LIMIT 1", (number, meaning)
        ).fetchone()
    }


def history(connection: sqlite3.Connection, label: str) -> list[HandOut]:
    """What a class has had, hand-out by hand-out in the order of the days.

    Raises BankError, naming all classes, for an unknown one.
    """
    number = known_class(connection, label)
    found: dict[tuple[int, str], list[tuple[int, str, str]]] = {}
    rows = connection.execute(
        "SELECT hand_out.id, hand_out.day, problem.id, problem.code, problem.text FROM hand_out "
        "JOIN handed ON handed.hand_out = hand_out.id JOIN problem ON problem.id = handed.problem "
        "WHERE hand_out.class = ? ORDER BY hand_out.day, hand_out.id, problem.id",
        (number,),
    )
    for hand_out, day, *problem in rows:
        found.setdefault((hand_out, day), []).append((problem[0], problem[1], problem[2]))
    (shown,) = connection.execute("SELECT label FROM class WHERE id = ?", (number,)).fetchone()
    return [HandOut(hand_out, shown, day, tuple(some)) for (hand_out, day), some in found.items()]


def had_by(connection: sqlite3.Connection, numbers: Sequence[int]) -> list[tuple[str, str, int]]:
    """The class, the day and how many of the problems of these numbers it then had, by class."""
    marks = ", ".join("?" for _ in numbers)
    return connection.execute(
        "SELECT class.label, hand_out.day, count(DISTINCT handed.problem) FROM handed "
        "JOIN hand_out ON hand_out.id = handed.hand_out JOIN class ON class.id = handed.class "
        f"WHERE handed.problem IN ({marks}) GROUP BY class.id, hand_out.day "
        "ORDER BY class.label, hand_out.day",
        tuple(numbers),
    ).fetchall()
