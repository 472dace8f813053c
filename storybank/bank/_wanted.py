"""What is looked for in a bank, and the part of a question to the database that says so."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from storybank import situations, strategies, themes, vocabulary
from storybank.bank import _file
from storybank.errors import RequestError, unknown_value

_WORD = re.compile(r"[^\W_]+(?:['\u2019-][^\W_]+)*")
_CODE = re.compile(r"[A-Z0-9]{5}")


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is looked for: all that is said must hold, and of several values one.

    `words` are looked for in the text, in any order and form ("apple" finds apples); words in
    quotation marks must follow one another. `within` is the largest number, `had_by` a class that
    has had the problem, `new_to` one that has not had it or one like it. Retired problems are found
    only with `retired`. `like` is a code or number: problems of the same meaning.
    """

    theme: Sequence[str] = ()
    scene: Sequence[str] = ()
    situation: Sequence[str] = ()
    strategy: Sequence[str] = ()
    vocabulary: Sequence[str] = ()
    standard: Sequence[str] = ()
    season: Sequence[str] = ()
    within: int | None = None
    words: str = ""
    starred: bool = False
    noted: bool = False
    retired: bool = False
    had_by: str | None = None
    new_to: str | None = None
    code: Sequence[str] = ()
    like: str | None = None


def question(wanted: Wanted) -> tuple[str, list[Any]]:
    """The conditions that a problem meets, and their values; table names problem and shelf.

    Raises RequestError for a value that nothing can have.
    """
    parts, values = shelf_conditions(wanted)
    if parts:
        parts = [f"problem.shelf IN (SELECT id FROM shelf WHERE {' AND '.join(parts)})"]
    if not wanted.retired:
        parts.append("NOT problem.retired")
    if wanted.within is not None:
        parts.append("problem.largest <= ?")
        values.append(_file.bounded(wanted.within))
    if wanted.words.strip():
        parts.append("problem.id IN (SELECT rowid FROM words WHERE words MATCH ?)")
        values.append(matching(wanted.words))
    if wanted.starred:
        parts.append("problem.star")
    if wanted.noted:
        parts.append("problem.note <> ''")
    if wanted.had_by is not None:
        parts.append(_of_class("EXISTS", "handed.problem = problem.id"))
        values.append(wanted.had_by)
    if wanted.new_to is not None:
        parts.append(_of_class("NOT EXISTS", "handed.meaning = problem.meaning"))
        values.append(wanted.new_to)
    if wanted.code:
        named = [reference(one) for one in wanted.code]
        parts.append(f"({' OR '.join(column for column, _ in named)})")
        values += [value for _, value in named]
    if wanted.like is not None:
        column, value = reference(wanted.like)
        parts.append(f"problem.meaning IN (SELECT meaning FROM problem WHERE {column})")
        values.append(value)
    return " AND ".join(parts) or "1", values


def reference(text: str) -> tuple[str, Any]:
    """The condition for a problem named by its number in the bank (#17) or its code (623QF).

    Raises RequestError for anything else.
    """
    plain = text.strip().upper()
    if re.fullmatch(r"#[0-9]{1,18}", plain):
        return "problem.id = ?", int(plain[1:])
    if _CODE.fullmatch(plain):
        return "problem.code = ?", plain
    raise RequestError(
        f'"{text[:40]}" is neither a code nor a number of a problem. Write the code that stands '
        "on the page, such as 623QF, or the number that bank find gives, such as #17."
    )


def shelf_conditions(wanted: Wanted) -> tuple[list[str], list[Any]]:
    """The conditions that concern the shelf of a problem, and their values."""
    parts: list[str] = []
    values: list[Any] = []
    for column, some in (
        ("theme", wanted.theme),
        ("scene", wanted.scene),
        ("vocabulary", wanted.vocabulary),
        ("season", wanted.season),
    ):
        if some:
            parts.append(f"{column} IN ({', '.join('?' for _ in some)})")
            values += some
    for column, some, mark in (
        ("situation", wanted.situation, "/"),
        ("strategy", wanted.strategy, "/"),
        ("standards", wanted.standard, ""),
    ):
        if some:
            either = " OR ".join(f"instr('{mark}' || {column} || '{mark}', ?)" for _ in some)
            parts.append(f"({either})")
            values += [f"{mark or ' '}{one}{mark or ' '}" for one in some]
    return parts, values


def check(wanted: Wanted, known: "Known") -> None:
    """Nothing, if each value is one of ours or stands in the bank.

    Raises RequestError, naming the valid ones, for a value that nothing can have.
    """
    for kind, some, valid in (
        ("theme", wanted.theme, (*themes.ids(), *known.themes)),
        ("situation", wanted.situation, situations.ids()),
        ("strategy", wanted.strategy, strategies.ids()),
        ("vocabulary", wanted.vocabulary, (*vocabulary.ids(), *known.vocabularies)),
        ("scene", wanted.scene, known.scenes),
        ("season", wanted.season, (*dict.fromkeys(one.season for one in themes.headers()),)),
        ("standard", wanted.standard, known.standards),
    ):
        choices = sorted(set(valid))
        for one in some:
            if one not in choices:
                raise RequestError(
                    unknown_value(kind, one[:60], choices or ["(none in this bank)"])
                )


@dataclass(frozen=True, slots=True)
class Known:
    """What stands in the bank, as far as others than Storybank's own may."""

    themes: tuple[str, ...]
    scenes: tuple[str, ...]
    vocabularies: tuple[str, ...]
    standards: tuple[str, ...]


def matching(words: str) -> str:
    """The words as the full-text search takes them: each quoted, so that none is an operator.

    Raises RequestError where no word is among them.
    """
    terms = []
    for at, piece in enumerate(words.split('"')):
        found: Iterable[str] = _WORD.findall(piece)
        terms += [" ".join(found)] if at % 2 else list(found)
    quoted = [f'"{one}"' for one in terms if one]
    if not quoted:
        raise RequestError(
            f'No word is in "{words[:60]}". Write words that stand in the story, such as apples.'
        )
    return " ".join(quoted)


def _of_class(exists: str, same: str) -> str:
    return (
        f"{exists} (SELECT 1 FROM handed JOIN class ON class.id = handed.class "
        f"WHERE class.label = ? AND {same})"
    )
