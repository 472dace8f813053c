"""Takes records from a file into a bank, and gives the records of a bank."""

import pickle
import sqlite3
import tempfile
from collections.abc import Iterable, Iterator, Sequence
from contextlib import closing
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from storybank import finished
from storybank.bank import _actions, _classes, _keeping, _packing
from storybank.bank._finding import Kept, find, recipe_of
from storybank.bank._judging import verdict
from storybank.bank._lines import MOST_USES, BadLineError, Record, Use, lines_of, record_of
from storybank.bank._rows import Row, row_of, terms_of
from storybank.bank._table import rows_of
from storybank.bank._wanted import Wanted
from storybank.cleaning import clean_text
from storybank.errors import BankError, StorybankError
from storybank.set_file import shown_name

if TYPE_CHECKING:
    from storybank.bank._bank import Bank

_AT_ONCE = 500
_ROOM = 8 << 20
"""Bytes of records that are put aside together."""
_A_USE = 300
_IN_MEMORY = 1 << 26
"""Bytes of judged problems that wait in memory; more of them wait in a temporary file."""
_MANY = 1000
_SAID = 600
"""Letters of what is said of a bad line."""


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
    """The wanted problems with all that the bank knows about them, one at a time.

    One that more than `MOST_USES` classes have had comes several times, each with some of them.
    """
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
        for at in range(0, max(1, len(uses)), MOST_USES):
            some = uses[at : at + MOST_USES]
            yield (
                one,
                Record(
                    one.node, request, version, one.place, one.star, one.retired, one.note, some
                ),
            )


def take_in_file(bank: "Bank", path: Path, *, skip_bad: bool = False) -> Imported:
    """What was taken in from a file: a table by the name .csv, else JSON Lines; see `take_in`.

    Raises BankError for a file that cannot be read.
    """
    if not path.is_file():
        raise BankError(f'There is no file "{path}" to import. Check its name and folder.')
    name = shown_name(path)
    try:
        if path.suffix.lower() == ".csv":
            with closing(rows_of(path)) as rows:
                return take_in(bank, rows, source=name, what="row", skip_bad=skip_bad)
        with path.open("rb") as stream:
            lines = ((number, _record(line)) for number, line in lines_of(stream))
            return take_in(bank, lines, source=name, skip_bad=skip_bad)
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
) -> Imported:
    """What was taken in from records that come with the numbers of their lines.

    Each problem is judged by the checks, and children's names are replaced. All are kept at once,
    when all are judged. Without `skip_bad` the first bad one ends it, and nothing is kept. Stars,
    notes and retiring are only added, a note where there is none; but what is marked in a table
    stands just so.
    Raises BankError, naming line and reason, then.
    """
    done = Imported()
    with tempfile.SpooledTemporaryFile(_IN_MEMORY) as waiting:
        for part in _in_parts(_ready(numbered, done, source, what, skip_bad)):
            _put_aside(part, waiting, source)
        end = waiting.tell()
        waiting.seek(0)
        with bank.writing() as connection:
            action = _actions.begin(connection, "import", source)
            while waiting.tell() < end:
                _keep(bank, connection, pickle.load(waiting), action, done)
            _actions.tell(connection, action, f"{source}: {done.new} problems")
    done.notes = list(dict.fromkeys(done.notes))
    return done


def _put_aside(part: object, waiting: "tempfile.SpooledTemporaryFile[bytes]", source: str) -> None:
    try:
        pickle.dump(part, waiting)
    except OSError as error:
        raise BankError(
            f"What {source} holds could not be put aside in the folder for temporary files, "
            f'"{tempfile.gettempdir()}" ({error.strerror}). Nothing was kept. Free some room '
            "there, or set TMPDIR to another folder."
        ) from error


@dataclass(frozen=True, slots=True)
class _Ready:
    """A record that was judged, and its row; what takes much room in memory is gone."""

    record: Record
    recipe: str
    row: Row

    @property
    def size(self) -> int:
        """About how many bytes it takes."""
        return len(self.recipe) + len(self.row.body) + _A_USE * len(self.record.used)


def _in_parts(ready: Iterable[_Ready]) -> Iterator[list[_Ready]]:
    part: list[_Ready] = []
    size = 0
    for one in ready:
        part.append(one)
        size += one.size
        if len(part) == _AT_ONCE or size > _ROOM:
            yield part
            part, size = [], 0
    if part:
        yield part


def _ready(
    numbered: Iterable[tuple[int, Record | BadLineError]],
    done: Imported,
    source: str,
    what: str,
    skip_bad: bool,
) -> Iterator[_Ready]:
    for number, record in numbered:
        try:
            if isinstance(record, BadLineError):
                raise record
            yield _judged(record, done)
        except StorybankError as error:
            said = clean_text(str(error)[: 4 * _SAID], _SAID)[0]
            if not skip_bad:
                raise BankError(
                    f"{source}, {what} {number}: {said} Nothing was kept. Mend the {what}, or "
                    "pass over bad ones (--skip-bad) and keep all others."
                ) from error
            done.passed_over += 1
            if len(done.bad) < _MANY:
                done.bad.append((number, said))


def _judged(record: Record, done: Imported) -> _Ready:
    problem = finished.problem_from_json(record.node, "the problem")
    own, notes = finished.own_names(problem, record.request)
    request = _keeping.stored(record.request)
    faults, note = verdict(own, request)
    if faults:
        raise BadLineError(f"the problem breaks a law: {' '.join(faults)}")
    for one in (*notes, note):
        if one and one not in done.notes and len(done.notes) < _MANY:
            done.notes.append(one)
    row = row_of(own, terms_of(record.request), record.place)
    return _Ready(replace(record, node={}, request={}), _packing.text_of(request), row)


def _keep(
    bank: "Bank",
    connection: sqlite3.Connection,
    part: Sequence[_Ready],
    action: int,
    done: Imported,
) -> None:
    hand_outs: dict[tuple[str, str, str], list[tuple[int, int]]] = {}
    for one in part:
        record, row = one.record, one.row
        recipe = _keeping.recipe(connection, one.recipe, record.version)
        new = _keeping.keep(connection, [row], bank.shelf_numbers, recipe=recipe, action=action)
        number = _keeping.number_with(connection, row.digest)
        assert number is not None
        done.new += new
        done.there += 1 - new
        _mark(connection, action, number, record)
        for use in record.used:
            at = (use.label, use.day, use.mark)
            hand_outs.setdefault(at, []).append((number, row.meaning))
    for (label, day, mark), problems in hand_outs.items():
        _classes.record(connection, label, day, problems, action, mark)


def _mark(connection: sqlite3.Connection, action: int, number: int, record: Record) -> None:
    marks: dict[str, Any] = {
        "star": int(record.star),
        "retired": int(record.retired),
        "note": record.note,
    }
    for name, value in marks.items():
        if name in record.exact or (value and not _marked(connection, number, name)):
            _actions.change(connection, action, number, name, value)


def _marked(connection: sqlite3.Connection, number: int, name: str) -> bool:
    assert name in _actions.FIELDS
    asked = f"SELECT {name} FROM problem WHERE id = ?"
    return bool(connection.execute(asked, (number,)).fetchone()[0])
