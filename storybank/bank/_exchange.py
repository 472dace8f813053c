"""Takes records from a file into a bank, and gives the records of a bank."""

import sqlite3
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, Any

from storybank import finished
from storybank.bank import _actions, _classes, _keeping
from storybank.bank._finding import Kept, find, recipe_of
from storybank.bank._judging import verdict
from storybank.bank._lines import BadLineError, Record, Use, lines_of, record_of, rows_of
from storybank.bank._rows import Row, row_of, terms_of
from storybank.bank._wanted import Wanted
from storybank.errors import BankError, StorybankError

if TYPE_CHECKING:
    from storybank.bank._bank import Bank

_AT_ONCE = 500
_MANY = 1000


@dataclass
class Imported:
    """What an import did: problems that are new, that were there, that were bad, and why."""

    new: int = 0
    there: int = 0
    bad: list[tuple[int, str]] = field(default_factory=list)
    passed_over: int = 0
    notes: list[str] = field(default_factory=list)


def records(
    connection: sqlite3.Connection, wanted: Wanted, most: int | None = None
) -> Iterator[tuple[Kept, Record]]:
    """The wanted problems with all that the bank knows about them, one at a time."""
    recipes: dict[int, tuple[dict[str, Any], str]] = {}
    for one in find(connection, wanted, most):
        if one.recipe not in recipes:
            recipes[one.recipe] = recipe_of(connection, one.recipe)
        request, version = recipes[one.recipe]
        used = connection.execute(
            "SELECT class.label, hand_out.day, hand_out.mark FROM handed "
            "JOIN hand_out ON hand_out.id = handed.hand_out "
            "JOIN class ON class.id = handed.class WHERE handed.problem = ? "
            "ORDER BY hand_out.day, hand_out.mark",
            (one.number,),
        ).fetchall()
        uses = tuple(Use(*use) for use in used)
        record = Record(
            one.node, request, version, one.place, one.star, one.retired, one.note, uses
        )
        yield one, record


def take_in_file(bank: "Bank", path: Path, *, skip_bad: bool = False) -> Imported:
    """What was taken in from a file: a table by the name .csv, else JSON Lines; see `take_in`.

    Raises BankError for a file that cannot be read.
    """
    if not path.is_file():
        raise BankError(f'There is no file "{path}" to import. Check its name and folder.')
    try:
        if path.suffix.lower() == ".csv":
            return take_in(
                bank,
                rows_of(path),
                source=path.name,
                what="row",
                skip_bad=skip_bad,
                exactly=True,
            )
        with path.open("rb") as stream:
            lines = ((number, _record(line)) for number, line in lines_of(stream))
            return take_in(bank, lines, source=path.name, skip_bad=skip_bad)
    except OSError as error:
        raise BankError(
            f'"{path}" cannot be read ({error.strerror}). Check its permissions; nothing was kept.'
        ) from error


def _record(line: bytes) -> Record | BadLineError:
    try:
        return record_of(line)
    except BadLineError as error:
        return error


def take_in(
    bank: "Bank",
    numbered: Iterable[tuple[int, Record | BadLineError]],
    *,
    source: str,
    what: str = "line",
    skip_bad: bool = False,
    exactly: bool = False,
) -> Imported:
    """What was taken in from records that come with the numbers of their lines.

    Each problem is judged by the checks, and children's names are replaced. Without `skip_bad`
    the first bad one ends the import, and what it had kept so far is taken back: nothing is kept.
    A star, a note or retiring is only ever added, but `exactly` as the records say where they come
    from a table that somebody marked in.
    Raises BankError, naming line and reason, then.
    """
    done = Imported()
    with bank.writing() as connection:
        action = _actions.begin(connection, "import", source, finished=False)
    try:
        for some in _in_parts(numbered):
            ready = _ready(some, done, source, what, skip_bad)
            with bank.writing() as connection:
                _keep(bank, connection, ready, action, done, exactly)
        with bank.writing() as connection:
            _actions.tell(connection, action, f"{source}: {done.new} problems")
    except BaseException:
        with bank.writing() as connection:
            _actions.take_back(connection, action)
            connection.execute("UPDATE action SET undone = 1, finished = 1 WHERE id = ?", (action,))
        raise
    done.notes = list(dict.fromkeys(done.notes))
    return done


def _in_parts(
    numbered: Iterable[tuple[int, Record | BadLineError]],
) -> Iterator[list[tuple[int, Record | BadLineError]]]:
    part: list[tuple[int, Record | BadLineError]] = []
    for one in numbered:
        part.append(one)
        if len(part) == _AT_ONCE:
            yield part
            part = []
    if part:
        yield part


def _ready(
    some: Sequence[tuple[int, Record | BadLineError]],
    done: Imported,
    source: str,
    what: str,
    skip_bad: bool,
) -> list[tuple[Record, Row]]:
    ready = []
    for number, record in some:
        try:
            if isinstance(record, BadLineError):
                raise record
            ready.append((record, _row(record, done)))
        except StorybankError as error:
            if not skip_bad:
                raise BankError(
                    f"{source}, {what} {number}: {error} Nothing was kept. Mend the {what}, or "
                    "add --skip-bad to keep all others."
                ) from error
            done.passed_over += 1
            if len(done.bad) < _MANY:
                done.bad.append((number, str(error)))
    return ready


def _row(record: Record, done: Imported) -> Row:
    problem = finished.problem_from_json(record.node, "the problem")
    own, notes = finished.own_names(problem, record.request)
    faults, note = verdict(own, _keeping.stored(record.request))
    if faults:
        raise BadLineError(f"the problem breaks a law: {' '.join(faults)}")
    done.notes += [*notes, *([note] if note else [])]
    return row_of(own, terms_of(record.request), record.place)


def _keep(
    bank: "Bank",
    connection: sqlite3.Connection,
    ready: Sequence[tuple[Record, Row]],
    action: int,
    done: Imported,
    exactly: bool,
) -> None:
    hand_outs: dict[tuple[str, str, str], list[tuple[int, int]]] = {}
    for record, row in ready:
        request = _keeping.stored(record.request)
        recipe = _keeping.recipe(connection, request, record.version)
        new = _keeping.keep(connection, [row], bank.shelf_numbers, recipe=recipe, action=action)
        number = _keeping.number_with(connection, row.digest)
        assert number is not None
        done.new += new
        done.there += 1 - new
        marks = (
            ("star", int(record.star)),
            ("note", record.note),
            ("retired", int(record.retired)),
        )
        for name, value in marks:
            if value or exactly:
                _actions.change(connection, action, number, name, value)
        for use in record.used:
            at = (use.label, use.day, use.mark)
            hand_outs.setdefault(at, []).append((number, row.meaning))
    for (label, day, mark), problems in hand_outs.items():
        _classes.record(connection, label, day, problems, action, mark)
