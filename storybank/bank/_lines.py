"""Banks as text: JSON Lines that hold all that is kept, and a table to look at and mark in."""

import csv
import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import IO, Any

from storybank.bank._finding import Kept
from storybank.bank._packing import text_of
from storybank.cleaning import clean_text
from storybank.documents.csv import harmless
from storybank.errors import BankError

FORMAT = "storybank-problem/1"
MAX_LINE = 1 << 20
"""Bytes of a line, far more than any problem has."""
COLUMNS = (
    "number", "code", "star", "retired", "note", "theme", "scene", "situation", "strategy",
    "vocabulary", "standards", "text", "answer", "used", "record",
)  # fmt: skip
_NAME = "record"


@dataclass(frozen=True, slots=True)
class Use:
    """A class that had a problem, the day, and the mark of the hand-out that it was part of."""

    label: str
    day: str
    mark: str


@dataclass(frozen=True, slots=True)
class Record:
    """All that a bank knows about one problem."""

    node: dict[str, Any]
    request: dict[str, Any]
    version: str
    place: int = 0
    star: bool = False
    retired: bool = False
    note: str = ""
    used: tuple[Use, ...] = ()

    def to_json(self) -> dict[str, Any]:
        """The record with the keys of `storybank-problem/1`."""
        return {
            "format": FORMAT,
            "version": self.version,
            "request": self.request,
            "place": self.place,
            "star": self.star,
            "retired": self.retired,
            "note": self.note,
            "used": [
                {"class": one.label, "day": one.day, "hand_out": one.mark} for one in self.used
            ],
            "problem": self.node,
        }


class BadLineError(BankError):
    """A line or row that holds no problem; the message says what is wrong with it."""


def as_lines(records: Iterable[Record]) -> Iterator[str]:
    """One line of JSON a problem."""
    for one in records:
        yield text_of(one.to_json()) + "\n"


def lines_of(stream: IO[bytes]) -> Iterator[tuple[int, bytes]]:
    """The lines of a file with their numbers, one at a time; empty ones are left out.

    A line longer than `MAX_LINE` is given cut off, one byte too long, and the rest is passed over.
    """
    number = 0
    while True:
        line = stream.readline(MAX_LINE + 1)
        if not line:
            return
        number += 1
        if len(line) > MAX_LINE and not line.endswith(b"\n"):
            while True:
                rest = stream.readline(MAX_LINE)
                if not rest or rest.endswith(b"\n"):
                    break
        if line.strip():
            yield number, line


def record_of(line: bytes) -> Record:
    """The record that a line of JSON holds. Raises BadLineError, saying what is wrong."""
    if len(line) > MAX_LINE:
        raise BadLineError(f"it has more than {MAX_LINE:,} bytes, and no problem has so many.")
    try:
        text = line.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise BadLineError(f"byte {error.start + 1} is not UTF-8 text.") from error
    try:
        node = json.loads(text)
    except RecursionError as error:
        raise BadLineError("it is nested too deeply.") from error
    except ValueError as error:
        said = getattr(error, "msg", "a number has too many digits")
        raise BadLineError(f"it is not valid JSON ({said}).") from error
    return _record(node)


def _record(node: Any) -> Record:
    if not isinstance(node, dict) or node.get("format") != FORMAT:
        raise BadLineError(f'it is no problem of a bank: its "format" must be "{FORMAT}".')
    used = node.get("used", [])
    if not isinstance(used, list) or len(used) > 10_000:
        raise BadLineError('"used" is no list of classes and days.')
    return Record(
        node=_of(node, "problem", dict),
        request=_of(node, "request", dict),
        version=_plain(_of(node, "version", str), 40),
        place=_place(node),
        star=_of(node, "star", bool, False),
        retired=_of(node, "retired", bool, False),
        note=_plain(_of(node, "note", str, ""), 500),
        used=tuple(_use(one) for one in used),
    )


def _place(node: dict[str, Any]) -> int:
    found: int = _of(node, "place", int, 0)
    if isinstance(found, bool) or not 0 <= found < 1 << 62:
        raise BadLineError('"place" is no whole number from 0 on.')
    return found


def _use(node: Any) -> Use:
    from storybank.bank._classes import checked_label
    from storybank.errors import RequestError
    from storybank.themes.seasons import day_of

    if not isinstance(node, dict):
        raise BadLineError('"used" is no list of classes and days.')
    try:
        label = checked_label(_of(node, "class", str))
        day = day_of(_of(node, "day", str)).isoformat()
    except RequestError as error:
        raise BadLineError(f'"used": {error}') from error
    mark = _of(node, "hand_out", str)
    if not mark.isalnum() or len(mark) > 40 or not mark.isascii():
        raise BadLineError('"used": "hand_out" is no mark of letters and digits.')
    return Use(label, day, mark)


def _of(node: dict[str, Any], key: str, kind: type, default: Any = None) -> Any:
    found = node.get(key, default)
    if not isinstance(found, kind):
        said = {dict: "an object", str: "a text", bool: "true or false", int: "a number"}[kind]
        raise BadLineError(f'"{key}" is missing or not {said}.')
    return found


def _plain(text: str, limit: int) -> str:
    return clean_text(text[: 4 * limit], limit)[0]


def write_table(stream: IO[str], kept: Iterable[tuple[Kept, Record]]) -> int:
    """How many rows were written: one a problem, with its record in the last column.

    A cell that a spreadsheet would run as a formula has an apostrophe in front.
    """
    writer = csv.writer(stream, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    count = 0
    for one, record in kept:
        node = record.node
        cells = (
            f"#{one.number}", one.code, "yes" if one.star else "", "yes" if one.retired else "",
            one.note, one.theme, one.scene, one.situation, one.strategy, one.vocabulary,
            " ".join(node.get("standards", ())), one.text, str(node.get("answer")),
            "; ".join(f"{use.label} {use.day}" for use in record.used), text_of(record.to_json()),
        )  # fmt: skip
        writer.writerow([harmless(cell) for cell in cells])
        count += 1
    return count


def rows_of(path: Path) -> Iterator[tuple[int, Record | BadLineError]]:
    """The records of a table with the numbers of their rows; star, retired and note as marked.

    Other columns are only to be read: what stands in them is taken from the record. Raises
    BankError for a file that is no such table.
    """
    with path.open(encoding="utf-8-sig", errors="strict", newline="") as stream:
        csv.field_size_limit(MAX_LINE)
        reader = csv.reader(stream)
        try:
            header = next(reader, [])
            if _NAME not in header:
                raise BankError(
                    f'"{path.name}" has no column "{_NAME}", in which storybank bank export puts '
                    "the whole problem. Export a table anew, mark in it, and import that one."
                )
            for number, row in enumerate(reader, start=2):
                if any(cell.strip() for cell in row):
                    yield number, _marked(dict(zip(header, row, strict=False)))
        except (csv.Error, UnicodeDecodeError) as error:
            raise BankError(
                f'"{path.name}" cannot be read as a table of UTF-8 text ({error}). Save it as '
                "CSV (UTF-8) in your spreadsheet and try again."
            ) from error


def _marked(cells: dict[str, str]) -> Record | BadLineError:
    from dataclasses import replace

    try:
        record = record_of(_bare(cells.get(_NAME, "")).encode("utf-8", "surrogatepass"))
        marks: dict[str, Any] = {
            name: _yes(cells[name], name) for name in ("star", "retired") if name in cells
        }
        if "note" in cells:
            marks["note"] = _plain(_bare(cells["note"]), 500)
        return replace(record, **marks)
    except BadLineError as error:
        return error


def _yes(cell: str, name: str) -> Any:
    plain = cell.strip().casefold()
    if plain in ("", "no", "n", "0", "false"):
        return False
    if plain in ("yes", "y", "1", "true", "x", "*"):
        return True
    raise BadLineError(f'"{name}" is "{cell[:30]}"; write yes, or leave the cell empty.')


def _bare(cell: str) -> str:
    """The cell without the apostrophe that keeps a spreadsheet from running it."""
    return cell[1:] if cell.startswith("'") and harmless(cell[1:]) == cell else cell
