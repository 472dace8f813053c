"""Reads a table of answers: a row a child, a column a problem, every fault by row and column."""

import csv
import io
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from storybank.cleaning import clean_text
from storybank.diagnosis import _files
from storybank.diagnosis._answered import Answered, left_out
from storybank.diagnosis._cells import NoNumberError, number_in
from storybank.errors import AnswersError, near
from storybank.people.class_list import NAME_LIMIT
from storybank.people.tables import base_name

MAX_CHILDREN = 2000
_SEPARATORS = ",;\t"
_SAID = 5


@dataclass(frozen=True, slots=True)
class Child:
    """A child as named in the table, and the answers given, by place in the set's items."""

    name: str
    given: dict[int, int]


@dataclass(frozen=True, slots=True)
class Table:
    """The children in the order of the table, and what there is to say about how it was read."""

    children: tuple[Child, ...]
    notes: tuple[str, ...]


def read_answers(path: Path, answered: Answered) -> Table:
    """The answers of each child to the problems of a set.

    Raises AnswersError, naming row and column as a spreadsheet counts them, for whatever is no
    table of whole numbers under the codes of the set.
    """
    name = base_name(path)
    data = _files.read(path, "table of answers", _files.MAX_TABLE)
    text, notes = _files.table_text(data, name)
    rows = _rows(text, name)
    reading = _Reading(name, answered)
    places = reading.header(rows[0][0], rows[0][1])
    children = [one for row, cells in rows[1:] if (one := reading.child(row, cells, places))]
    if not children:
        raise AnswersError(
            f'The table of answers "{name}" has a header but no child below it. Write a row a '
            "child: the name or number, then the answer to each problem."
        )
    if len(children) > MAX_CHILDREN:
        raise AnswersError(
            f'The table of answers "{name}" has {len(children):,} children, and at most '
            f"{MAX_CHILDREN:,} are read. Give one class at a time."
        )
    return Table(tuple(children), (*notes, *reading.notes(places)))


def _rows(text: str, name: str) -> list[tuple[int, list[str]]]:
    """The rows that hold something, with their numbers as a spreadsheet counts them."""
    said = text.partition("\n")[0].strip()
    first = 1
    if said.lower().startswith("sep=") and len(said) == 5:
        separator, text, first = said[4], text.partition("\n")[2], 2
    else:
        head = next((line for line in text.splitlines() if line.strip()), "")
        separator = max(_SEPARATORS, key=head.count)
    try:
        read = csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True)
        rows = [(at, row) for at, row in enumerate(read, start=first) if any(map(str.strip, row))]
    except csv.Error as error:
        raise AnswersError(
            f'The table of answers "{name}" cannot be taken apart ({error}). A quotation mark may '
            "be open: open the file in your spreadsheet and save it again as CSV (UTF-8)."
        ) from error
    if not rows:
        raise AnswersError(
            f'The table of answers "{name}" is empty. Write a header with the codes of the '
            "problems (storybank diagnose SET.json --form makes it), then a row a child."
        )
    return rows


class _Reading:
    """Reads the rows of one table, and remembers what has to be said."""

    def __init__(self, name: str, answered: Answered) -> None:
        self.name, self.answered = name, answered
        self.at = {item.code: place for place, item in enumerate(answered.items)}
        self.rows: dict[str, int] = {}
        self.words: list[str] = []

    def header(self, row: int, cells: Sequence[str]) -> dict[int, int]:
        """The place of the problem that each column is for; columns of lists are left out."""
        cleaned = [clean_text(cell, 40)[0].lstrip("'") for cell in cells]
        named = [self._code(cell) for cell in cleaned]
        known = [code for code in named[1:] if code in self.at or code in self.answered.lists]
        if not known:
            example = ",".join(one.code for one in self.answered.items[:3])
            mixed = " The code stands in the first column, where names go." if named[0] else ""
            raise AnswersError(
                f'The table of answers "{self.name}" has no code of the set '
                f'"{self.answered.name}" in row {row}.{mixed} Its first row is the header: '
                f"Child,{example} and so on, as --form makes it; or give the set these answers "
                "belong to."
            )
        places: dict[int, int] = {}
        seen: dict[str, int] = {}
        for column, (code, cell) in enumerate(zip(named, cleaned, strict=True)):
            if column == 0 or not cell:
                continue
            where = f"row {row}, column {letters(column)}"
            if code is None:
                raise self._unknown(where, cell)
            if code in seen:
                raise AnswersError(
                    f'The table of answers "{self.name}" names the problem {code} twice: in '
                    f"columns {letters(seen[code])} and {letters(column)} of row {row}. Leave one "
                    "of the columns out."
                )
            seen[code] = column
            if code in self.at:
                places[column] = self.at[code]
        self.width, self.codes = len(cells), {column: code for code, column in seen.items()}
        return places

    def _code(self, cell: str) -> str | None:
        """The code of the set that a header means; a spreadsheet takes zeros from the front."""
        code = cell.replace(" ", "").upper()
        known = {*self.at, *self.answered.lists}
        if code in known:
            return code
        if code.isdigit():
            return next((one for one in known if one.isdigit() and one.lstrip("0") == code), None)
        return None

    def _unknown(self, where: str, cell: str) -> AnswersError:
        codes = list(self.at)
        shown = ", ".join(codes[:12]) + (" and so on" if len(codes) > 12 else "")
        return AnswersError(
            f'The table of answers "{self.name}" has "{cell}" in {where}, and the set '
            f'"{self.answered.name}" has no problem of this code.{near(cell, codes)} Its codes '
            f"are {shown}. Correct the header, or leave the column out."
        )

    def child(self, row: int, cells: Sequence[str], places: dict[int, int]) -> Child | None:
        """The child of a row. Raises AnswersError for a name or answer that cannot be read."""
        name = clean_text(cells[0], NAME_LIMIT)[0].lstrip("'").strip()
        if not name:
            raise AnswersError(
                f'The table of answers "{self.name}" has answers but no name in row {row}, column '
                "A. Write the child's name or number there, or delete the row."
            )
        earlier = self.rows.setdefault(name.casefold(), row)
        if earlier != row:
            raise AnswersError(
                f'The table of answers "{self.name}" has two rows for "{name}": {earlier} and '
                f"{row}. Tell two children of one name apart (Ana B., Ana R.), or delete one row."
            )
        if len(cells) < self.width:
            raise AnswersError(
                f'The table of answers "{self.name}" has too few columns in row {row} ("{name}"): '
                f"{len(cells)}, and the header has {self.width}. Leave a cell empty, with its "
                "separator, where nothing was answered."
            )
        further = [at for at in range(self.width, len(cells)) if cells[at].strip()]
        if further:
            raise AnswersError(
                f'The table of answers "{self.name}" has "{clean_text(cells[further[0]], 40)[0]}" '
                f'in row {row} ("{name}"), column {letters(further[0])}, where the header has no '
                "code. Add the code to the header, or delete the cell."
            )
        unnamed = [at for at in range(1, self.width) if at not in self.codes and cells[at].strip()]
        if unnamed:
            raise AnswersError(
                f'The table of answers "{self.name}" has "{clean_text(cells[unnamed[0]], 40)[0]}" '
                f'in row {row} ("{name}"), column {letters(unnamed[0])}, whose header is empty. '
                "Write the code of the problem above it, or delete the column."
            )
        given: dict[int, int] = {}
        for column, place in places.items():
            try:
                number, with_word = number_in(cells[column])
            except NoNumberError as error:
                raise AnswersError(
                    f'The table of answers "{self.name}" has "{clean_text(cells[column], 40)[0]}" '
                    f'in row {row} ("{name}"), column {letters(column)} ({self.codes[column]}). '
                    f"That is {error}."
                ) from error
            if number is not None:
                given[place] = number
            if with_word:
                self.words.append(f"{letters(column)}{row} as {number}")
        return Child(name, given)

    def notes(self, places: dict[int, int]) -> list[str]:
        """What was left out, and what was read as something else."""
        said = []
        if self.answered.lists:
            said.append(left_out(self.answered))
        missing = [
            one.code for at, one in enumerate(self.answered.items) if at not in places.values()
        ]
        if missing:
            said.append(f"Problems of the set without a column in the table: {', '.join(missing)}.")
        if self.words:
            more = len(self.words) - _SAID
            shown = ", ".join(self.words[:_SAID]) + (f" and {more} more" if more > 0 else "")
            said.append(f"Cells with a word behind the number were read without it: {shown}.")
        return said


def letters(column: int) -> str:
    """The letters by which a spreadsheet calls a column; the first is A."""
    text = ""
    column += 1
    while column:
        column, rest = divmod(column - 1, 26)
        text = chr(ord("A") + rest) + text
    return text
