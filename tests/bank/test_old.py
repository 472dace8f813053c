"""Banks that older versions have written: backed up, upgraded, nothing in them changed."""

import errno
import shutil
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest
from bank.kept import rows

from storybank import Bank
from storybank.bank import Wanted, _file, _schema
from storybank.bank._schema import CURRENT
from storybank.errors import BankError

OLD = Path(__file__).with_name("old")
VERSIONS = range(1, CURRENT + 1)
OLDER = range(1, CURRENT)
PROBLEMS = "SELECT * FROM problem ORDER BY id"
CLASSES = "SELECT class, meaning, problem, hand_out, action FROM handed ORDER BY problem"


def stored(version: int) -> Path:
    """The stored bank of a version; each version has one, made by old/make.py."""
    return OLD / f"version-{version}.bank"


def copy_of(version: int, folder: Path) -> Path:
    return Path(shutil.copyfile(stored(version), folder / "a.bank"))


def version_in(path: Path) -> object:
    return rows(path, "PRAGMA user_version")[0][0]


def test_every_version_has_a_stored_bank() -> None:
    """Whoever adds a step of tables runs old/make.py and keeps what it writes."""
    assert [stored(one).name for one in VERSIONS if not stored(one).is_file()] == []
    assert len(list(OLD.glob("*.bank"))) == CURRENT


@pytest.mark.parametrize("version", VERSIONS)
def test_what_an_older_version_kept_is_kept_byte_by_byte(version: int, tmp_path: Path) -> None:
    path = copy_of(version, tmp_path)
    assert version_in(path) == version
    before = rows(path, PROBLEMS)
    handed = rows(path, CLASSES) if version > 1 else []
    assert 6 <= len(before) <= 12
    with Bank(path, create=False) as bank:
        assert bank.check().faults == []
        kept = bank.find(Wanted(retired=True))
        assert [(one.text,) for one in kept] == rows(path, "SELECT text FROM problem ORDER BY id")
        assert len(bank.find(Wanted(starred=True))) == 1
        assert [one.note for one in bank.find(Wanted(noted=True))] == ["good for pairs"]
        assert len(bank.find(Wanted(retired=True))) == len(bank.find()) + 1
        for one in kept:
            word = max(one.text.replace(".", " ").replace("?", " ").split(), key=len)
            found = bank.find(Wanted(words=word, retired=True))
            assert one.number in [other.number for other in found]
        assert bank.classes() == (["2B"] if version > 1 else [])
    assert version_in(path) == CURRENT
    assert rows(path, PROBLEMS) == before
    assert rows(path, CLASSES) == handed


@pytest.mark.parametrize("version", OLDER)
def test_a_backup_of_the_old_version_stands_beside(version: int, tmp_path: Path) -> None:
    path = copy_of(version, tmp_path)
    before = rows(path, PROBLEMS)
    Bank(path).close()
    names = sorted(one.name for one in tmp_path.iterdir())
    assert names == ["a.bank", f"a.bank.backup-version-{version}"]
    backup = tmp_path / names[1]
    assert version_in(backup) == version
    assert rows(backup, PROBLEMS) == before
    assert rows(backup, "PRAGMA integrity_check") == [("ok",)]
    schema = "SELECT type, name, sql FROM sqlite_schema ORDER BY 1, 2"
    assert rows(backup, schema) == rows(stored(version), schema)


def test_the_current_version_is_opened_as_it_is(tmp_path: Path) -> None:
    path = copy_of(CURRENT, tmp_path)
    before = path.read_bytes()
    Bank(path).close()
    assert [one.name for one in tmp_path.iterdir()] == ["a.bank"]
    assert path.read_bytes() == before


@pytest.mark.parametrize("version", OLDER)
def test_two_programs_that_upgrade_at_once(version: int, tmp_path: Path) -> None:
    path = copy_of(version, tmp_path)
    before = rows(path, PROBLEMS)
    code = "import sys; from storybank import Bank; Bank(sys.argv[1]).close()"
    started = [subprocess.Popen([sys.executable, "-c", code, str(path)]) for _ in range(3)]
    assert [one.wait(timeout=60) for one in started] == [0, 0, 0]
    backups = list(tmp_path.glob("a.bank.backup-*"))
    assert [version_in(one) for one in backups] == [version]
    assert rows(path, PROBLEMS) == before
    with Bank(path) as bank:
        assert bank.check(judging=False).faults == []


@pytest.mark.parametrize("version", OLDER)
def test_a_step_that_fails_leaves_the_version_as_it_was(
    version: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Also where an earlier step had been taken already, and no backup is left each time."""
    path = copy_of(version, tmp_path)
    before = rows(path, PROBLEMS)
    broken = (*_schema.STEPS[:-1], f"{_schema.STEPS[-1]}\nCREATE TABLE problem (id);\n")
    monkeypatch.setattr(_file, "STEPS", broken)
    for _ in range(3):
        with pytest.raises(BankError, match=r"problem already exists.*nothing half was written"):
            Bank(path)
    assert version_in(path) == version
    assert [one.name for one in tmp_path.iterdir()] == ["a.bank"]
    monkeypatch.undo()
    with Bank(path) as bank:
        assert bank.check(judging=False).faults == []
    assert rows(path, PROBLEMS) == before


def test_a_backup_is_made_where_files_have_one_name_only(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Many USB sticks have a file system without links."""

    def none(*_: object) -> None:
        raise OSError(errno.EPERM, "Operation not permitted")

    monkeypatch.setattr("os.link", none)
    path = copy_of(1, tmp_path)
    Bank(path).close()
    assert sorted(one.name for one in tmp_path.iterdir()) == ["a.bank", "a.bank.backup-version-1"]
    assert version_in(tmp_path / "a.bank.backup-version-1") == 1
    with Bank(path) as bank:
        assert bank.back_up() != bank.back_up()


def test_an_upgraded_bank_has_the_tables_of_a_new_one(tmp_path: Path) -> None:
    Bank(tmp_path / "new.bank").close()
    schema = "SELECT type, name, sql FROM sqlite_schema ORDER BY 1, 2"
    for version in VERSIONS:
        path = copy_of(version, tmp_path)
        Bank(path).close()
        assert rows(path, schema) == rows(tmp_path / "new.bank", schema)
        with closing(sqlite3.connect(path)) as connection:
            assert _file.has_our_tables(connection)
