"""A finished problem as a row of the bank: what it is found by, and what tells it from others."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from hashlib import blake2b
from typing import Any

from storybank import themes
from storybank.bank import _packing
from storybank.model import Problem
from storybank.model.measures import kind_of
from storybank.vocabulary.measures import with_plain_names

_PRONOUN = re.compile(r"\b(?:he|she)\b", re.IGNORECASE)
_NUMERAL = re.compile("[0-9]+")
_TERMS = (
    "allow", "forbid", "without", "keywords", "diagnose", "home_language", "translations",
    "standards", "number_sets", "extra_number", "missing", "levels_side_by_side",
    "fact_families",
)  # fmt: skip
"""What a request says about each of its problems beyond what stands in the problem itself."""
_OPEN: tuple[object, ...] = ("", None, False, [], "mixed")


@dataclass(frozen=True, slots=True)
class Shelf:
    """What problems are grouped by: those of one shelf are told of one scene in one way.

    Of two steps `situation` and `strategy` hold both, with a slash between. `standards` are codes
    with blanks between and around, `terms` JSON of what was asked beyond the problem itself.
    """

    theme: str
    scene: str
    situation: str
    strategy: str
    vocabulary: str
    standards: str
    season: str
    terms: str


@dataclass(frozen=True, slots=True)
class Row:
    """One problem as the bank keeps it.

    `digest` tells it from every other one, `meaning` from those of other numbers, situations or
    scenes whatever the names and the telling; `numbers` stands for its numbers alone. `largest` is
    the largest of them, `reach` the largest that it or its solutions come to.
    """

    shelf: Shelf
    digest: bytes
    meaning: int
    numbers: int
    luck: int
    largest: int
    reach: int
    code: str
    place: int
    text: str
    body: bytes


def row_of(problem: Problem, terms: str, place: int) -> Row:
    """The row of a problem that was made under `terms` as the set's problem `place`."""
    node = problem.to_json()
    numbers = "/".join(
        ",".join(map(str, (situation, *sorted(values)))) for situation, values in _worked(problem)
    )
    amounts = "/".join(",".join(map(str, sorted(values))) for _, values in _worked(problem))
    digest = identity(problem)
    return Row(
        shelf=shelf_of(problem, terms),
        digest=digest,
        meaning=_signed(f"{problem.theme}/{problem.scene}/{numbers}"),
        numbers=_signed(amounts),
        luck=int.from_bytes(digest[:4], "big"),
        largest=max(_amounts(problem)),
        reach=max((*_amounts(problem), *_worked_with(problem))),
        code=problem.code,
        place=place,
        text=problem.text,
        body=_packing.packed(node),
    )


def identity(problem: Problem) -> bytes:
    """What tells a problem from every other: all but the names, and the pronouns with them."""
    story = problem.story
    told = _PRONOUN.sub("he", with_plain_names((problem.text,), story.people)[0])
    parts = (
        problem.theme,
        problem.scene,
        story.telling,
        "/".join(situation for situation, _ in _worked(problem)),
        _strategies(problem),
        problem.vocabulary,
        ",".join(f"{role}={number}" for role, number in sorted(problem.numbers.items())),
        ";".join(f"{one.limit}:{one.given}" for one in problem.number_sets),
        ",".join(one.vocabulary for one in problem.levels),
        told,
    )
    return blake2b("\0".join(parts).encode(), digest_size=16).digest()


def shelf_of(problem: Problem, terms: str) -> Shelf:
    """The shelf on which a problem stands."""
    return Shelf(
        theme=problem.theme,
        scene=problem.scene,
        situation="/".join(situation for situation, _ in _worked(problem)),
        strategy=_strategies(problem),
        vocabulary=problem.vocabulary,
        standards=f" {' '.join(problem.standards)} ",
        season=_season(problem.theme),
        terms=_with_kind(terms, problem),
    )


def terms_of(request: Mapping[str, Any]) -> str:
    """What a request says about each of its problems, as JSON; only what it asks for."""
    found = {key: request[key] for key in _TERMS if request.get(key) not in _OPEN}
    if request.get("pair"):
        # A teacher's own numbers need not be such as the strategy is for.
        found["pair"] = True
    return _packing.text_of(found)


@lru_cache(maxsize=4096)
def _kind_terms(terms: str, kind: str) -> str:
    import json

    return _packing.text_of({**json.loads(terms), "kind": kind})


def _with_kind(terms: str, problem: Problem) -> str:
    kind = kind_of_problem(problem)
    return _kind_terms(terms, kind) if kind else terms


def kind_of_problem(problem: Problem) -> str:
    """What kind of problem it is beyond one step with things to count; "" for that."""
    if problem.steps:
        return "two steps"
    if "part3" in problem.numbers:
        return f"{len(problem.numbers) - 1} addends"
    return kind_of(problem.story.unit) or ""


def _worked(problem: Problem) -> tuple[tuple[str, tuple[int, ...]], ...]:
    """The situation and the numbers of each step."""
    if problem.steps:
        return tuple((one.situation, tuple(one.numbers.values())) for one in problem.steps)
    return ((problem.situation, tuple(problem.numbers.values())),)


def _amounts(problem: Problem) -> tuple[int, ...]:
    sets = (number for one in problem.number_sets for number in one.numbers.values())
    extra = (one.number for one in problem.extra)
    return (*(number for _, some in _worked(problem) for number in some), *sets, *extra)


def _worked_with(problem: Problem) -> Iterator[int]:
    """The numbers that the solutions come to, by jumps or in their lines."""
    solutions = [problem.solution, *(one.solution for one in problem.steps)]
    solutions += [one.solution for one in problem.number_sets]
    if problem.second_way is not None:
        solutions.append(problem.second_way.solution)
    for solution in solutions:
        yield from (jump.to for jump in solution.jumps)
        for line in solution.lines:
            yield from map(int, _NUMERAL.findall(line))


def _strategies(problem: Problem) -> str:
    if problem.steps:
        return "/".join(one.strategy for one in problem.steps)
    return problem.strategy or ""


@lru_cache(maxsize=1024)
def _season(theme: str) -> str:
    return next((one.season for one in themes.headers() if one.id == theme), "")


def _signed(text: str) -> int:
    """A number of 64 bits, as the database keeps them, that depends on the text alone."""
    return int.from_bytes(blake2b(text.encode(), digest_size=8).digest(), "big", signed=True)
