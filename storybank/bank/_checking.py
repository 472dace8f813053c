"""Whether all of a bank is sound: its pages, its tables, its search, and every problem in it."""

import sqlite3
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from hashlib import blake2b
from typing import Any

from storybank import finished
from storybank.bank import _file, _keeping, _packing
from storybank.bank._finding import Phrases
from storybank.bank._judging import verdict
from storybank.bank._rows import row_of, shelf_of, terms_of
from storybank.errors import StorybankError

_MOST = 100
_ROWS = """
SELECT problem.id, problem.digest, problem.meaning, problem.numbers, problem.luck,
    problem.largest, problem.reach, problem.code, problem.place, problem.text, problem.body,
    problem.packing, recipe.request, recipe.version, shelf.theme, shelf.scene, shelf.situation,
    shelf.strategy, shelf.vocabulary, problem.star, problem.retired, problem.note
FROM problem JOIN recipe ON recipe.id = problem.recipe JOIN shelf ON shelf.id = problem.shelf
ORDER BY problem.digest
"""


@dataclass
class Report:
    """What a check found: how many problems, the digest of all of them, each fault.

    The digest is the same for two banks that keep the same problems with the same marks, in
    whatever order they came.
    """

    problems: int = 0
    judged: int = 0
    digest: str = ""
    faults: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    more: int = 0

    def fault(self, text: str) -> None:
        """Notes a fault; of very many only the number."""
        if len(self.faults) < _MOST:
            self.faults.append(text)
        else:
            self.more += 1


def check(
    connection: sqlite3.Connection,
    *,
    judging: bool = True,
    report: Callable[[int, int], None] | None = None,
) -> Report:
    """What is wrong with a bank; without `judging` the checks are not asked about each problem."""
    found = Report()
    for (line,) in connection.execute("PRAGMA integrity_check(20)"):
        if line != "ok":
            found.fault(f"the file: {line}")
    if not _file.has_our_tables(connection):
        found.fault("the file: it has other tables than a bank of this version")
    for table, row, *_ in connection.execute("PRAGMA foreign_key_check").fetchall():
        found.fault(f"row {row} of {table} points at nothing")
    try:
        connection.execute("INSERT INTO words (words, rank) VALUES ('integrity-check', 1)")
    except sqlite3.OperationalError as error:
        if "readonly" not in str(error):
            raise
    except sqlite3.DatabaseError as error:
        found.fault(f"the full-text search: {error}")
    _each_problem(connection, found, judging, report)
    return found


def _each_problem(
    connection: sqlite3.Connection,
    found: Report,
    judging: bool,
    report: Callable[[int, int], None] | None,
) -> None:
    (count,) = connection.execute("SELECT count(*) FROM problem").fetchone()
    phrases = Phrases(connection)
    whole = blake2b(digest_size=16)
    requests: dict[str, tuple[Mapping[str, Any], str]] = {}
    for row in connection.execute(_ROWS):
        number, digest, *columns, code, place, text, body, packing, request, version = row[:14]
        shelf, marks = row[14:19], row[19:]
        found.problems += 1
        try:
            node = _packing.unpacked(body, phrases.of(packing))
        except ValueError as error:
            found.fault(f"problem #{number}: its text cannot be unpacked ({error})")
            continue
        whole.update(
            _packing.text_of([digest.hex(), version, request, place, node, marks]).encode()
        )
        if judging:
            if request not in requests:
                if len(requests) > 1000:
                    requests.clear()
                asked = _keeping.object_of(request)
                requests[request] = (asked, terms_of(asked))
            stands = (digest, *columns, code, text, *shelf)
            _judge(found, (number, place, node), stands, requests[request])
        if report is not None:
            report(found.problems, count)
    found.digest = whole.hexdigest()
    found.notes = list(dict.fromkeys(found.notes))


def _judge(
    found: Report,
    kept: tuple[int, int, Any],
    stands: tuple[Any, ...],
    made: tuple[Mapping[str, Any], str],
) -> None:
    """Judges what is kept as number, place and JSON against its columns as they stand."""
    number, place, node = kept
    request, terms = made
    try:
        problem = finished.problem_from_json(node, f"problem #{number}")
        faults, note = verdict(problem, request)
    except StorybankError as error:
        found.fault(str(error))
        return
    for one in faults:
        found.fault(f"problem #{number} ({problem.code}): {one}")
    if note:
        found.notes.append(note)
    else:
        found.judged += 1
    row = row_of(problem, terms, place)
    shelf = shelf_of(problem, terms)
    says = (
        row.digest, row.meaning, row.numbers, row.luck, row.largest, row.reach, row.code,
        row.text, shelf.theme, shelf.scene, shelf.situation, shelf.strategy, shelf.vocabulary,
    )  # fmt: skip
    if says != stands:
        found.fault(f"problem #{number} ({problem.code}): its columns do not agree with its text")
