"""What the tests of the bank share."""

import sqlite3
from contextlib import closing
from pathlib import Path

from storybank import ProblemSet, Request, make_set

KINDS = {
    "one step": Request(strategy=["any"], count=8, seed=31),
    "plain English": Request(strategy=["any"], count=8, seed=32, vocabulary="level-1"),
    "both parts": Request(situation=["both-parts-unknown"], count=3, within=20, seed=33),
    "measured": Request(units=["any"], count=8, seed=34),
    "two steps": Request(steps=2, count=6, seed=35),
    "three addends": Request(addends=3, count=6, seed=36),
    "four addends": Request(addends=4, count=4, within=100, seed=37),
    "number sets": Request(number_sets=[20, 100], count=4, seed=38, strategy=["any"]),
    "an extra number": Request(extra_number=True, count=6, seed=39),
    "a missing number": Request(missing=True, count=6, seed=40),
    "fact families": Request(fact_families=True, count=8, within=20, seed=41),
    "side by side": Request(levels_side_by_side=True, count=4, seed=42),
    "named numbers": Request(pair=["46 + 38", "82 - 47"], count=6, seed=43),
    "switched": Request(vocabulary="level-2", allow=["past"], count=6, seed=44),
}


def a_set(kind: str = "one step") -> ProblemSet:
    """A set of that kind, made anew."""
    return make_set(KINDS[kind])


def rows(path: Path, asked: str) -> list[tuple[object, ...]]:
    """What the file itself holds, read with the standard library and nothing of ours."""
    with closing(sqlite3.connect(path)) as connection:
        return connection.execute(asked).fetchall()
