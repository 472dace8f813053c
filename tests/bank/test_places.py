"""Banks that are locked, only to read, or of an odd name; a log that is gone; a wrong clock."""

import os
import re
import shutil
import subprocess
import sys
from datetime import date
from pathlib import Path

import pytest
from bank.disks import copy_of, only_to_read, refused, run
from bank.kept import rows

from storybank import Bank
from storybank.bank._schema import CURRENT

ROOT = Path(__file__).parents[2]


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return copy_of(CURRENT, tmp_path / "a.bank")


def _matches(pattern: str, text: str) -> None:
    assert re.search(pattern, text), text


def test_a_locked_bank(
    path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """It can be read meanwhile; who would write waits, and is told so in the end."""
    monkeypatch.setitem(Bank.__init__.__kwdefaults__, "wait", 0.2)
    code = (
        "import sqlite3, sys; c = sqlite3.connect(sys.argv[1], isolation_level=None); "
        "c.execute('BEGIN IMMEDIATE'); print('held', flush=True); sys.stdin.read()"
    )
    with subprocess.Popen(
        [sys.executable, "-c", code, str(path)], stdin=subprocess.PIPE, stdout=subprocess.PIPE
    ) as holder:
        assert holder.stdout is not None and holder.stdout.readline() == b"held\n"
        assert run("bank", "find", path) == run("bank", "about", path) == 0
        before = rows(path, "SELECT * FROM problem")
        for arguments in (["star", "#3"], ["undo"], ["used", "#5", "--class", "3C"]):
            said = refused(capsys, "bank", arguments[0], path, *arguments[1:])
            _matches("Another program has been writing .* is safe.*Wait until it is done", said)
        assert rows(path, "SELECT * FROM problem") == before
        holder.communicate(b"")
    assert run("bank", "star", path, "#3") == 0


@pytest.mark.parametrize("version", range(1, CURRENT + 1))
@pytest.mark.parametrize("mode", ["wal", "delete"])
def test_a_disk_that_may_only_be_read(
    version: int, mode: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = tmp_path / "disk"
    folder.mkdir()
    path = copy_of(version, folder / "a.bank")
    assert rows(path, f"PRAGMA journal_mode = {mode}") == [(mode,)]
    before = path.read_bytes()
    with only_to_read(folder):
        if version == CURRENT:
            for what in ("find", "about", "check", "log"):
                assert run("bank", what, path) == 0
            other = copy_of(CURRENT, tmp_path / "other.bank")
            assert run("bank", "merge", other, path) == 0
            assert run("bank", "restore", other, path) == 0
            for arguments in (["star", "#3"], ["undo"], ["used", "#5", "--class", "3C"]):
                said = refused(capsys, "bank", arguments[0], path, *arguments[1:])
                _matches("cannot be written.*Nothing was changed. Copy it", said)
            _matches("could (not )?be", refused(capsys, "bank", "backup", path))
        else:
            said = refused(capsys, "bank", "find", path)
            _matches(
                "older version .* cannot be written. Copy|nothing was changed.*may write", said
            )
        assert [one.name for one in folder.iterdir()] == ["a.bank"]
    assert path.read_bytes() == before


AS_ANOTHER = [(0o444, 0o755), (0o444, 0o777), (0o000, 0o777), (0o644, 0o700), (0o666, 0o555)]


@pytest.mark.skipif(os.name != "posix" or os.geteuid() != 0, reason="needs another account")
@pytest.mark.parametrize(("of_file", "of_folder"), AS_ANOTHER)
def test_rights_that_another_account_has_not(of_file: int, of_folder: int, path: Path) -> None:
    """Root may do all, so the command runs as another account, outside of our own folders."""
    import tempfile

    with tempfile.TemporaryDirectory() as name:
        bank = Path(shutil.copyfile(path, Path(name) / "a.bank"))
        bank.chmod(of_file)
        Path(name).chmod(of_folder)
        code = (
            "import os, sys; from storybank.cli import main; "
            "main(['bank', 'find', sys.argv.pop()]); os.setgid(65534); os.setuid(65534); "
            "sys.exit(main(sys.argv[1:]))"
        )
        for arguments in (("find", bank), ("star", bank, "#3")):
            done = subprocess.run(
                [sys.executable, "-c", code, "bank", *map(str, arguments), str(path)],
                capture_output=True, text=True, check=False, cwd=ROOT,
            )  # fmt: skip
            reads = of_file & 0o004 and of_folder & 0o001 and arguments[0] == "find"
            assert done.returncode == (0 if reads else 2), done.stderr
            if not reads:
                assert done.stderr.startswith("storybank: ") and done.stderr.count("\n") == 1
        left = [one.name for one in Path(name).iterdir() if not one.name.endswith(("wal", "shm"))]
        assert left == ["a.bank"]


def test_a_log_that_was_deleted(tmp_path: Path) -> None:
    """What stood in it alone is gone; the bank is whole, and said to be so."""
    code = (
        "import os, sys; from storybank import Bank; bank = Bank(sys.argv[1]); "
        "bank.star(['#3']); os._exit(0)"
    )
    path = copy_of(CURRENT, tmp_path / "a.bank")
    subprocess.run([sys.executable, "-c", code, str(path)], check=True)
    log = tmp_path / "a.bank-wal"
    copied = Path(shutil.copyfile(path, tmp_path / "copied.bank"))
    assert log.stat().st_size > 0
    log.unlink()
    for one in (path, copied):
        with Bank(one) as bank:
            assert bank.check(judging=False).faults == []
            assert [kept.star for kept in bank.find() if kept.number == 3] == [False]


NAMES = [
    "50% off.bank", "what?.bank", "a#1.bank", "two words.bank", "Größe 二年级.bank", "a&b=c;d.bank",
    "%41.bank", "a'b\"c.bank", "-dash.bank", "?mode=memory", "file:x.bank", "x" * 200 + ".bank",
]  # fmt: skip


@pytest.mark.parametrize("name", [*NAMES, os.fsdecode(b"not-utf8-\xff.bank")])
def test_any_name_will_do(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    path, other = copy_of(CURRENT, tmp_path / name), copy_of(CURRENT, tmp_path / f"+{name}")
    monkeypatch.chdir(tmp_path)
    for arguments in (["find"], ["star", "#3"], ["backup"], ["merge", other], ["restore", other]):
        assert run("bank", arguments[0], path, *arguments[1:]) == 0, capsys.readouterr().err
    left = sorted(one.name for one in tmp_path.iterdir())
    assert [one for one in left if ".backup-" not in one] == sorted([name, f"+{name}"])
    assert len(left) == 4


def test_a_name_that_is_too_long(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    _matches("cannot be looked at", refused(capsys, "bank", "find", tmp_path / ("x" * 300)))


def test_a_clock_that_was_set_back(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What was done last is undone first, whatever the days say; nothing is lost."""

    def today(year: int) -> None:
        class Day(date):
            @classmethod
            def today(cls) -> "Day":
                return cls(year, 1, 2)

        for module in ("_actions", "_bank"):
            monkeypatch.setattr(f"storybank.bank.{module}.date", Day)

    with Bank(path) as bank:
        done = len(bank.actions(99))
        for year, code in ((2027, "#5"), (1999, "#7"), (1971, "#8")):
            today(year)
            bank.used("3C", [code])
        assert [one.day[:4] for one in bank.actions(3)] == ["1971", "1999", "2027"]
        assert [one.problems[0][0] for one in bank.history("3C")] == [8, 7, 5]
        first = bank.back_up()
        assert first.name.endswith("backup-1971-01-02") and bank.back_up() != first
        assert [bank.undo().day[:4] for _ in range(3)] == ["1971", "1999", "2027"]
        assert bank.check(judging=False).faults == []
        assert sum(not one.undone for one in bank.actions(99)) == done


@pytest.mark.parametrize("version", range(1, CURRENT + 1))
def test_what_is_kept_waits_for_the_disk(version: int, tmp_path: Path) -> None:
    """Without that, a power cut could lose what was said to be kept; also of a copied bank."""
    path = copy_of(version, tmp_path / "a.bank")
    assert rows(path, "PRAGMA journal_mode = DELETE") == [("delete",)]
    for one in (path, tmp_path / "new.bank"):
        with Bank(one) as bank:
            kept = [
                bank.connection.execute(f"PRAGMA {name}").fetchone()[0]
                for name in ("journal_mode", "synchronous", "foreign_keys")
            ]
        assert kept == ["wal", 3, 1]
