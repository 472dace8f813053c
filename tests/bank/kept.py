"""What the tests of the bank share."""

import sqlite3
from contextlib import closing
from pathlib import Path

from storybank import Bank, ProblemSet, Request, make_set

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


def two_banks(tmp_path: Path) -> tuple[Path, Path]:
    """Two that share the problems of a set, each with marks, classes and problems of its own."""
    ours, theirs = tmp_path / "ours.bank", tmp_path / "theirs.bank"
    both = a_set()
    with Bank(ours) as bank:
        bank.add(both)
        codes = [one.code for one in both.problems]
        bank.note(codes[0], "ours")
        bank.star(codes[2:3])
        bank.used("2b", codes[:2], "2026-09-14")
        bank.add(a_set("measured"))
    with Bank(theirs) as bank:
        bank.add(both)
        bank.note(codes[0], "theirs")
        bank.note(codes[1], "theirs as well")
        bank.star(codes[1:2])
        bank.retire(codes[3:4])
        bank.used("2B", codes[1:3], "2026-09-15")
        bank.used("3C", codes[4:5], "2026-09-16")
        others = a_set("two steps")
        bank.add(others)
        bank.star([others.problems[0].code])
        bank.retire([others.problems[1].code])
    return ours, theirs
