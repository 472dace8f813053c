"""Files that are no bank, damaged or newer: said in one line, and left alone."""

import os
import random
import re
import sqlite3
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

import pytest
from bank.disks import copy_of, refused, run

from storybank import Bank
from storybank.bank._schema import CURRENT

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
