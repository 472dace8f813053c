"""Work on a bank that is to be killed: python tests/bank/killed.py KIND MATERIAL FOLDER

It prints a line for each call that has returned: what was said to be kept.
"""

import json
import os
import pickle
import shutil
import sys
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

from storybank import Bank, ProblemSet, Request, make_set
from storybank.bank import _pieces, grow, restore
from storybank.bank._rows import identity
from storybank.errors import BankError

SETS, IN_A_SET = 24, 5
WISH = Request(theme=["winter-days"], strategy=["any"], situation=["join-result-unknown"])
GROWN = replace(WISH, seed=7)
PROBLEMS, PIECE = 150, 6
FILES = 4
COPIES = 30
BANK = "a.bank"


def ack(what: Any) -> None:
    """Says that a call has returned, and with what."""
    sys.stdout.write(f"{json.dumps(what)}\n")
    sys.stdout.flush()


def sets_of(material: Path) -> list[ProblemSet]:
    """Sets that have no problem in common."""
    with (material / "sets.pickle").open("rb") as stream:
        found: list[ProblemSet] = pickle.load(stream)
    return found


def prepare(material: Path) -> None:
    """Writes what the work needs: sets, files to import, banks to merge, the grown bank."""
    made = make_set(Request(theme=["winter-days"], strategy=["any"], count=SETS * IN_A_SET, seed=1))
    parts = [made.problems[at : at + IN_A_SET] for at in range(0, SETS * IN_A_SET, IN_A_SET)]
    sets = [replace(made, problems=part) for part in parts]
    assert len({identity(one) for one in made.problems}) == SETS * IN_A_SET
    with (material / "sets.pickle").open("wb") as stream:
        pickle.dump(sets, stream)
    for at in range(FILES):
        with Bank(material / f"part-{at}.bank") as bank:
            for made in sets[at::FILES]:
                bank.add(made)
            numbers = [f"#{one.number}" for one in bank.find()]
            bank.star(numbers[:3])
            bank.note(numbers[5], f"note {at}")
            for day in (1, 2, 3):
                bank.used("2B", numbers[day * 3 : day * 3 + 5], f"2026-09-{day + at * 3:02}")
            lines = [json.dumps(record.to_json()) for _, record in bank.records()]
        (material / f"part-{at}.jsonl").write_text("\n".join(lines))
    with Bank(material / "full.bank") as bank:
        for made in sets:
            bank.add(made)
    _pieces.PIECE = PIECE
    grow(material / "grown.bank", GROWN, PROBLEMS)


def _add(material: Path, folder: Path) -> None:
    with Bank(folder / BANK) as bank:
        for at, made in enumerate(sets_of(material)):
            bank.add(made)
            ack(at)


def _hand_out(material: Path, folder: Path) -> None:
    with Bank(folder / BANK) as bank:
        for seed in range(40):
            label = ("2B", "3C")[seed % 2]
            made = bank.hand_out(replace(WISH, situation=[], count=5, seed=seed), label)
            ack([label, [one.text for one in made.problems]])


def _import(material: Path, folder: Path) -> None:
    with Bank(folder / BANK) as bank:
        for at in range(FILES):
            bank.take_in(material / f"part-{at}.jsonl")
            ack(at)


def _merge(material: Path, folder: Path) -> None:
    with Bank(folder / BANK) as bank:
        for at in range(FILES):
            bank.merge(material / f"part-{at}.bank")
            ack(at)


def _grow(workers: int) -> Callable[[Path, Path], None]:
    def work(material: Path, folder: Path) -> None:
        _pieces.PIECE = PIECE
        last = 0

        def report(there: int, _: int) -> None:
            nonlocal last
            if there > last:
                ack(there)
                last = there

        grow(folder / BANK, GROWN, PROBLEMS, workers=workers, report=report)

    return work


def _upgrade(material: Path, folder: Path) -> None:
    for at in range(COPIES):
        Bank(folder / f"{at}.bank", create=False).close()
        ack(at)


def _restore(material: Path, folder: Path) -> None:
    """Over a sound bank and, each other time, over a damaged one."""
    for at in range(COPIES):
        if at % 2:
            shutil.copyfile(folder / BANK, folder / "damaged")
            os.truncate(folder / "damaged", 20_000)
            (folder / "damaged").replace(folder / BANK)
        restore(folder / BANK, material / f"part-{at % FILES}.bank")
        ack(at)


WORK: dict[str, Callable[[Path, Path], None]] = {
    "add": _add,
    "hand out": _hand_out,
    "import": _import,
    "merge": _merge,
    "grow, 1 worker": _grow(1),
    "grow, 2 workers": _grow(2),
    "grow, one of 2 workers killed": _grow(2),
    "grow, all but the 2 workers killed": _grow(2),
    "upgrade": _upgrade,
    "restore": _restore,
}
ACKS = {
    "add": SETS, "hand out": 40, "import": FILES, "merge": FILES, "grow, 1 worker": 25,
    "grow, 2 workers": 4, "grow, one of 2 workers killed": 4,
    "grow, all but the 2 workers killed": 4, "upgrade": COPIES, "restore": COPIES,
}  # fmt: skip
"""About how many lines each prints."""


if __name__ == "__main__":
    ack("ready")
    try:
        WORK[sys.argv[1]](Path(sys.argv[2]), Path(sys.argv[3]))
    except BankError as error:
        sys.stderr.write(f"{error}\n")
        sys.exit(3)
