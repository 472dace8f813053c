"""The bytes and the text of the two files that are read: a set and a table of answers."""

from pathlib import Path

from storybank.errors import AnswersError, NamesError
from storybank.people import tables

MAX_TABLE = tables.MAX_BYTES
_KINDS = (
    (b"PK\x03\x04", "an Excel workbook or another packed file, whatever its name says"),
    (b"\xd0\xcf\x11\xe0", "an old Excel workbook, whatever its name says"),
    (b"%PDF", "a PDF"),
    (b"\x89PNG", "a picture"),
    (b"\xff\xd8\xff", "a picture"),
    (b"{\\rtf", "a text with formats (RTF)"),
)


def read(path: Path, what: str, most: int) -> bytes:
    """The bytes of a file called `what` in messages, of at most `most` bytes.

    Raises AnswersError if it is missing, no file, unreadable or larger.
    """
    name = tables.base_name(path)
    try:
        with path.open("rb") as stream:
            data = stream.read(most + 1)
    except FileNotFoundError as error:
        raise AnswersError(
            f'There is no {what} "{name}". Check the spelling and the folder.'
        ) from error
    except IsADirectoryError as error:
        raise AnswersError(
            f'"{name}" is a folder, and a {what} is wanted. Give the file in it.'
        ) from error
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "its name is not a valid file name"
        raise AnswersError(
            f'The {what} "{name}" cannot be read ({reason}). Check its name and permissions, or '
            "save a copy elsewhere."
        ) from error
    if len(data) > most:
        raise AnswersError(
            f'The {what} "{name}" has more than {most:,} bytes, the most that is read. Give the '
            "answers of one class to one set."
        )
    return data


def table_text(data: bytes, name: str) -> tuple[str, tuple[str, ...]]:
    """The text of a table, and a note if its encoding had to be guessed.

    Raises AnswersError for what is no text.
    """
    kind = next((said for start, said in _KINDS if data.startswith(start)), None)
    try:
        if kind is None:
            return tables.decode(data, name)
    except NamesError as error:
        kind = "no text"
        raise _no_table(name, kind) from error
    raise _no_table(name, kind)


def _no_table(name: str, kind: str) -> AnswersError:
    return AnswersError(
        f'The table of answers "{name}" is {kind}, and answers are read from a CSV file. Open it '
        "in your spreadsheet, choose Save As, CSV (UTF-8), and give that file."
    )
