"""Reads the bytes of a names file as lines of cells, in any encoding a spreadsheet writes."""

import codecs
import csv
import re
from pathlib import Path

from storybank.cleaning import clean_text
from storybank.errors import NamesError

MAX_BYTES = 1_000_000
_LINE_ENDS = re.compile("\r\n|[\n\r\x0b\x0c\u2028\u2029]")
_BINARY = (
    b"PK\x03\x04",
    b"\x89PNG",
    b"%PDF",
    b"\xff\xd8\xff",
    b"GIF8",
    b"\xd0\xcf\x11\xe0",
    b"{\\rtf",
)
_NOT_TEXT = (
    "{name}: this is not a text file{why}. Names are read from plain text, one a line; "
    "in a spreadsheet or word processor, save a copy as CSV (UTF-8) or as plain text."
)


def base_name(path: str | Path) -> str:
    """The last part of `path`, cleaned: all that messages and sets may say about it."""
    last = re.split(r"[\\/]", str(path).rstrip("\\/"))[-1]
    return clean_text(last, 100)[0] or "names"


def read_bytes(path: str | Path) -> bytes:
    """The bytes of the file. Raises NamesError if it is missing, no file, or unreadable."""
    name = base_name(path)
    try:
        with Path(path).open("rb") as stream:
            return stream.read(MAX_BYTES + 1)
    except IsADirectoryError as error:
        raise NamesError(
            f"{name}: this is a folder, not a file. Give the file in it: a text or CSV file "
            "with one name a line."
        ) from error
    except FileNotFoundError as error:
        raise NamesError(
            f"{name}: there is no such file. Check the spelling and the folder; names are "
            "read from a text or CSV file, one a line."
        ) from error
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "its name is not a valid file name"
        raise NamesError(
            f"{name}: the file cannot be read ({reason}). Check its name and permissions, or "
            "save a copy elsewhere; names are read from a text or CSV file, one a line."
        ) from error


def decode(data: bytes, name: str) -> tuple[str, tuple[str, ...]]:
    """The text of `data`, and a note if its encoding had to be guessed.

    UTF-8 with or without byte order mark, UTF-16 with one, else Windows-1252, which
    spreadsheets on Windows write; its five unused bytes become control characters, as
    WHATWG's Encoding Standard has it. Raises NamesError for more than 1 MB, and for data that
    is no text.
    """
    if len(data) > MAX_BYTES:
        raise NamesError(
            f"{name}: the file has more than {MAX_BYTES:,} bytes. Names are read "
            "from smaller files only; save the names alone, one a line."
        )
    if data.startswith(_BINARY):
        raise NamesError(_NOT_TEXT.format(name=name, why=""))
    notes: tuple[str, ...] = ()
    try:
        if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
            text = data.decode("utf-16")
        else:
            text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        if error.encoding.startswith("utf-16"):
            why = f" (byte {error.start} breaks its UTF-16)"
            raise NamesError(_NOT_TEXT.format(name=name, why=why)) from error
        text = "".join(_WINDOWS_1252[byte] for byte in data)
        notes = (f"{name} is not UTF-8: read as Windows-1252; check the accents.",)
    if "\0" in text:
        raise NamesError(_NOT_TEXT.format(name=name, why=" (it holds zero bytes)"))
    return text, notes


_WINDOWS_1252 = tuple(
    bytes([byte]).decode("cp1252", errors="ignore") or chr(byte) for byte in range(256)
)


def lines_of(text: str) -> list[tuple[int, str]]:
    """The lines of `text` that hold something, with their numbers."""
    numbered = enumerate(_LINE_ENDS.split(text), start=1)
    return [(number, line) for number, line in numbered if line.strip()]


def is_comment(line: str) -> bool:
    """Whether `line` is a remark: `#` and a blank, perhaps quoted by a spreadsheet.

    Without the blank it may be a number before a name, as in `#7 Ana`.
    """
    start = line.lstrip().removeprefix('"')[:2]
    return start == "#" or (start[:1] == "#" and start[1] in ' \t,;"')


def cells_of(line: str) -> tuple[str, list[str]]:
    """The separator of `line` (tab before semicolon before comma) and its trimmed cells.

    Quoted cells are read as RFC 4180 has them; in a line with an odd quote, quotes mean nothing.
    """
    separator = next((mark for mark in "\t;" if mark in line), ",")
    if line.count('"') % 2:
        row = [cell.strip(' "') for cell in line.split(separator)]
    else:
        try:
            row = next(csv.reader([line], delimiter=separator), [line])
        except csv.Error:
            row = line.split(separator)
    cells = [cell.strip() for cell in row]
    while len(cells) > 1 and not cells[-1]:
        cells.pop()
    return separator, cells
