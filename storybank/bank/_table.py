"""A bank as a table: to look at in a spreadsheet, to mark in, and to take in again."""

import csv
import re
from collections.abc import Generator, Iterable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import IO, Any

from storybank.bank._finding import Kept
from storybank.bank._lines import MAX_LINE, NOTE_LIMIT, BadLineError, Record, plain, record_of
from storybank.bank._packing import text_of
from storybank.errors import BankError

_RECORD = "record"
COLUMNS = (
    "number", "code", "star", "retired", "note", "theme", "scene", "situation", "strategy",
    "vocabulary", "standards", "text", "answer", "used", _RECORD,
)  # fmt: skip
_CELL = 16_000
"""Letters of one cell at most. Excel cuts a cell off after 32,767, of which some letters take two
(Microsoft, "Excel specifications and limits", from memory)."""
_MOST = 8 * MAX_LINE
"""Characters of one row with all its quotation marks."""
_PART = re.compile(r"record ([0-9]{1,3}) of ([0-9]{1,3}): ", re.ASCII)
_RUNS = "=+\\-@\t\r\uff1d\uff0b\uff0d\uff20"
"""What a spreadsheet takes for the beginning of a formula; some do so with the wide forms, too."""
_FORMULA = re.compile(f"'*[{_RUNS}]")
_KEPT_FROM_RUNNING = re.compile(f"'+[{_RUNS}]")
_SEPARATORS = (",", ";", "\t")
"""Spreadsheets of countries with a decimal comma write semicolons."""


def write_table(stream: IO[str], kept: Iterable[tuple[Kept, Record]]) -> int:
    """How many rows were written: one a problem, with its record in the last column.

    A cell that a spreadsheet would run as a formula has an apostrophe in front. A record that is
    too long for a cell goes on in the cells behind it, each of which says which part it is.
    """
    writer = csv.writer(stream, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    count = 0
    for one, record in kept:
        node = record.node
        used = "; ".join(f"{use.label} {use.day}" for use in record.used)
        cells = (
            f"#{one.number}", one.code, "yes" if one.star else "", "yes" if one.retired else "",
            one.note, one.theme, one.scene, one.situation, one.strategy, one.vocabulary,
            " ".join(node.get("standards", ())), one.text, _answer(node.get("answer")), used,
            *_parts(text_of(record.to_json())),
        )  # fmt: skip
        writer.writerow([_safe(cell if len(cell) <= _CELL else cell[:_CELL]) for cell in cells])
        count += 1
    return count


def _answer(answer: Any) -> str:
    if isinstance(answer, list | tuple):
        return "; ".join(" and ".join(map(str, pair)) for pair in answer)
    return str(answer)


def _parts(text: str) -> list[str]:
    if len(text) <= _CELL:
        return [text]
    size = _CELL - 100
    cut = [text[at : at + size] for at in range(0, len(text), size)]
    return [f"record {at} of {len(cut)}: {part}" for at, part in enumerate(cut, start=1)]


def rows_of(path: Path) -> Generator[tuple[int, Record | BadLineError], None, None]:
    """The records of a table with the numbers of their rows; star, retired and note as marked.

    Columns may be moved or taken out, all but `record`; other columns than the marks are only to
    be read: what stands in them is taken from the record. Commas, semicolons and tabs are told
    apart. Raises BankError for a file that is no such table.
    """
    csv.field_size_limit(MAX_LINE)
    with path.open(encoding="utf-8-sig", errors="strict", newline="") as stream:
        try:
            header, separator = _header(stream, path.name)
            lines = _Lines(stream)
            for number, row in enumerate(csv.reader(lines, delimiter=separator), start=2):
                lines.read = 0
                if any(cell.strip() for cell in row):
                    yield number, _marked(header, row)
        except (csv.Error, UnicodeDecodeError) as error:
            raise BankError(
                f'"{path.name}" cannot be read as a table of UTF-8 text ({error}). Save it as '
                "CSV (UTF-8) in your spreadsheet and try again."
            ) from error


class _Lines:
    """The lines of a file for the reader of tables; a row never takes up all memory."""

    def __init__(self, stream: IO[str]) -> None:
        self._stream = stream
        self.read = 0

    def __iter__(self) -> "_Lines":
        return self

    def __next__(self) -> str:
        line = self._stream.readline(_MOST)
        self.read += len(line)
        if self.read >= _MOST:
            raise csv.Error(f"a row has more than {_MOST:,} characters")
        if not line:
            raise StopIteration
        return line


def _header(stream: IO[str], name: str) -> tuple[list[str], str]:
    """The names of the columns, and what separates them."""
    line = stream.readline(_MOST)
    for separator in _SEPARATORS:
        found = [cell.strip().lower() for cell in next(csv.reader([line], delimiter=separator), [])]
        if _RECORD in found:
            return found, separator
    raise BankError(
        f'"{name}" has no column "{_RECORD}", in which storybank bank export puts the whole '
        "problem. Export a table anew, mark in it, and import that one."
    )


def _marked(header: Sequence[str], row: Sequence[str]) -> Record | BadLineError:
    cells = dict(zip(header, row, strict=False))
    try:
        record = record_of(_whole(cells.get(_RECORD, ""), row).encode("utf-8", "surrogatepass"))
        marks: dict[str, Any] = {
            name: _yes(cells[name], name) for name in ("star", "retired") if name in cells
        }
        if "note" in cells:
            marks["note"] = plain(_bare(cells["note"]), NOTE_LIMIT)
        return replace(record, **marks, exact=tuple(marks))
    except BadLineError as error:
        return error


def _whole(cell: str, row: Sequence[str]) -> str:
    """The whole record: the cell, or its parts wherever in the row they are."""
    if not _PART.match(cell):
        return cell
    parts: dict[int, str] = {}
    most = 0
    for one in row:
        found = _PART.match(one)
        if found:
            parts[int(found[1])] = one[found.end() :]
            most = int(found[2])
    if sorted(parts) != list(range(1, most + 1)):
        raise BadLineError(
            f"its record has {most} parts, and not all of them are in the row. Leave the columns "
            "behind the record as they are."
        )
    return "".join(parts[at] for at in sorted(parts))


def _yes(cell: str, name: str) -> bool:
    said = cell.strip().casefold()
    if said in ("", "no", "n", "0", "false"):
        return False
    if said in ("yes", "y", "1", "true", "x", "*"):
        return True
    raise BadLineError(f'"{name}" is "{plain(cell, 30)}"; write yes, or leave the cell empty.')


def _safe(cell: str) -> str:
    """The cell, with an apostrophe in front if it would be run; one more where one is there."""
    return f"'{cell}" if _FORMULA.match(cell) else cell


def _bare(cell: str) -> str:
    """The cell without the apostrophe of `_safe`."""
    return cell[1:] if _KEPT_FROM_RUNNING.match(cell) else cell
