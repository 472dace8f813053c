"""Reads a class list: every child in it, whatever the name, and a note on every change."""

import re
import unicodedata
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from storybank.cleaning import clean_text
from storybank.errors import NamesError
from storybank.people.new_names import name_words
from storybank.people.roster import Person, Roster
from storybank.people.tables import (
    base_name,
    cells_of,
    decode,
    is_comment,
    lines_of,
    read_bytes,
)

NAME_LIMIT = 60
MAX_CHILDREN = 2000
_SAID_NAMES = 3

_PRONOUNS = {
    "he": "he", "him": "he", "his": "he",
    "she": "she", "her": "she", "hers": "she",
    "they": None, "them": None, "their": None, "theirs": None,
}  # fmt: skip
_NO_PRONOUNS = frozenset({"any", "all", "ask", "none", "it", "xe", "ze", "ey", "fae"})
_GENDERS = frozenset({"m", "f", "x", "male", "female", "boy", "girl", "b", "g"})
_HEADERS = {
    "name": "name", "names": "name", "full name": "name", "student": "name",
    "students": "name", "student name": "name", "child": "name", "children": "name",
    "pupil": "name", "class list": "name",
    "first": "first", "first name": "first", "firstname": "first", "given name": "first",
    "last": "last", "last name": "last", "lastname": "last", "surname": "last",
    "family name": "last",
    "pronoun": "pronoun", "pronouns": "pronoun",
}  # fmt: skip
_IN_BRACKETS = re.compile(r"(.*\S)\s*[(\[]\s*([^()\[\]]+?)\s*[)\]]", re.DOTALL)
_LIST_MARKS = " #-\u2013\u2014\u2022\u2023\u25e6\u25aa\u00b7*=+@>)|/\\"
_GENDER = "a gender is not read as a pronoun (write he, she or they), so the name is said again"
_NO_PRONOUN = "the pronoun is none of he, she, they, so the name is said again"
_STOPS = frozenset(".!?\u2024\u2026\u203c\u203d\u2047\u2048\u2049\u3002\uff01\uff0e\uff1f\uff61")


@dataclass
class _Notes:
    """Collects for each kind of change the names it touched, in the order of the list."""

    changes: dict[str, list[str]] = field(default_factory=dict)

    def add(self, what: str, name: str) -> None:
        self.changes.setdefault(what, []).append(name)

    def lines(self) -> list[str]:
        return [_note(what, names) for what, names in self.changes.items()]


def _note(what: str, names: list[str]) -> str:
    count = len(names)
    shown = ", ".join(
        name if len(name) <= 24 else f"{name[:23]}\u2026" for name in names[:_SAID_NAMES]
    )
    more = f" and {count - _SAID_NAMES} more" if count > _SAID_NAMES else ""
    return f"{count} {'name' if count == 1 else 'names'}: {what} ({shown}{more})."


def read_class_list(path: str | Path, data: bytes | None = None) -> Roster:
    """The children of a class list, each line one child, with notes on every change.

    A line is a name, or a name and a pronoun (he, she, they, he/him ...) with a comma,
    semicolon or tab between; a header line is optional; `Lopez, Ana` is read as `Ana Lopez`.
    No child is left out for the name's length, ending, accents, script or number of words.
    Two children of one name stay two children. A gender is never read as a pronoun. With
    `data`, `path` only gives the name to speak of. Raises NamesError for a file that is
    missing, a folder, too large or not text, or that holds no name.
    """
    name = base_name(path)
    text, encoding_notes = decode(read_bytes(path) if data is None else data, name)
    lines = [line for _, line in lines_of(text)]
    rows = [line for line in lines if not is_comment(line)]
    if len(rows) > MAX_CHILDREN:
        raise NamesError(
            f"{name}: the class list has {len(rows):,} lines. It may hold at most "
            f"{MAX_CHILDREN:,}; give one class, or one school, at a time."
        )
    notes = _Notes()
    header = _header(rows[0]) if rows else None
    children = [_child(line, header, notes) for line in (rows[1:] if header else rows)]
    people = tuple(child for child in children if child is not None)
    if not people:
        raise NamesError(
            f"{name}: the class list holds no name. Lines read: {len(lines)}, with a name: 0. "
            "Write one child a line, such as Ana or Ana,she."
        )
    said = [*encoding_notes, *notes.lines()]
    said += _left_out(len(lines) - len(rows), "beginning with #", name)
    said += _left_out(len(children) - len(people), "without a letter", name)
    return Roster(name, f"Class list {name}", people, class_list=True, notes=tuple(said))


def with_capitals(roster: Roster, is_word: Callable[[str], bool]) -> Roster:
    """The roster with a capital for each name in small letters that is a word as well (on, rose).

    Written small, nobody could tell the child from the word. A note says which names.
    """
    small = {
        one.name
        for one in roster.people
        if one.name.isascii()
        and one.name.islower()
        and (is_word(one.name) or one.name in name_words())
    }
    if not small:
        return roster
    notes = _Notes()
    for person in roster.people:
        if person.name in small:
            notes.add("written with a capital, since it is a word too", person.name)
    told = [
        replace(one, name=one.name[0].upper() + one.name[1:]) if one.name in small else one
        for one in roster.people
    ]
    return replace(roster, people=tuple(told), notes=(*roster.notes, *notes.lines()))


def _left_out(count: int, kind: str, name: str) -> list[str]:
    lines = "1 line" if count == 1 else f"{count} lines"
    return [f"{name}: left out {lines} {kind}."] if count else []


def clean_name(text: str) -> tuple[str, tuple[str, ...]]:
    """`text` as a name that can stand in a sentence, and one phrase for each change.

    Digits and sentence-ending marks are dropped, since the numerals and sentences of a story
    are counted; so are list marks at the front. Empty if no letter is left.
    """
    changes: list[str] = []
    without_digits = "".join(char for char in text if not _is_digit(char))
    if without_digits != text:
        changes.append("removed digits")
    without_stops = "".join(char for char in without_digits if char not in _STOPS)
    if without_stops != without_digits:
        changes.append("removed full stops or other sentence ends")
    clean, phrases = clean_text(without_stops, 4 * len(text) + 1)
    bare = clean.lstrip(_LIST_MARKS).rstrip(" ,;:*")
    if bare != clean:
        changes.append("removed a mark before or after the name")
    short, cut = clean_text(bare, NAME_LIMIT)
    if not any(char.isalpha() for char in short):
        return "", ()
    return short, (*changes, *phrases, *cut)


def _is_digit(char: str) -> bool:
    """Whether `char` is a numeral, but no letter-like one such as the Chinese numerals."""
    return unicodedata.category(char) in {"Nd", "No"} or "\u2160" <= char <= "\u2188"


@dataclass(frozen=True)
class _Header:
    """Where the known columns stand, and how many columns there are."""

    columns: Mapping[str, int]
    width: int


def _header(line: str) -> _Header | None:
    """What `line` says about the columns, or None if it is no header."""
    cells = cells_of(line)[1]
    columns: dict[str, int] = {}
    for place, cell in enumerate(cells):
        kind = _HEADERS.get(clean_text(cell[:80], 40)[0].casefold().rstrip(":"))
        if kind is not None:
            columns.setdefault(kind, place)
    return _Header(columns, len(cells)) if columns.keys() & {"name", "first", "last"} else None


def _child(line: str, header: _Header | None, notes: _Notes) -> Person | None:
    separator, cells = cells_of(line)
    columns = header.columns if header else {"name": 0}
    said: list[str] = []
    full = _cell(cells, columns, "name")
    if not full:
        full = f"{_cell(cells, columns, 'first')} {_cell(cells, columns, 'last')}".strip()
    written = _cell(cells, columns, "pronoun")
    rest = [cell for place, cell in enumerate(cells) if place not in columns.values() and cell]
    joins = header is None or header.width == 1
    if separator == "," and written[:1].isupper() and not _is_about_pronouns(written):
        joins, written, rest = True, "", [written, *rest]
    if not written:
        written = next((cell for cell in rest if _is_about_pronouns(cell)), "")
        rest = [cell for cell in rest if cell != written]
    if joins and rest and _wordlike(rest[0]):
        if separator == ",":
            full = f"{full}, {rest.pop(0)}"
        else:
            full = f"{full} {rest.pop(0)}"
            said.append("two columns read as one name")
    bracketed = _IN_BRACKETS.fullmatch(full)
    if bracketed and _pronoun(bracketed[2])[0]:
        full, written = bracketed[1], written or bracketed[2]
    last, comma, first = full.partition(",")
    if comma and first.strip() and last.strip():
        full = f"{first.strip()} {last.strip()}"
        said.append("read as last name, first name")
    known, pronoun = _pronoun(written)
    if written and not known:
        said.append(_GENDER if written.casefold() in _GENDERS else _NO_PRONOUN)
    if rest:
        said.append("left out what stands in further columns")
    clean, changes = clean_name(full)
    if not clean:
        return None
    for what in (*said, *changes):
        notes.add(what, clean)
    return Person(clean, pronoun)


def _cell(cells: list[str], columns: Mapping[str, int], kind: str) -> str:
    place = columns.get(kind)
    return cells[place] if place is not None and place < len(cells) else ""


def _wordlike(cell: str) -> bool:
    return any(char.isalpha() for char in cell) and not any(map(_is_digit, cell))


def _is_about_pronouns(cell: str) -> bool:
    known = _pronoun(cell)[0]
    return known or cell.casefold() in _GENDERS | _NO_PRONOUNS or "/" in cell


def _pronoun(text: str) -> tuple[bool, str | None]:
    """Whether `text` is a pronoun, and he or she, or None for they and for mixed ones."""
    plain = clean_text(text[:80], 40)[0].casefold().strip(".()[]")
    words = [word for word in re.split(r"[\s/,]+", plain) if word]
    if not words or any(word not in _PRONOUNS for word in words):
        return False, None
    kinds = {_PRONOUNS[word] for word in words}
    return True, kinds.pop() if len(kinds) == 1 else None
