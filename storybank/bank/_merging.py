"""Takes all that another bank holds into this one, without doubles."""

import sqlite3
from collections.abc import Callable, Iterator
from contextlib import ExitStack, closing, contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

from storybank.bank import _actions, _file, _pieces
from storybank.bank._classes import record
from storybank.bank._keeping import index_words, last_number
from storybank.bank._outside import check_texts
from storybank.bank._place import name_of
from storybank.bank._schema import CURRENT
from storybank.bank._told import told
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
"""
_SHELVES = """
DROP TABLE IF EXISTS temp.shelf_here;
DROP TABLE IF EXISTS temp.recipe_here;
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
INSERT INTO main.problem (digest, meaning, numbers, shelf, luck, largest, reach, code, recipe,
    place, action, star, retired, note, packing, text, body)
SELECT theirs.digest, theirs.meaning, theirs.numbers, shelf_here.mine, theirs.luck,
    theirs.largest, theirs.reach, theirs.code, recipe_here.mine, theirs.place, :action, theirs.star,
    theirs.retired, theirs.note, theirs.packing, theirs.text, theirs.body
FROM other.problem AS theirs
JOIN temp.shelf_here ON shelf_here.theirs = theirs.shelf
JOIN temp.recipe_here ON recipe_here.theirs = theirs.recipe
WHERE theirs.id > :after AND theirs.id <= :upto
ON CONFLICT (digest) DO NOTHING
"""
_MARKED = """
SELECT mine.id, theirs.star > mine.star, theirs.retired > mine.retired,
    iif(mine.note = '', theirs.note, '') AS note
FROM other.problem AS theirs JOIN main.problem AS mine ON mine.digest = theirs.digest
WHERE theirs.id > ? AND theirs.id <= ? AND mine.action <> ?
    AND (theirs.star > mine.star OR theirs.retired > mine.retired OR
        (theirs.note <> '' AND mine.note = ''))
"""
_HAND_OUTS = """
SELECT theirs.id, class.label, theirs.day, theirs.mark FROM other.hand_out AS theirs
JOIN other.class ON class.id = theirs.class ORDER BY theirs.id
"""
_HANDED = """
SELECT mine.id, mine.meaning FROM other.handed AS theirs
JOIN other.problem AS there ON there.id = theirs.problem
JOIN main.problem AS mine ON mine.digest = there.digest
WHERE theirs.hand_out = ? AND NOT EXISTS (
    SELECT 1 FROM main.handed AS known JOIN main.class ON class.id = known.class
    WHERE class.label = ? AND known.meaning = mine.meaning AND known.problem = mine.id)
"""
_GROWTHS = """
INSERT OR IGNORE INTO main.growth (recipe)
SELECT recipe_here.mine FROM other.growth
JOIN temp.recipe_here ON recipe_here.theirs = other.growth.recipe
"""
_GROWN = """
SELECT mine.id, theirs.first, theirs.count FROM other.grown AS theirs
JOIN other.growth ON growth.id = theirs.growth
JOIN temp.recipe_here ON recipe_here.theirs = growth.recipe
JOIN main.growth AS mine ON mine.recipe = recipe_here.mine
WHERE typeof(theirs.first) = 'integer' AND theirs.first >= 0
    AND typeof(theirs.count) = 'integer' AND theirs.count BETWEEN 1 AND 1000000
"""


def merge(
    connection: sqlite3.Connection,
    path: Path,
    other: Path,
    report: Callable[[int, int], None] | None = None,
) -> tuple[int, int]:
    """How many problems of the other bank were new here, and how many it holds.

    Problems, stars, retired ones and notes (ours stay where both have one), what classes have had,
    and how far a bank has grown; all of it or nothing. The other bank is only read, and other
    programs may write to it meanwhile; of an older one a copy is upgraded.
    Raises BankError for a file that is no whole bank.
    """
    if other.exists() and path.samefile(other):
        raise BankError(f'"{other}" is this bank itself. Name another one to merge.')
    with _readable(path, other) as name:
        connection.execute("ATTACH DATABASE ? AS other", (name,))
        try:
            return _merged(connection, other, report)
        finally:
            for table in ("shelf_here", "recipe_here"):
                connection.execute(f"DROP TABLE IF EXISTS temp.{table}")
            connection.execute("DETACH DATABASE other")


@contextmanager
def _readable(path: Path, other: Path) -> Iterator[str]:
    """The name by which a whole bank, or an upgraded copy of an older one, is attached."""
    with ExitStack() as opened:
        with told(other):
            connection, mode = _file.look_into(other)
            opened.enter_context(closing(connection))
            version = _file.version_of(connection, other)
            (whole,) = connection.execute("PRAGMA quick_check(1)").fetchone()
            if whole != "ok" or not _file.has_our_tables(connection, version):
                raise BankError(
                    f'The bank "{other}" is damaged, so nothing was merged. Restore it first.'
                )
        name = name_of(other, mode)
        if version < CURRENT:
            folder = TemporaryDirectory(dir=path.parent, prefix=f".{path.name}.")
            copy = Path(opened.enter_context(folder), "copy.bank")
            with told(path), closing(sqlite3.connect(copy, isolation_level=None)) as upgraded:
                connection.backup(upgraded)
                _file.upgrade(upgraded, copy)
                check_texts(upgraded, other)
            name = name_of(copy, "ro")
        else:
            check_texts(connection, other)
        yield name


def _merged(
    connection: sqlite3.Connection, other: Path, report: Callable[[int, int], None] | None
) -> tuple[int, int]:
    (count,) = connection.execute("SELECT count(*) FROM other.problem").fetchone()
    with _file.transaction(connection):
        action = _actions.begin(connection, "merge", other.name)
        _each(connection, _SHARED)
        _each(connection, _SHELVES)
        new = 0
        for after, upto, seen in _parts(connection):
            known = {"action": action, "after": after, "upto": upto}
            last = last_number(connection)
            new += connection.execute(_PROBLEMS, known).rowcount
            index_words(connection, last)
            _marks(connection, action, after, upto)
            if report is not None:
                report(min(count, seen), count)
        _hand_outs(connection, action)
        _growths(connection)
        _actions.tell(connection, action, f"{other.name}: {new} problems")
    return new, count


def _parts(connection: sqlite3.Connection) -> Iterator[tuple[int, int, int]]:
    """The problems of the other bank in parts: after which, up to which, how many till then."""
    after = seen = 0
    while True:
        (upto,) = connection.execute(
            "SELECT max(id) FROM (SELECT id FROM other.problem WHERE id > ? ORDER BY id LIMIT ?)",
            (after, _AT_ONCE),
        ).fetchone()
        if upto is None:
            return
        seen += _AT_ONCE
        yield after, upto, seen
        after = upto


def _marks(connection: sqlite3.Connection, action: int, after: int, upto: int) -> None:
    marked = connection.execute(_MARKED, (after, upto, action)).fetchall()
    for number, star, retired, note in marked:
        for field, value in (("star", star), ("retired", retired), ("note", note)):
            if value:
                _actions.change(connection, action, number, field, value)


def _hand_outs(connection: sqlite3.Connection, action: int) -> None:
    for hand_out, label, day, mark in connection.execute(_HAND_OUTS).fetchall():
        problems = connection.execute(_HANDED, (hand_out, label)).fetchall()
        if problems:
            record(connection, label, day, problems, action, mark)


def _growths(connection: sqlite3.Connection) -> None:
    connection.execute(_GROWTHS)
    for growth, *piece in connection.execute(_GROWN).fetchall():
        _pieces.mark(connection, growth, (piece[0], piece[1]))


def _each(connection: sqlite3.Connection, script: str) -> None:
    for one in script.split(";"):
        if one.strip():
            connection.execute(one)
