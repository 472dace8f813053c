"""A disk without room: what was kept is safe, and nothing half is written."""

import json
import shutil
from collections.abc import Callable
from contextlib import AbstractContextManager
from dataclasses import replace
from pathlib import Path

import pytest
from bank.disks import copy_of, files_up_to, full_but, run, small_disk
from bank.kept import rows
from bank.killed import GROWN, WISH

from storybank import Bank, ProblemSet, StorybankError, make_set
from storybank.bank import _pieces, grow, restore
from storybank.bank._schema import CURRENT

Work = Callable[[Path, Path], object]


@pytest.fixture(scope="module")
def material(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A bank of 60 problems with hand-outs, the same as lines, and a smaller bank."""
    folder = tmp_path_factory.mktemp("material")
    with Bank(folder / "other.bank") as bank:
        bank.add(_made())
        numbers = [f"#{one.number}" for one in bank.find()]
        bank.used("2B", numbers[:20], "2026-09-14")
        lines = [json.dumps(record.to_json()) for _, record in bank.records()]
    (folder / "other.jsonl").write_text("\n".join(lines))
    Bank(copy_of(CURRENT, folder / "small.bank")).close()
    return folder


def _made() -> ProblemSet:
    return make_set(replace(WISH, situation=[], count=60, seed=4))


def _add(path: Path, material: Path) -> None:
    with Bank(path) as bank:
        bank.add(_made())


def _hand_out(path: Path, material: Path) -> None:
    with Bank(path) as bank:
        bank.hand_out(replace(WISH, situation=[], count=30, seed=4), "2B")


def _import(path: Path, material: Path) -> None:
    with Bank(path) as bank:
        bank.take_in(material / "other.jsonl")


def _merge(path: Path, material: Path) -> None:
    with Bank(path) as bank:
        bank.merge(material / "other.bank")


def _back_up(path: Path, material: Path) -> None:
    with Bank(path) as bank:
        bank.back_up()


def _restore(path: Path, material: Path) -> None:
    restore(path, material / "other.bank")


WORK: dict[str, Work] = {
    "add": _add,
    "hand out": _hand_out,
    "import": _import,
    "merge": _merge,
    "backup": _back_up,
    "restore": _restore,
}
TABLES = ("problem", "handed", "hand_out", "action", "change", "shelf", "terms", "recipe", "class")


def version_in(path: Path) -> object:
    return rows(path, "PRAGMA user_version")[0][0]


def _holds(path: Path) -> list[object]:
    return [rows(path, f"SELECT * FROM {table}") for table in TABLES]


def _tried(
    work: Work, path: Path, material: Path, full: AbstractContextManager[None]
) -> str | None:
    """What was said, or None if there was room enough; what was there is there all the same."""
    before = _holds(path)
    said = None
    with full:
        try:
            work(path, material)
        except StorybankError as error:
            said = str(error)
    if said is not None:
        assert _holds(path) == before, said
        assert any(one in said for one in ("room", "disk")), said
        assert any(one in said for one in ("safe", "othing was", "nothing half")), said
        assert not list(path.parent.glob("*.backup*")), "a backup that is not whole"
    with Bank(path, create=False) as bank:
        assert bank.check(judging=False).faults == []
    assert not [one for one in path.parent.iterdir() if ".part" in one.name]
    work(path, material)
    return said


@pytest.mark.parametrize("work", WORK.values(), ids=WORK)
def test_a_full_disk(work: Work, tmp_path: Path, material: Path) -> None:
    said = []
    with small_disk(tmp_path / "disk", 6000) as disk:
        for left in (0, 4, 36, 60, 100, 160, 220, 900):
            for one in disk.iterdir():
                one.unlink()
            path = disk / "a.bank"
            shutil.copyfile(material / "small.bank", path)
            said.append(_tried(work, path, material, full_but(disk, left)))
    assert said[0] is not None and said[-1] is None


@pytest.mark.parametrize("work", WORK.values(), ids=WORK)
def test_files_that_may_not_grow(work: Work, tmp_path: Path, material: Path) -> None:
    """As with a quota, or on a disk whose files may have so many bytes only."""
    said = []
    for size in (20, 60, 100, 150, 185, 200, 260, 4000):
        path = tmp_path / f"{size}" / "a.bank"
        path.parent.mkdir()
        shutil.copyfile(material / "small.bank", path)
        said.append(_tried(work, path, material, files_up_to(size)))
    assert said[0] is not None and said[-1] is None


@pytest.mark.parametrize("version", range(1, CURRENT))
def test_no_room_for_an_upgrade(version: int, tmp_path: Path) -> None:
    """The bank stays of the old version; a backup that is not whole is not left."""
    refused = 0
    with small_disk(tmp_path / "disk", 3000) as disk:
        for left in (0, 40, 90, 130, 180, 260, 330, 500, 1000):
            for one in disk.iterdir():
                one.unlink()
            path = copy_of(version, disk / "a.bank")
            before = rows(path, "SELECT * FROM problem")
            with full_but(disk, left):
                try:
                    Bank(path).close()
                except StorybankError as error:
                    assert "room" in str(error)
                    names = sorted(one.name for one in disk.iterdir() if "-" not in one.name[-4:])
                    assert names == ["a.bank", "filler"]
                    refused += 1
                else:
                    assert version_in(path) == CURRENT
            if not list(disk.glob("*.backup*")):
                assert version_in(path) == version
            Bank(path).close()
            assert rows(path, "SELECT * FROM problem") == before
            backups = list(disk.glob("*.backup*"))
            assert [version_in(one) for one in backups] == [version]
    assert 2 <= refused <= 7


def test_a_grow_goes_on_when_there_is_room_again(
    tmp_path: Path, material: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(_pieces, "PIECE", 6)
    grow(tmp_path / "unbroken.bank", GROWN, 90)
    with small_disk(tmp_path / "disk", 6000) as disk:
        with full_but(disk, 400), pytest.raises(StorybankError, match="no room left"):
            grow(disk / "a.bank", GROWN, 90)
        kept = rows(disk / "a.bank", "SELECT sum(count) FROM grown")[0][0]
        assert rows(disk / "a.bank", "SELECT count(*) FROM problem")[0][0] == (kept or 0)
        grow(disk / "a.bank", GROWN, 90)
        with Bank(disk / "a.bank") as bank, Bank(tmp_path / "unbroken.bank") as unbroken:
            assert bank.check().digest == unbroken.check().digest


@pytest.mark.parametrize("name", ["out.jsonl", "out.csv", "out"])
def test_no_room_for_an_export(
    name: str, tmp_path: Path, material: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with small_disk(tmp_path / "disk", 1000) as disk, full_but(disk, 8):
        code = run("bank", "export", material / "other.bank", "--out", disk / name)
        said = capsys.readouterr()
        assert code == 2 and "could not be written" in said.err and said.out == ""
        left = [one for one in disk.rglob("*") if one.name != "filler" and one.is_file()]
        assert left == []
