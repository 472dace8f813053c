"""The bank: growing, keeping and handing out, at a size to be chosen.

STORYBANK_BENCH_PROBLEMS says how many problems are grown, 20,000 if not set; the targets are
for 1,000,000. STORYBANK_BENCH_BANK names a bank of `_bank_jobs.WISH` that is there already.
"""

import json
import os
import sqlite3
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from pathlib import Path
from statistics import median
from typing import Any

from _bank_jobs import WISH
from rounds import Row, alternate, middle_ratio

from storybank.bank import Bank
from storybank.bank._actions import begin
from storybank.bank._growing import rows_of
from storybank.bank._keeping import keep, recipe
from storybank.bank._rows import Row as Kept
from storybank.problem_set import Space, make_set

TITLE = "a bank: keeping against a table without indexes, growing, handing out"
ONE_THEME = replace(WISH, theme=("autumn-harvest",))
PROBLEMS = int(os.environ.get("STORYBANK_BENCH_PROBLEMS", "20000"))
READY = os.environ.get("STORYBANK_BENCH_BANK")
ROUNDS, BATCHES, AT_ONCE = 5, 16, 500
SETS = 300
_TABLE = "CREATE TABLE problem (id INTEGER PRIMARY KEY, " + ", ".join("abcdefghijk") + ")"
_JOBS = Path(__file__).with_name("_bank_jobs.py")


def rows() -> Iterator[Row]:
    """Ratios against a plain table, of the end to the beginning, and of two processes to one."""
    with tempfile.TemporaryDirectory() as folder:
        yield _kept(Path(folder))
        path = Path(folder) / "one.bank"
        if READY is None:
            one = _job("grow", path, PROBLEMS, 1)
            yield from _steady(one)
            two = _job("grow", Path(folder) / "two.bank", PROBLEMS, 2)
            figures = f"{_rate(one):,.0f}/s, with two {_rate(two):,.0f}/s"
            yield Row("two processes to one", figures, _rate(two) / _rate(one), at_least=1.6)
        handed = _job("hand-out", Path(READY) if READY else path, SETS, 1)
        times, draws = handed["times"], handed["draws"]
        figures = f"{SETS} sets of 24, median {1000 * median(draws):.2f} ms"
        yield Row(
            "filtered random sets drawn a second, of 500", figures, 1 / median(draws) / 500, 1.0
        )
        figures = f"median {1000 * median(times):.2f} ms, {1 / median(times):,.0f} a second"
        yield Row("the same handed out: unpacked, in order", figures, 1 / median(times) / 500)
    yield _against_sets()


def _against_sets() -> Row:
    """Problems of the numbered space with their rows, against sets made of the same wish."""

    def ours(number: int) -> None:
        rows_of(WISH, number * AT_ONCE, AT_ONCE)

    def peer(number: int) -> None:
        make_set(replace(WISH, count=AT_ONCE, seed=number))

    mine, theirs = alternate(ours, peer, ROUNDS)
    figures = f"{AT_ONCE / median(mine):,.0f} rows/s, make_set {AT_ONCE / median(theirs):,.0f}/s"
    return Row("rows of grown problems to make_set alone", figures, middle_ratio(theirs, mine))


def _kept(folder: Path) -> Row:
    """What it costs to keep finished rows, against a table that has nothing but them."""
    batches = [rows_of(ONE_THEME, at * AT_ONCE, AT_ONCE) for at in range(BATCHES)]
    request = Space(ONE_THEME).request

    def ours(number: int) -> None:
        with Bank(folder / f"ours-{number}.bank") as bank:
            for batch in batches:
                with bank.writing() as connection:
                    action = begin(connection, "grow")
                    made = recipe(connection, request, "0")
                    keep(connection, batch, bank.shelf_numbers, recipe=made, action=action)

    def peer(number: int) -> None:
        path = folder / f"peer-{number}.db"
        with closing(sqlite3.connect(path, isolation_level=None)) as connection:
            connection.execute("PRAGMA journal_mode = WAL")
            connection.execute("PRAGMA synchronous = FULL")
            connection.execute(_TABLE)
            for batch in batches:
                connection.execute("BEGIN IMMEDIATE")
                marks = ", ".join("?" * 11)
                connection.executemany(
                    f"INSERT INTO problem VALUES (NULL, {marks})", map(_plain, batch)
                )
                connection.execute("COMMIT")

    mine, theirs = alternate(ours, peer, ROUNDS)
    count = BATCHES * AT_ONCE
    figures = f"{count / median(mine):,.0f} rows/s, peer {count / median(theirs):,.0f}/s"
    return Row("keeping rows", figures, middle_ratio(theirs, mine), at_least=0.2)


def _plain(row: Kept) -> tuple[Any, ...]:
    return (
        row.digest, row.meaning, row.numbers, 1, row.luck, row.largest, row.code, 1, row.place,
        row.text, row.body,
    )  # fmt: skip


def _steady(one: dict[str, Any]) -> Iterator[Row]:
    """Whether the last tenth takes as long as the first, and how much memory and file it takes."""
    seen = one["seen"]
    tenth = max(1, len(seen) // 10)
    first = (seen[tenth][1] - seen[0][1]) / (seen[tenth][0] - seen[0][0])
    last = (seen[-1][1] - seen[-1 - tenth][1]) / (seen[-1][0] - seen[-1 - tenth][0])
    figures = f"{1 / first:,.0f}/s at first, {1 / last:,.0f}/s in the end"
    yield Row("time of the last tenth to the first", figures, last / first, at_most=1.3)
    figures = f"{one['mebibytes']:.0f} MiB; file {one['bytes'] / 1e6:,.0f} MB"
    yield Row("peak of memory, of 200 MiB", figures, one["mebibytes"] / 200, at_most=1.0)


def _rate(one: dict[str, Any]) -> float:
    return PROBLEMS / float(one["seconds"])


def _job(what: str, *numbers: object) -> dict[str, Any]:
    command = [sys.executable, str(_JOBS), what, *map(str, numbers)]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    found: dict[str, Any] = json.loads(done.stdout)
    return found
