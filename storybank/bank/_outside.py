"""Whether the texts of somebody else's bank are such as Storybank writes."""

import sqlite3
from pathlib import Path

from storybank.bank._classes import checked_label
from storybank.bank._lines import NOTE_LIMIT, is_mark, plain
from storybank.cleaning import clean_text
from storybank.errors import BankError, RequestError
from storybank.themes.seasons import day_of


def check_texts(connection: sqlite3.Connection, other: Path) -> None:
    """Raises BankError for what Storybank never writes beside the problems, such as long labels.

    Somebody could have put children's names or commands for a terminal there.
    """
    for kind, asked, holds in (
        ("the label of a class", "SELECT label FROM class", _is_label),
        ("a note", "SELECT note FROM problem WHERE note <> ''", _is_note),
        ("a day", "SELECT DISTINCT day FROM hand_out", _is_day),
        ("the mark of a hand-out", "SELECT mark FROM hand_out", is_mark),
    ):
        for (text,) in connection.execute(asked):
            if not isinstance(text, str) or not holds(text):
                said = clean_text(str(text)[:160], 40)[0]
                raise BankError(
                    f'The bank "{other}" was not written by Storybank alone: {kind} is "{said}". '
                    "Nothing was merged. Ask for a file of JSON Lines (bank export) instead."
                )


def _is_label(text: str) -> bool:
    try:
        return checked_label(text) == text
    except RequestError:
        return False


def _is_note(text: str) -> bool:
    return plain(text, NOTE_LIMIT) == text


def _is_day(text: str) -> bool:
    try:
        return day_of(text).isoformat() == text
    except RequestError:
        return False
