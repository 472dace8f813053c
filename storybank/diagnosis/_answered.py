"""Reads a set that was made before: what its problems ask, and their answers to watch for."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from storybank import mistakes
from storybank.cleaning import clean_text
from storybank.diagnosis import _files
from storybank.errors import AnswersError
from storybank.model import SET_FORMAT
from storybank.people.tables import base_name

MAX_BYTES = 50_000_000
MAX_PROBLEMS = 2000
LARGEST = 999_999
_CODE_LETTERS = 12
_TOLD_LETTERS, _SAID_LETTERS = 300, 500


@dataclass(frozen=True, slots=True)
class Watched:
    """A wrong answer's mistakes, the most specific first, and what is said about it."""

    mistakes: tuple[str, ...]
    says: str


@dataclass(frozen=True, slots=True)
class Item:
    """One problem as far as its answers matter; `told` is its equation, or else its question."""

    number: int
    code: str
    told: str
    answer: int
    watched: Mapping[int, Watched]
    strategy: str | None
    situation: str | None


@dataclass(frozen=True, slots=True)
class Answered:
    """A set: its problems with one number as answer, and the codes of all others."""

    name: str
    items: tuple[Item, ...]
    lists: tuple[str, ...]
    within: int


def read_set(path: Path) -> Answered:
    """The problems of a set in the format `storybank-set/1`.

    Problems whose answer is a list are left out and named in `lists`. Raises AnswersError for
    any other file, saying where it fails.
    """
    name = base_name(path)
    value = _json(_files.read(path, "set of problems", MAX_BYTES), name)
    if not isinstance(value, dict) or value.get("format") != SET_FORMAT:
        said = value.get("format") if isinstance(value, dict) else None
        what = f'its "format" is {_shown(said)}' if said is not None else 'it has no "format"'
        raise AnswersError(
            f'The file "{name}" is no set of problems: {what}, and "{SET_FORMAT}" is wanted. Give '
            "the set.json that storybank make wrote (--format json)."
        )
    problems = value.get("problems")
    if not isinstance(problems, list) or not 0 < len(problems) <= MAX_PROBLEMS:
        count = f"{len(problems):,} problems" if isinstance(problems, list) else "no list of them"
        raise AnswersError(
            f'The set "{name}" holds {count} under "problems", and 1 to {MAX_PROBLEMS:,} are '
            "wanted. Give a set.json as storybank make wrote it."
        )
    items: list[Item] = []
    lists: list[str] = []
    codes: dict[str, int] = {}
    for number, problem in enumerate(problems, start=1):
        fault = _Fault(name, number)
        if not isinstance(problem, dict):
            raise fault("it", problem, "an object")
        code = _code(problem.get("code"), fault)
        if code in codes:
            raise fault("code", code, f"a code that problem {codes[code]} does not have")
        codes[code] = number
        if isinstance(problem.get("answer"), list):
            lists.append(code)
        else:
            items.append(_item(number, code, problem, fault))
    if not items:
        raise AnswersError(
            f'The set "{name}" asks in all of its {len(problems)} problems for all pairs, so no '
            "answer is one number and none can be looked into. Give a set with other situations."
        )
    request = value.get("request")
    within = request.get("within") if isinstance(request, dict) else None
    known = isinstance(within, int) and 5 <= within <= 1000
    return Answered(name, tuple(items), tuple(lists), within if known and within else 100)


def left_out(answered: Answered) -> str:
    """A sentence about the problems whose answer is no single number."""
    codes = ", ".join(answered.lists)
    return f"Left out, since all pairs are asked for and not one number: {codes}."


class _Fault:
    """Makes the error about one problem of a set."""

    def __init__(self, name: str, number: int) -> None:
        self.name, self.number = name, number

    def __call__(self, key: str, value: object, wanted: str) -> AnswersError:
        return AnswersError(
            f'The set "{self.name}" was changed or is damaged: in problem {self.number} "{key}" is '
            f"{_shown(value)}, and {wanted} is wanted. Give the set.json as storybank make wrote "
            "it."
        )


def _json(data: bytes, name: str) -> Any:
    try:
        return json.loads(data.decode("utf-8-sig"), parse_constant=_refuse)
    except (ValueError, RecursionError) as error:
        where = f" (line {error.lineno})" if isinstance(error, json.JSONDecodeError) else ""
        raise AnswersError(
            f'The file "{name}" is no JSON text{where}, so it is no set of problems. Give the '
            "set.json that storybank make wrote (--format json), then the table of answers."
        ) from error


def _refuse(text: str) -> None:
    raise ValueError(f"{text} is no JSON")


def _item(number: int, code: str, problem: Mapping[str, Any], fault: _Fault) -> Item:
    answer = _number("answer", problem.get("answer"), fault)
    entries = problem.get("watch_for")
    if not isinstance(entries, list):
        raise fault("watch_for", entries, "a list")
    watched: dict[int, Watched] = {}
    for entry in entries:
        if not isinstance(entry, dict):
            raise fault("watch_for", entry, "a list of objects")
        wrong = _number("answer to watch for", entry.get("answer"), fault)
        names = entry.get("mistakes")
        if not isinstance(names, list) or not names or not all(isinstance(n, str) for n in names):
            raise fault("mistakes", names, "a list of mistakes")
        unknown = [one for one in names if one not in mistakes.ids()]
        if unknown:
            raise fault("mistakes", unknown[0], f"one of {', '.join(mistakes.ids())}")
        if wrong == answer or wrong in watched:
            raise fault("answer to watch for", wrong, "another wrong answer than the others")
        watched[wrong] = Watched(tuple(dict.fromkeys(names)), _text(entry.get("says")))
    return Item(
        number=number,
        code=code,
        told=_told(problem),
        answer=answer,
        watched=watched,
        strategy=_text(problem.get("strategy")) or None,
        situation=_text(problem.get("situation")) or None,
    )


def _told(problem: Mapping[str, Any]) -> str:
    equations = problem.get("equations")
    equation = equations.get("situation") if isinstance(equations, dict) else None
    text = clean_text(equation or _text(problem.get("question")), _TOLD_LETTERS)[0]
    return text or "a problem"


def _text(value: object) -> str:
    return clean_text(value, _SAID_LETTERS)[0] if isinstance(value, str) else ""


def _code(value: object, fault: _Fault) -> str:
    if not isinstance(value, str) or not 0 < len(value) <= _CODE_LETTERS or not value.isalnum():
        raise fault("code", value, f"a code of 1 to {_CODE_LETTERS} letters and digits")
    return value.upper()


def _number(key: str, value: object, fault: _Fault) -> int:
    if not isinstance(value, int) or isinstance(value, bool) or not 0 <= value <= LARGEST:
        raise fault(key, value, f"a whole number from 0 to {LARGEST:,}")
    return value


def _shown(value: object) -> str:
    if value is None:
        return "missing"
    try:
        text = json.dumps(value, ensure_ascii=False)
    except RecursionError:
        text = "a deep heap of lists"
    return clean_text(text, 60)[0]
