"""Sets to be answered and tables of invented children, for the tests of diagnosis."""

import json
from collections.abc import Callable, Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import Any

from storybank.diagnosis._answered import Answered, Item
from storybank.problem_set import make_set
from storybank.request import Request


@cache
def set_text(seed: int = 5, count: int = 16, diagnose: bool = True) -> str:
    """A set for diagnosis as JSON."""
    wish = Request(strategy=["tens-then-ones"], count=count, seed=seed, diagnose=diagnose)
    return json.dumps(make_set(wish).to_json())


@cache
def mixed_text() -> str:
    """A small set of which some problems ask for all pairs."""
    told = ["join-result-unknown", "both-parts-unknown"]
    return json.dumps(make_set(Request(situation=told, count=4, seed=2)).to_json())


def changed(text: str, change: Callable[[dict[str, Any]], object]) -> str:
    """The set with something changed in place."""
    value = json.loads(text)
    change(value)
    return json.dumps(value)


def written(folder: Path, text: str, name: str = "set.json") -> Path:
    """The path of a file with that text."""
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def row(items: Sequence[Item], name: str, wrong: Mapping[int, object] | None = None) -> list[str]:
    """A row of the table: right answers, but for those in `wrong`, by place."""
    changed = wrong or {}
    return [name, *(str(changed.get(at, item.answer)) for at, item in enumerate(items))]


def made(items: Sequence[Item], mistake: str, most: int = 99) -> dict[int, int]:
    """The answers of one who makes the mistake at the first `most` chances, by place."""
    found = {
        at: wrong
        for at, item in enumerate(items)
        for wrong, watched in item.watched.items()
        if mistake in watched.mistakes
    }
    return dict(list(found.items())[:most])


def table(answered: Answered, rows: Sequence[Sequence[str]], separator: str = ",") -> str:
    """The table as CSV with its header."""
    header = ["Child", *(item.code for item in answered.items)]
    return "".join(f"{separator.join(one)}\n" for one in (header, *rows))
