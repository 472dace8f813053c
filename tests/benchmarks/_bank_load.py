"""Many programs at one bank at once, for as long as is asked; run by hand.

    python tests/benchmarks/_bank_load.py shared BANK SECONDS      two writers and four readers
    python tests/benchmarks/_bank_load.py district BANK SECONDS    eight that hand out and keep sets

Prints what was done, the longest wait, and whether all that was acknowledged is there, once.
"""

import json
import subprocess
import sys
import time
from pathlib import Path
from statistics import median
from typing import Any

from storybank import Bank, Request, make_set
from storybank.bank import Wanted
from storybank.bank._rows import identity

LEVELS = ("level-1", "level-2", "level-3", "level-4")
PARTS = {"shared": ("writer",) * 2 + ("reader",) * 4, "district": ("school",) * 8}
CLASSES = 25
"""Classes of one school; each hands out to one that all schools share, too."""
WORDS = ("apples", "box", "leaves", '"in the"', "book")


def main(what: str, path: Path, seconds: float) -> int:
    """Starts the programs, waits for them, and tells what they did; 1 if anything is wrong."""
    before = time.monotonic()
    processes = [
        subprocess.Popen(
            [sys.executable, __file__, part, str(path), str(seconds), str(at)],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
        )
        for at, part in enumerate(PARTS[what])
    ]
    done = [one.communicate() for one in processes]
    print(f"{what}: {len(processes)} programs, {time.monotonic() - before:.0f} s")
    errors = [said for _, said in done if said.strip()]
    found = [json.loads(out) for out, _ in done if out.strip()]
    for part in dict.fromkeys(PARTS[what]):
        _tell(part, [one for one in found if one["part"] == part], seconds)
    lost, twice = _verified(path, found)
    print(f"  errors shown {len(errors)}, lost {lost}, given or kept twice {twice}")
    for said in errors:
        print(said, file=sys.stderr)
    return int(bool(errors or lost or twice or len(found) < len(processes)))


def _tell(part: str, found: list[dict[str, Any]], seconds: float) -> None:
    waits = [wait for one in found for wait in one["waits"]]
    problems = sum(len(one["kept"]) for one in found)
    if waits:
        print(
            f"  {len(found)} x {part}: {len(waits):,} calls, {len(waits) / seconds:,.0f}/s, "
            f"median {1000 * median(waits):.1f} ms, longest {1000 * max(waits):,.0f} ms"
            + (f", {problems:,} problems" if problems else "")
        )


def _verified(path: Path, found: list[dict[str, Any]]) -> tuple[int, int]:
    """How many acknowledged problems are lost, and how many are there or were given twice."""
    with Bank(path, create=False) as bank:
        asked = bank.connection.execute
        there = {row[0].hex() for row in asked("SELECT digest FROM problem")}
        lost = sum(digest not in there for one in found for digest in one["kept"])
        for one in found:
            for label, count in one["given"].items():
                (recorded,) = asked(
                    "SELECT count(*) FROM handed JOIN hand_out ON hand_out.id = handed.hand_out "
                    "JOIN class ON class.id = handed.class WHERE class.label = ? AND "
                    "hand_out.day = ?",
                    (label, one["day"]),
                ).fetchone()
                lost += recorded < count
        (twice,) = asked(
            "SELECT count(*) FROM (SELECT 1 FROM handed GROUP BY class, meaning "
            "HAVING count(*) > 1)"
        ).fetchone()
        (doubled,) = asked(
            "SELECT count(*) FROM (SELECT 1 FROM problem GROUP BY digest HAVING count(*) > 1)"
        ).fetchone()
    return lost, twice + doubled


def work(part: str, path: Path, seconds: float, at: int) -> dict[str, Any]:
    """What one program does until its time is over: how long each call took, what was kept."""
    done: dict[str, Any] = {"part": part, "waits": [], "kept": [], "given": {}, "day": _day(at)}
    turn = {"writer": _write, "reader": _read, "school": _serve}[part]
    end = time.monotonic() + seconds
    number = 0
    with Bank(path) as bank:
        while time.monotonic() < end:
            turn(bank, at, number, done)
            number += 1
    return done


def _day(at: int) -> str:
    return f"2026-09-{at + 1:02}"


def _timed(done: dict[str, Any], call: Any) -> Any:
    started = time.monotonic()
    found = call()
    done["waits"].append(time.monotonic() - started)
    return found


def _write(bank: Bank, at: int, number: int, done: dict[str, Any]) -> None:
    seed = 1_000_000 * (at + 1) + number
    made = make_set(Request(strategy=["any"], count=12, seed=seed, vocabulary=LEVELS[number % 4]))
    _timed(done, lambda: bank.add(made))
    done["kept"] += [identity(one).hex() for one in made.problems]


def _read(bank: Bank, at: int, number: int, done: dict[str, Any]) -> None:
    wanted = Wanted(words=WORDS[number % len(WORDS)], within=50, vocabulary=[LEVELS[at % 4]])
    if number % 3 == 0:
        _timed(done, lambda: bank.count(wanted))
    else:
        _timed(done, lambda: [one.problem() for one in bank.find(wanted, most=24)])


def _serve(bank: Bank, at: int, number: int, done: dict[str, Any]) -> None:
    label = "shared" if number % 10 == 9 else f"{at}-{number % CLASSES}"
    wish = Request(
        strategy=["any"], count=12, within=(50, 100)[number % 2], seed=1_000_000 * at + number
    )
    made = _timed(done, lambda: bank.hand_out(wish, label, day=_day(at), from_bank=number % 8 != 7))
    done["kept"] += [identity(one).hex() for one in made.problems]
    if label != "shared":
        done["given"][label] = done["given"].get(label, 0) + len(made.problems)


if __name__ == "__main__":
    what, bank, seconds, *at = sys.argv[1:]
    if at:
        print(json.dumps(work(what, Path(bank), float(seconds), int(at[0]))))
    else:
        sys.exit(main(what, Path(bank), float(seconds)))
