"""A bank that is no whole one is not merged; an older one is, and stays as it was."""

import os
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from bank.grown import digest
from bank.kept import a_set, two_banks

from storybank import Bank
from storybank.bank._file import upgrade
from storybank.errors import BankError


def test_a_bank_into_itself_is_refused(tmp_path: Path) -> None:
    ours, _ = two_banks(tmp_path)
    (tmp_path / "link.bank").symlink_to(ours)
    os.link(ours, tmp_path / "twin.bank")
    with Bank(ours) as bank:
        for name in ("ours.bank", "link.bank", "twin.bank"):
            with pytest.raises(BankError, match="is this bank itself"):
                bank.merge(tmp_path / name)


@pytest.mark.parametrize("version", [1, 2])
def test_an_older_bank_is_merged_and_stays_as_it_is(version: int, tmp_path: Path) -> None:
    ours, theirs = two_banks(tmp_path)
    older = tmp_path / "older.bank"
    with closing(sqlite3.connect(older, isolation_level=None)) as connection:
        upgrade(connection, older, empty=True, upto=version)
        connection.execute("ATTACH DATABASE ? AS newer", (str(theirs),))
        for (table,) in connection.execute(
            "SELECT name FROM main.sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite%'"
        ).fetchall():
            connection.execute(f"INSERT OR IGNORE INTO main.{table} SELECT * FROM newer.{table}")
    before = older.read_bytes()
    with Bank(ours) as bank:
        assert bank.merge(older)[0] == len(a_set("two steps").problems)
        assert bank.check().faults == []
        assert bank.classes() == (["2b"] if version == 1 else ["2b", "3C"])
    assert older.read_bytes() == before
    assert {one.name for one in tmp_path.iterdir()} == {"ours.bank", "theirs.bank", "older.bank"}


@pytest.mark.parametrize(
    "spoiled",
    [
        "CREATE TABLE more (id)",
        "CREATE TRIGGER t AFTER INSERT ON problem BEGIN DELETE FROM handed; END",
        "CREATE VIEW v AS SELECT 1",
        "DROP TABLE grown",
    ],
)
def test_a_bank_with_other_tables_is_refused(spoiled: str, tmp_path: Path) -> None:
    ours, theirs = two_banks(tmp_path)
    before = digest(ours)
    with closing(sqlite3.connect(theirs)) as connection:
        connection.execute(spoiled)
    with Bank(ours) as bank, pytest.raises(BankError, match="is damaged, so nothing was merged"):
        bank.merge(theirs)
    assert digest(ours) == before


def test_what_is_no_bank_is_refused(tmp_path: Path) -> None:
    ours, theirs = two_banks(tmp_path)
    before = digest(ours)
    (tmp_path / "text.bank").write_text("This is no bank. " * 100)
    (tmp_path / "empty.bank").touch()
    data = bytearray(theirs.read_bytes())
    data[8192:40000] = b"x" * (40000 - 8192)
    (tmp_path / "spoiled.bank").write_bytes(data)
    with closing(sqlite3.connect(tmp_path / "foreign.bank")) as connection:
        connection.execute("CREATE TABLE t (id)")
    (tmp_path / "newer.bank").write_bytes(theirs.read_bytes())
    with closing(sqlite3.connect(tmp_path / "newer.bank")) as connection:
        connection.execute("PRAGMA user_version = 99")
    says = {
        "none.bank": "There is no bank",
        "text.bank": "is no bank",
        "empty.bank": "is an empty file",
        "spoiled.bank": "damaged",
        "foreign.bank": "another program",
        "newer.bank": "newer Storybank",
    }
    for name, said in says.items():
        with Bank(ours) as bank, pytest.raises(BankError, match=said):
            bank.merge(tmp_path / name)
    assert digest(ours) == before
    assert not (tmp_path / "none.bank").exists()


def test_the_command_makes_no_bank_where_there_is_nothing_to_merge(tmp_path: Path) -> None:
    from storybank.cli import main

    code = main(["bank", "merge", str(tmp_path / "new.bank"), str(tmp_path / "none.bank")])
    assert code == 2 and list(tmp_path.iterdir()) == []
