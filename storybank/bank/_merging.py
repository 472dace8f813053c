"""Takes all that another bank holds into this one, without doubles."""

import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from urllib.parse import quote

from storybank.bank import _actions, _file
from storybank.bank._keeping import index_words, last_number
from storybank.errors import BankError

_AT_ONCE = 5000

_SHARED = """
INSERT OR IGNORE INTO main.packing SELECT id, phrases FROM other.packing;
INSERT OR IGNORE INTO main.terms (terms) SELECT terms FROM other.terms;
INSERT OR IGNORE INTO main.recipe (version, request) SELECT version, request FROM other.recipe;
INSERT OR IGNORE INTO main.shelf
    (theme, scene, situation, strategy, vocabulary, standards, season, terms)
SELECT theme, scene, situation, strategy, vocabulary, standards, season, mine.id
FROM other.shelf JOIN other.terms AS theirs ON theirs.id = other.shelf.terms
JOIN main.terms AS mine ON mine.terms = theirs.terms;
INSERT OR IGNORE INTO main.class (label) SELECT label FROM other.class;
"""
_SHELVES = """
CREATE TEMP TABLE shelf_here AS
SELECT theirs.id AS theirs, mine.id AS mine FROM other.shelf AS theirs
JOIN other.terms AS their_terms ON their_terms.id = theirs.terms
JOIN main.terms AS my_terms ON my_terms.terms = their_terms.terms
JOIN main.shelf AS mine ON (mine.theme, mine.scene, mine.situation, mine.strategy,
    mine.vocabulary, mine.standards, mine.season, mine.terms) = (theirs.theme, theirs.scene,
    theirs.situation, theirs.strategy, theirs.vocabulary, theirs.standards, theirs.season,
    my_terms.id);
CREATE UNIQUE INDEX temp.shelf_there ON shelf_here (theirs);
CREATE TEMP TABLE recipe_here AS
SELECT theirs.id AS theirs, mine.id AS mine FROM other.recipe AS theirs
JOIN main.recipe AS mine ON mine.request = theirs.request AND mine.version = theirs.version;
CREATE UNIQUE INDEX temp.recipe_there ON recipe_here (theirs);
"""
_PROBLEMS = """
INSERT INTO main.problem (digest, meaning, numbers, shelf, luck, largest, code, recipe, place,
    action, star, retired, note, packing, text, body)
SELECT theirs.digest, theirs.meaning, theirs.numbers, shelf_here.mine, theirs.luck,
    theirs.largest, theirs.code, recipe_here.mine, theirs.place, :action, theirs.star,
    theirs.retired, theirs.note, theirs.packing, theirs.text, theirs.body
FROM other.problem AS theirs
JOIN temp.shelf_here ON shelf_here.theirs = theirs.shelf
JOIN temp.recipe_here ON recipe_here.theirs = theirs.recipe
WHERE theirs.id > :after AND theirs.id <= :upto
ON CONFLICT (digest) DO NOTHING
"""
_MARKED = """
SELECT mine.id, theirs.star, theirs.note FROM other.problem AS theirs
JOIN main.problem AS mine ON mine.digest = theirs.digest
WHERE theirs.id > ? AND theirs.id <= ? AND mine.action <> ?
    AND ((theirs.star AND NOT mine.star) OR (theirs.note <> '' AND mine.note = ''))
"""
_HAND_OUTS = """
SELECT theirs.id, class.label, theirs.day, theirs.mark FROM other.hand_out AS theirs
JOIN other.class ON class.id = theirs.class
WHERE NOT EXISTS (SELECT 1 FROM main.hand_out AS mine WHERE mine.mark = theirs.mark)
ORDER BY theirs.id
"""
_HANDED = """
SELECT mine.id, mine.meaning FROM other.handed AS theirs
JOIN other.problem AS there ON there.id = theirs.problem
JOIN main.problem AS mine ON mine.digest = there.digest WHERE theirs.hand_out = ?
"""
_GROWN = """
INSERT OR IGNORE INTO main.growth (recipe)
SELECT recipe_here.mine FROM other.growth JOIN temp.recipe_here
    ON recipe_here.theirs = other.growth.recipe;
INSERT INTO main.grown (growth, first, count, action)
SELECT mine.id, theirs.first, theirs.count, {action} FROM other.grown AS theirs
JOIN other.growth ON growth.id = theirs.growth
JOIN temp.recipe_here ON recipe_here.theirs = growth.recipe
JOIN main.growth AS mine ON mine.recipe = recipe_here.mine WHERE 1
ON CONFLICT (growth, first) DO UPDATE SET count = max(count, excluded.count);
"""


def merge(
    connection: sqlite3.Connection,
    path: Path,
    other: Path,
    report: Callable[[int, int], None] | None = None,
) -> tuple[int, int]:
    """How many problems of the other bank were new here, and how many it holds.

    Problems, stars and notes (ours stay where both have one), what classes have had, and how far
    a bank has grown. The other bank is only read. Stopped halfway, it can be asked for again.
    Raises BankError for a file that is no whole bank of this version.
    """
    _check(path, other)
    connection.execute(
        "ATTACH DATABASE ? AS other", (f"file:{quote(str(other.absolute()))}?mode=ro",)
    )
    try:
        return _merged(connection, other, report)
    finally:
        for name in ("shelf_here", "recipe_here"):
            connection.execute(f"DROP TABLE IF EXISTS temp.{name}")
        connection.execute("DETACH DATABASE other")


def _check(path: Path, other: Path) -> None:
    if other.exists() and path.samefile(other):
        raise BankError(f'"{other}" is this bank itself. Name another one to merge.')
    # Opened for a moment as any bank is: errors are told, and an older one is upgraded.
    with _file.told(other), closing(_file.open_bank(other, create=False)) as opened:
        ours = _file.has_our_tables(opened)
    if not ours or not _file.is_sound(other):
        raise BankError(f'The bank "{other}" is damaged, so nothing was merged. Restore it first.')


def _merged(
    connection: sqlite3.Connection, other: Path, report: Callable[[int, int], None] | None
) -> tuple[int, int]:
    (count,) = connection.execute("SELECT count(*) FROM other.problem").fetchone()
    with _file.transaction(connection):
        action = _actions.begin(connection, "merge", other.name)
        _each(connection, _SHARED)
    _each(connection, _SHELVES)
    new = seen = after = 0
    while True:
        (upto,) = connection.execute(
            "SELECT max(id) FROM (SELECT id FROM other.problem WHERE id > ? ORDER BY id LIMIT ?)",
            (after, _AT_ONCE),
        ).fetchone()
        if upto is None:
            break
        with _file.transaction(connection):
            known = {"action": action, "after": after, "upto": upto}
            before = last_number(connection)
            new += connection.execute(_PROBLEMS, known).rowcount
            index_words(connection, before)
            for number, star, note in connection.execute(_MARKED, (after, upto, action)).fetchall():
                if star:
                    _actions.change(connection, action, number, "star", 1)
                if note:
                    _keep_note(connection, action, number, note)
        after, seen = upto, min(count, seen + _AT_ONCE)
        if report is not None:
            report(seen, count)
    with _file.transaction(connection):
        _hand_outs(connection, action)
        _each(connection, _GROWN.format(action=int(action)))
        _actions.tell(connection, action, f"{other.name}: {new} problems")
    return new, count


def _keep_note(connection: sqlite3.Connection, action: int, number: int, note: str) -> None:
    (mine,) = connection.execute("SELECT note FROM problem WHERE id = ?", (number,)).fetchone()
    if not mine:
        _actions.change(connection, action, number, "note", note)


def _hand_outs(connection: sqlite3.Connection, action: int) -> None:
    from storybank.bank._classes import record

    for hand_out, label, day, mark in connection.execute(_HAND_OUTS).fetchall():
        problems = connection.execute(_HANDED, (hand_out,)).fetchall()
        record(connection, label, day, problems, action, mark)


def _each(connection: sqlite3.Connection, script: str) -> None:
    for one in script.split(";"):
        if one.strip():
            connection.execute(one)
