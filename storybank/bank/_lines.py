"""A bank as JSON Lines, which hold all that is kept."""

import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import IO, Any

from storybank.bank._packing import text_of
from storybank.cleaning import clean_text
from storybank.errors import BankError, PackError
from storybank.finished import request_from_json

FORMAT = "storybank-problem/1"
MAX_LINE = 1 << 20
"""Bytes of a line, far more than any problem has."""
NOTE_LIMIT = 500
MOST_USES = 1_000
"""Classes of one record; a problem that more of them have had takes several."""


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
    exact: tuple[str, ...] = ()
    """Which of star, retired and note somebody has marked so in a table: they stand just so.

    Otherwise a star, a note or retiring is only added where there is none."""

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
    """One line of JSON a record."""
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
        if len(line) > MAX_LINE or line.strip():
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
    try:
        return _checked(node)
    except PackError as error:
        raise BadLineError(str(error)) from error


def _checked(node: Any) -> Record:
    if not isinstance(node, dict) or node.get("format") != FORMAT:
        raise BadLineError(f'it is no problem of a bank: its "format" must be "{FORMAT}".')
    used = node.get("used", [])
    if not isinstance(used, list) or len(used) > MOST_USES:
        raise BadLineError(f'"used" is no list of at most {MOST_USES:,} classes and days.')
    return Record(
        node=_of(node, "problem", dict),
        request=dict(request_from_json(_of(node, "request", dict), "the request")),
        version=plain(_of(node, "version", str), 40),
        place=_place(node),
        star=_of(node, "star", bool, False),
        retired=_of(node, "retired", bool, False),
        note=plain(_of(node, "note", str, ""), NOTE_LIMIT),
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
    if not is_mark(mark):
        raise BadLineError('"used": "hand_out" is no mark of letters and digits.')
    return Use(label, day, mark)


def is_mark(text: str) -> bool:
    """Whether a hand-out may be marked so, which tells it from all others in all banks."""
    return text.isascii() and text.isalnum() and len(text) <= 40


def _of(node: dict[str, Any], key: str, kind: type, default: Any = None) -> Any:
    found = node.get(key, default)
    if not isinstance(found, kind):
        said = {dict: "an object", str: "a text", bool: "true or false", int: "a number"}[kind]
        raise BadLineError(f'"{key}" is missing or not {said}.')
    return found


def plain(text: str, limit: int) -> str:
    """The text without what does not show or would steer a terminal, cut after `limit` letters."""
    return clean_text(text[: 4 * limit], limit)[0]
