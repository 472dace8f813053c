"""What the benchmarks of the bank run in processes of their own, so that memory is counted alone.

python _bank_jobs.py grow BANK PROBLEMS WORKERS     what is grown, and how fast, as JSON
python _bank_jobs.py hand-out BANK SETS SEED        seconds that sets of 24 take, as JSON
"""

import json
import resource
import sys
import time
from pathlib import Path
from typing import Any

from storybank import Request
from storybank.bank import Bank, grow

WISH = Request(strategy=("any",), within=100, seed=7)
SETS = tuple(
    Request(strategy=("any",), within=within, situation=(situation,), theme=(theme,), count=24)
    for within in (50, 100)
    for situation in ("join-change-unknown", "separate-result-unknown", "part-unknown")
    for theme in ("autumn-harvest", "kitchen-days")
)
"""Filters of four kinds: theme, situation, level of English, largest number."""


def grown(path: Path, problems: int, workers: int) -> dict[str, object]:
    """When how many problems were there, in seconds after the first, and the peak of memory."""
    seen: list[tuple[int, float]] = []

    def report(made: int, wanted: int) -> None:
        if made and (not seen or made > seen[-1][0]):
            seen.append((made, time.perf_counter()))

    started = time.perf_counter()
    grow(path, WISH, problems, workers=workers, report=report)
    ended = time.perf_counter()
    mine = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    theirs = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss
    return {
        "seconds": ended - started,
        "seen": [(made, at - started) for made, at in seen],
        "mebibytes": max(mine, theirs) / 1024,
        "bytes": path.stat().st_size,
    }


def handed_out(path: Path, sets: int, seed: int) -> dict[str, object]:
    """The seconds of each set of 24 problems for a class under four filters, in two parts.

    `draws` are those of finding the problems and reading their rows, `times` of the whole
    hand-out: the wish settled, the problems drawn, unpacked and put in order.
    """
    from storybank.bank import _filling

    times: list[float] = []
    draws: list[float] = []
    draw = _filling.draw

    def timed(*places: Any, **named: Any) -> Any:
        started = time.perf_counter()
        found = draw(*places, **named)
        draws.append(time.perf_counter() - started)
        return found

    _filling.draw = timed
    with Bank(path, create=False) as bank:
        for number in range(sets):
            wish = SETS[number % len(SETS)]
            started = time.perf_counter()
            filling = _filling.fill(
                bank.connection, bank.shelves, wish, seed + number, "2B", from_bank=True
            )
            times.append(time.perf_counter() - started)
            if len(filling.numbers) != 24:
                raise AssertionError(f"only {len(filling.numbers)} of 24 came from the bank")
    return {"times": times, "draws": draws}


if __name__ == "__main__":
    what, bank, *numbers = sys.argv[1:]
    run = {"grow": grown, "hand-out": handed_out}[what]
    print(json.dumps(run(Path(bank), *map(int, numbers))))
