"""A backup is brought back over sound and damaged banks, also while others use them."""

import os
import subprocess
import sys
import time
from dataclasses import replace
from pathlib import Path

import pytest
from bank.disks import copy_of, refused, run
from bank.kept import rows
from bank.killed import GROWN, WISH

from storybank import Bank, make_set
from storybank.bank import _backup, _pieces, _restoring, grow, restore
from storybank.bank._schema import CURRENT
from storybank.errors import BankError


def _bank(path: Path, seed: int) -> Path:
    with Bank(path) as bank:
        bank.add(make_set(replace(WISH, situation=[], count=6, seed=seed)))
    return path


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return copy_of(CURRENT, tmp_path / "a.bank")


def test_what_others_have_open_goes_on_with_what_was_restored(path: Path, tmp_path: Path) -> None:
    """Shelves have other numbers then; what is added later stands on the right ones."""
    other = _bank(tmp_path / "other.bank", seed=1)
    more = make_set(replace(WISH, situation=[], count=20, seed=2))
    with Bank(path) as bank:
        bank.add(more)
        bank.hand_out(replace(WISH, situation=[], count=3, seed=8), "2B")
        kept = restore(path, other)
        assert kept is not None
        assert bank.count() == 6
        bank.add(more)
        bank.hand_out(replace(WISH, situation=[], count=4, seed=9), "2B")
        assert bank.check().faults == []
        assert rows(kept, "SELECT count(*) FROM handed WHERE class = 1") == [(6,)]
    assert restore(path, kept) is not None
    with Bank(path) as bank:
        assert bank.check().faults == []


def test_a_grow_stops_when_a_backup_is_brought_back(
    path: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Its numbers mean something else from then on."""
    monkeypatch.setattr(_pieces, "PIECE", 6)
    other = _bank(tmp_path / "other.bank", seed=1)

    def bring_back(there: int, _: int) -> None:
        if there == 12:
            restore(path, other)

    with pytest.raises(BankError, match=r"A backup was brought back .* goes on from there"):
        grow(path, GROWN, 30, report=bring_back)
    with Bank(path) as bank:
        assert bank.count() == 6 and bank.check().faults == []
    grow(path, GROWN, 30)
    assert rows(path, "SELECT sum(count) FROM grown") == [(30,)]


def test_nothing_is_kept_between_the_backup_and_what_is_brought_back(
    path: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Another program that adds just then waits; what it adds is in the one or in the other."""
    other, made = _bank(tmp_path / "other.bank", seed=1), _bank(tmp_path / "made.bank", seed=5)
    started: list[subprocess.Popen[bytes]] = []
    code = (
        "import pathlib, sys; from storybank import Bank; "
        "Bank(sys.argv[1]).merge(pathlib.Path(sys.argv[2]))"
    )
    original = _backup.back_up

    def slow(*arguments: object) -> Path:
        found = original(*arguments)  # type: ignore[arg-type]
        started.append(subprocess.Popen([sys.executable, "-c", code, str(path), str(made)]))
        time.sleep(2)
        return found

    monkeypatch.setattr(_restoring._backup, "back_up", slow)
    restore(path, other)
    assert started[0].wait(60) == 0
    with Bank(path) as bank:
        assert bank.count() == 12 and bank.check().faults == []


def test_a_damaged_bank_that_is_in_use_is_left_alone(
    path: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The program that has it open would go on writing to what was put aside."""
    backup = copy_of(CURRENT, tmp_path / "backup")
    code = (
        "import sys; from storybank import Bank; bank = Bank(sys.argv[1]); bank.count(); "
        "print(flush=True); sys.stdin.read()"
    )
    with subprocess.Popen(
        [sys.executable, "-c", code, str(path)], stdin=subprocess.PIPE, stdout=subprocess.PIPE
    ) as holder:
        assert holder.stdout is not None and holder.stdout.readline() == b"\n"
        os.truncate(path, 40_960)
        said = refused(capsys, "bank", "restore", path, backup)
        assert "another program has it open. Nothing was changed. Close" in said
        assert path.stat().st_size == 40_960
        holder.kill()
    assert run("bank", "restore", path, backup) == 0
    assert run("bank", "check", path) == 0


def test_a_log_of_a_bank_that_is_gone_does_not_spoil_what_is_brought_back(
    path: Path, tmp_path: Path
) -> None:
    code = "import os, sys; from storybank import Bank; Bank(sys.argv[1]).star(['#3']); os._exit(0)"
    backup = copy_of(CURRENT, tmp_path / "backup")
    subprocess.run([sys.executable, "-c", code, str(path)], check=True)
    log = (tmp_path / "a.bank-wal").read_bytes()
    path.unlink()
    assert log and restore(path, backup) == tmp_path / "a.bank.backup-damaged"
    assert (tmp_path / "a.bank.backup-damaged-wal").read_bytes() == log
    assert path.read_bytes()[100:] == backup.read_bytes()[100:]
    with Bank(path) as bank:
        assert bank.check().faults == []


@pytest.mark.parametrize("version", range(1, CURRENT))
def test_a_backup_of_an_older_version(version: int, path: Path, tmp_path: Path) -> None:
    old = copy_of(version, tmp_path / "old")
    restore(path, old)
    with Bank(path) as bank:
        assert bank.check().faults == []
    assert rows(path, "SELECT * FROM problem") == rows(old, "SELECT * FROM problem")


def test_what_cannot_be_restored_changes_nothing(
    path: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "text").write_text("hello\n" * 1000)
    (tmp_path / "folder").mkdir()
    cut = copy_of(CURRENT, tmp_path / "cut")
    os.truncate(cut, 100_000)
    before = {one: one.read_bytes() for one in tmp_path.iterdir() if one.is_file()}
    for bank, backup, says in (
        (path, tmp_path / "none", "There is no backup"),
        (path, tmp_path / "folder", "There is no backup"),
        (path, path, "is the bank itself"),
        (path, cut, "is no whole bank"),
        (path, tmp_path / "text", "is no whole bank"),
        (tmp_path / "folder", path, "is no file. Name the file of the bank"),
        (tmp_path / "nowhere" / "a.bank", path, "could be made"),
    ):
        assert says in refused(capsys, "bank", "restore", bank, backup)
    assert {one: one.read_bytes() for one in tmp_path.iterdir() if one.is_file()} == before


def test_a_link_to_a_bank_stays_a_link(path: Path, tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    link = tmp_path / "elsewhere" / "link.bank"
    link.symlink_to(path)
    backup = copy_of(CURRENT, tmp_path / "backup")
    os.truncate(path, 50_000)
    restore(link, backup)
    assert link.is_symlink()
    with Bank(link) as bank:
        assert bank.check().faults == []
    assert rows(path, "SELECT count(*) FROM problem") == [(8,)]


def test_what_killed_programs_left_is_cleared_away(path: Path, tmp_path: Path) -> None:
    """Not what one that is still there is writing, nor what is young."""
    ended = subprocess.run([sys.executable, "-c", "import os; print(os.getpid())"],
                           capture_output=True, check=True)  # fmt: skip
    gone, here = int(ended.stdout), os.getppid()
    names = [f".a.bank.backup-1.{one}.part" for one in (gone, here)]
    names += [f".a.bank.{gone}.part-journal", f".a.bank.young.{gone}.part", f".b.bank.{gone}.part"]
    for name in names:
        (tmp_path / name).touch()
        if "young" not in name:
            os.utime(tmp_path / name, (1, 1))
    with Bank(path) as bank:
        backup = bank.back_up()
    left = {one.name for one in tmp_path.iterdir()}
    assert left == {"a.bank", backup.name, names[1], names[3], names[4]}


def test_many_programs_that_make_one_bank_at_once(tmp_path: Path) -> None:
    path = tmp_path / "new.bank"
    code = (
        "import sys; from storybank import Bank; b = Bank(sys.argv[1]); "
        "w = b.writing(); w.__enter__(); w.__exit__(None, None, None)"
    )
    started = [subprocess.Popen([sys.executable, "-c", code, str(path)]) for _ in range(6)]
    assert [one.wait(60) for one in started] == [0] * 6
    with Bank(path) as bank:
        assert bank.check().faults == []
    assert [one.name for one in tmp_path.iterdir()] == ["new.bank"]
