"""What kills have left of a bank: nothing lost, nothing half, and it goes on."""

import json
import shutil
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from bank import killed
from bank.kept import rows
from bank.killed import BANK, COPIES, FILES, GROWN, IN_A_SET, PIECE, PROBLEMS, WORK

from storybank import Bank
from storybank.bank import _pieces, grow, restore
from storybank.bank._rows import identity
from storybank.bank._schema import CURRENT

OLD = Path(__file__).with_name("old")


@dataclass
class Found:
    """What one kind of kill has come to."""

    kills: int = 0
    acknowledged: int = 0
    lost: int = 0
    faults: list[str] = field(default_factory=list)


def judge(kind: str, material: Path, folder: Path, said: list[Any], found: Found) -> None:
    """Looks at what a kill has left, goes on with the work, and looks at that."""
    found.kills += 1
    found.acknowledged += len(said)
    path = folder / BANK
    if kind != "upgrade" and path.exists() and path.stat().st_size:
        if kind != "restore":
            _check(path, found, judging=False)
    elif kind != "upgrade" and said:
        found.lost += len(said)
    JUDGES[kind](material, folder, said, found)
    if kind != "upgrade":
        _check(path, found, judging=kind.startswith("grow"))
    left = [one.name for one in folder.iterdir() if ".backup" not in one.name]
    left = [one for one in left if ".part" not in one and ".damaged" not in one]
    expected = [f"{at}.bank" for at in range(COPIES)] if kind == "upgrade" else [BANK]
    if sorted(set(left) - {"damaged"}) != sorted(expected):
        found.faults.append(f"{kind}: left over: {left}")


def _check(path: Path, found: Found, *, judging: bool) -> None:
    with Bank(path, create=False) as bank:
        found.faults += bank.check(judging=judging).faults


def _digests(path: Path) -> set[object]:
    if not path.exists() or not path.stat().st_size:
        return set()
    return {row[0] for row in rows(path, "SELECT digest FROM problem")}


def _all_or_none(
    parts: list[set[bytes]], path: Path, said: list[Any], found: Found, what: str
) -> None:
    there = _digests(path)
    for at, part in enumerate(parts):
        if len(part & there) not in (0, len(part)):
            found.faults.append(f"{what} {at}: {len(part & there)} of {len(part)} are there")
        found.lost += at in said and not part <= there
    if not there <= set().union(*parts):
        found.faults.append(f"{what}: something else is there")


def _added(material: Path, folder: Path, said: list[Any], found: Found) -> None:
    sets = killed.sets_of(material)
    parts = [{identity(one) for one in made.problems} for made in sets]
    _all_or_none(parts, folder / BANK, said, found, "set")
    with Bank(folder / BANK) as bank:
        if len(bank.actions(99)) * IN_A_SET != bank.count():
            found.faults.append("an action without its problems")
        for made in sets:
            bank.add(made)
        if bank.count() != len(sets) * IN_A_SET:
            found.faults.append("adding did not go on")


def _handed_out(material: Path, folder: Path, said: list[Any], found: Found) -> None:
    with Bank(folder / BANK) as bank:
        history = [one for label in bank.classes() for one in bank.history(label)]
        texts = [(one.label, sorted(text for _, _, text in one.problems)) for one in history]
        found.lost += sum((label, sorted(some)) not in texts for label, some in said)
        found.faults += [f"half of {one}" for one in history if len(one.problems) != 5]
        made = [one for one in bank.actions(99) if one.what == "make"]
        if len(made) != len(history):
            found.faults.append(f"{len(made)} actions, {len(history)} hand-outs")
        for label in ("2B", "3C"):
            bank.hand_out(replace(killed.WISH, situation=[], count=5), label)
    for asked in (
        "SELECT class FROM handed GROUP BY class, meaning HAVING count(*) > 1",
        "SELECT id FROM problem WHERE action IN (SELECT id FROM action WHERE what = 'make') "
        "AND id NOT IN (SELECT problem FROM handed)",
        "SELECT id FROM action WHERE NOT finished",
    ):
        found.faults += [f"{asked}: {row}" for row in rows(folder / BANK, asked)]


def _taken_in(material: Path, folder: Path, said: list[Any], found: Found) -> None:
    _parts(material, folder, said, found)
    with Bank(folder / BANK) as bank:
        for at in range(FILES):
            bank.take_in(material / f"part-{at}.jsonl")
    _complete(material, folder, found)


def _merged(material: Path, folder: Path, said: list[Any], found: Found) -> None:
    _parts(material, folder, said, found)
    with Bank(folder / BANK) as bank:
        for at in range(FILES):
            bank.merge(material / f"part-{at}.bank")
    _complete(material, folder, found)


def _parts(material: Path, folder: Path, said: list[Any], found: Found) -> None:
    banks = [material / f"part-{at}.bank" for at in range(FILES)]
    digests: list[Any] = [_digests(one) for one in banks]
    _all_or_none(digests, folder / BANK, said, found, "part")
    if _digests(folder / BANK):
        kept = len(_digests(folder / BANK)) // len(digests[0])
        counts = [
            rows(folder / BANK, f"SELECT count(*) FROM {one}")[0][0]
            for one in ("handed", "hand_out", "problem WHERE star", "problem WHERE note <> ''")
        ]
        if counts != [11 * kept, 3 * kept, 3 * kept, kept]:
            found.faults.append(f"half of the marks or hand-outs: {counts} for {kept} parts")


def _complete(material: Path, folder: Path, found: Found) -> None:
    with Bank(folder / BANK) as bank:
        here = {json.dumps(record.to_json()) for _, record in bank.records()}
    there = [(material / f"part-{at}.jsonl").read_text().splitlines() for at in range(FILES)]
    if here != {line for lines in there for line in lines}:
        found.faults.append("going on did not bring all")


def _grown(material: Path, folder: Path, said: list[Any], found: Found) -> None:
    path, asked = folder / BANK, "SELECT place, digest FROM problem ORDER BY place"
    if path.exists() and path.stat().st_size:
        pieces = rows(path, "SELECT first, count FROM grown ORDER BY first")
        places = [place for first, count in pieces for place in range(first, first + count)]
        every = dict(rows(material / "grown.bank", asked))
        if rows(path, asked) != [(place, every[place]) for place in places]:
            found.faults.append(f"the pieces {pieces} are not what is kept")
        found.lost += max(0, max(said, default=0) - len(places))
    _pieces.PIECE = PIECE
    grow(path, GROWN, PROBLEMS)
    with Bank(path) as bank, Bank(material / "grown.bank") as unbroken:
        if bank.check(judging=False).digest != unbroken.check(judging=False).digest:
            found.faults.append("another bank than of an unbroken grow")


def _upgraded(material: Path, folder: Path, said: list[Any], found: Found) -> None:
    asked = "SELECT * FROM problem ORDER BY id"
    for at in range(COPIES):
        path, version = folder / f"{at}.bank", 1 + at % (CURRENT - 1)
        old = OLD / f"version-{version}.bank"
        copy = Path(shutil.copyfile(old, folder / "old.part"))
        before = rows(copy, asked)
        now = rows(path, "PRAGMA user_version")[0][0]
        found.lost += at in said and now != CURRENT
        with Bank(path, create=False) as bank:
            found.faults += bank.check(judging=False).faults
        backups = list(folder.glob(f"{at}.bank.backup-*"))
        for one in (path, *backups):
            if rows(one, asked) != before:
                found.faults.append(f"{one.name}: other problems than before")
        if not backups or any(rows(one, "PRAGMA user_version")[0][0] != version for one in backups):
            found.faults.append(f"{path.name}: no backup of the old version")
        if now not in (version, CURRENT):
            found.faults.append(f"{path.name}: half upgraded, to {now}")


def _restored(material: Path, folder: Path, said: list[Any], found: Found) -> None:
    path = folder / BANK
    parts = [_digests(material / f"part-{at}.bank") for at in range(FILES)]
    try:
        there = _digests(path)
    except Exception:  # The work had just put a damaged one there.
        there = set()
    at = len(said) - 1
    near = [parts[one % FILES] for one in (max(at, 0), at + 1)]
    if there not in near and not (there == set() and len(said) % 2):
        found.faults.append("neither the bank before nor the one that was restored")
        found.lost += bool(said)
    restore(path, material / "part-2.bank")
    if _digests(path) != parts[2]:
        found.faults.append("restoring did not go on")


JUDGES: dict[str, Callable[[Path, Path, list[Any], Found], None]] = {
    "add": _added, "hand out": _handed_out, "import": _taken_in, "merge": _merged,
    "upgrade": _upgraded, "restore": _restored,
    **{one: _grown for one in WORK if one.startswith("grow")},
}  # fmt: skip
