"""Files that are no bank, damaged, newer, locked or only to read: said in one line, left alone."""

import os
import random
import re
import shutil
import sqlite3
import subprocess
import sys
from collections.abc import Callable
from contextlib import closing
from datetime import date
from pathlib import Path

import pytest
from bank.disks import copy_of, only_to_read, refused, run
from bank.kept import rows

from storybank import Bank
from storybank.bank._schema import CURRENT
from storybank.errors import BankError

ROOT = Path(__file__).parents[2]


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return copy_of(CURRENT, tmp_path / "a.bank")


def _text(path: Path) -> None:
    path.write_text("A list of words, and nothing else.\n" * 300)


def _short_text(path: Path) -> None:
    path.write_text("hello\n")


def _folder(path: Path) -> None:
    path.mkdir()


def _empty(path: Path) -> None:
    path.touch()


def _pipe(path: Path) -> None:
    os.mkfifo(path)


def _other_program(path: Path) -> None:
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("CREATE TABLE problem (id)")


def _other_program_that_says_so(path: Path) -> None:
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("PRAGMA application_id = 12345")
        connection.execute("PRAGMA user_version = 1")
        connection.execute("CREATE TABLE problem (id)")


def _newer(path: Path) -> None:
    copy_of(CURRENT, path)
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("PRAGMA journal_mode = DELETE")
        connection.execute(f"PRAGMA user_version = {CURRENT + 1}")


def _copied_without_log(path: Path) -> None:
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        connection.execute("PRAGMA journal_mode = WAL")


def _gone_but_for_its_log(path: Path) -> None:
    path.with_name(f"{path.name}-wal").write_bytes(b"what was kept last")


NO_BANKS: dict[str, tuple[Callable[[Path], None], str]] = {
    "a text": (_text, "is no bank: its content is not that of a database. Name"),
    "a short text": (_short_text, "is no bank: its content is not that of a database. Name"),
    "a folder": (_folder, "is a folder, not a bank. Name"),
    "a pipe": (_pipe, "is no file. Name"),
    "another program's": (_other_program, "is a database of another program, not a bank. Name"),
    "one that says so": (_other_program_that_says_so, "is a database of another program"),
    "a newer bank": (_newer, f"newer Storybank.*version {CURRENT + 1}.*Nothing was changed. Inst"),
}
NOT_THERE: dict[str, tuple[Callable[[Path], None], str]] = {
    "an empty file": (_empty, "is an empty file. Name"),
    "nothing": (lambda path: None, 'There is no bank "[^"]*a.db". Check'),
    "a copy without its log": (_copied_without_log, "holds nothing. If it is a copy, .*-wal"),
}
LOG: dict[str, tuple[Callable[[Path], None], str]] = {
    "gone but for its log": (_gone_but_for_its_log, "is gone, but .*-wal.* Bring the bank back"),
}


def _contents(folder: Path) -> dict[str, bytes]:
    return {one.name: one.read_bytes() for one in folder.iterdir() if one.is_file()}


@pytest.mark.parametrize(("make", "said"), [*(NO_BANKS | LOG).values()], ids=[*(NO_BANKS | LOG)])
def test_no_bank_is_written_to(
    make: Callable[[Path], None], said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Neither by what reads nor by what would make a bank."""
    path, lines = tmp_path / "a.db", tmp_path / "lines.jsonl"
    lines.touch()
    make(path)
    before = _contents(tmp_path)
    for arguments in (
        ("about", path),
        ("undo", path),
        ("import", path, lines),
        ("merge", path, path),
    ):
        _matches(said, refused(capsys, "bank", *arguments))
    assert _contents(tmp_path) == before


def _matches(pattern: str, text: str) -> None:
    assert re.search(pattern, text), text


@pytest.mark.parametrize(("make", "said"), NOT_THERE.values(), ids=NOT_THERE)
def test_what_is_not_there_yet_is_not_read(
    make: Callable[[Path], None], said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path, lines = tmp_path / "a.db", tmp_path / "lines.jsonl"
    make(path)
    lines.touch()
    before = _contents(tmp_path)
    for what in ("about", "find", "check", "log", "undo"):
        _matches(said, refused(capsys, "bank", what, path))
    assert _contents(tmp_path) == before
    assert run("bank", "import", path, lines) == 0
    assert run("bank", "check", path) == 0


@pytest.mark.parametrize(
    "size",
    [
        1,
        15,
        16,
        99,
        100,
        511,
        512,
        1000,
        4095,
        4096,
        4097,
        8192,
        12288,
        40960,
        50000,
        100_000,
        131_072,
        180_224,
        183_000,
    ],
)
def test_a_bank_that_was_cut_off(
    size: int, path: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Also the way back: restore brings the backup, and keeps what was there."""
    with Bank(path) as bank:
        backup = bank.back_up()
        digest = bank.check(judging=False).digest
    os.truncate(path, size)
    before = path.read_bytes()
    for arguments in (["about"], ["find"], ["check"], ["undo"], ["star", "#1"]):
        said = refused(capsys, "bank", arguments[0], path, *arguments[1:])
        _matches("is damaged .*restore|is no bank|holds nothing", said)
    assert path.read_bytes() == before
    assert run("bank", "restore", path, backup) == 0
    with Bank(path) as bank:
        assert bank.check().digest == digest
    assert (tmp_path / "a.bank.backup-damaged").read_bytes() == before


@pytest.mark.parametrize("seed", range(12))
def test_flipped_bytes_never_end_in_a_crash(
    seed: int, path: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A command does its work or says what is wrong; and what it says has an end."""
    with Bank(path) as bank:
        bank.back_up()
    luck = random.Random(seed)
    data = bytearray(path.read_bytes())
    for _ in range(luck.choice((1, 20, 400))):
        data[luck.randrange(luck.choice((100, 4096, len(data))))] ^= 1 << luck.randrange(8)
    for arguments in (
        ["about"], ["find", "--words", "how"], ["check"], ["had", "--class", "2B"], ["log"],
        ["export", "--out", tmp_path / "x.jsonl", "--overwrite"], ["star", "#3"], ["undo"],
        ["used", "#5", "--class", "3C"], ["retire", "#6"], ["backup"],
    ):  # fmt: skip
        path.write_bytes(data)
        code = run("bank", arguments[0], path, *arguments[1:])
        said = capsys.readouterr().err
        assert code in (0, 2) and "Traceback" not in said
        assert code == 0 or said.splitlines()[-1].startswith("storybank: ")


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
        with pytest.raises(BankError, match="Another action came after"):
            bank.undo(bank.actions(2)[1].number)
        assert [bank.undo().day[:4] for _ in range(3)] == ["1971", "1999", "2027"]
        assert bank.check(judging=False).faults == []
        assert sum(not one.undone for one in bank.actions(99)) == done
