"""What is exported comes back: as lines exactly, as a table with what somebody marked in it."""

import csv
import io
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from bank.kept import KINDS, a_set
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from storybank import Bank, Request, make_set
from storybank.bank import Wanted, as_lines, write_table
from storybank.errors import BankError

EXCEL_CELL = 32_767
"""Characters of a cell, beyond which Excel cuts it off."""
EVERY = Wanted(retired=True)


@pytest.fixture(scope="module")
def marked(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """A bank of all kinds with stars, notes, retired ones, two classes and three days."""
    path = tmp_path_factory.mktemp("marked") / "a.bank"
    with Bank(path) as bank:
        for kind in KINDS:
            bank.add(a_set(kind))
        every = [f"#{one.number}" for one in bank.find()]
        bank.star(every[::3])
        for at, note in enumerate(["good; for partners", "=1+1", "'=1+1", "''@x", "'tis", 'a,"b"']):
            bank.note(every[7 * at], note)
        bank.used("2B", every[1::4], "2026-09-14")
        bank.used("2B", every[2::4], "2026-09-15")
        bank.used('Frau \u00d6\'s, "group"', every[::5], "2026-09-15")
        bank.retire(every[4::9])
    return path.read_bytes()


@pytest.fixture
def bank(marked: bytes, tmp_path: Path) -> Any:
    (tmp_path / "a.bank").write_bytes(marked)
    with Bank(tmp_path / "a.bank") as bank:
        yield bank


def lines(bank: Bank) -> str:
    return "".join(as_lines(one for _, one in bank.records(EVERY)))


def table(bank: Bank) -> str:
    stream = io.StringIO(newline="")
    write_table(stream, bank.records(EVERY))
    return stream.getvalue()


def taken(folder: Path, name: str, text: str, encoding: str = "utf-8") -> Bank:
    """A new bank into which the file was taken."""
    (folder / name).write_bytes(text.encode(encoding))
    new = Bank(folder / f"{name}.bank")
    new.take_in(folder / name)
    return new


def history(bank: Bank) -> Any:
    return {
        label: [(one.day, sorted(code for _, code, _ in one.problems)) for one in had]
        for label in bank.classes()
        for had in [bank.history(label)]
    }


def test_lines_hold_everything_of_every_kind(bank: Bank, tmp_path: Path) -> None:
    text = lines(bank)
    with taken(tmp_path, "all.jsonl", text) as new:
        assert lines(new) == text
        assert new.check().digest == bank.check().digest
        assert history(new) == history(bank) and len(history(new)) == 2
        again = new.take_in(tmp_path / "all.jsonl")
        assert (again.new, again.there) == (0, bank.count(EVERY))
        assert lines(new) == text and len(new.actions()) == 1


def test_merging_gives_what_lines_give(bank: Bank, tmp_path: Path) -> None:
    with Bank(tmp_path / "new.bank") as new:
        assert new.merge(bank.path) == (bank.count(EVERY), bank.count(EVERY))
        assert lines(new) == lines(bank)
        assert new.merge(bank.path) == (0, bank.count(EVERY))
        assert history(new) == history(bank)


def _semicolons(text: str) -> str:
    rows = list(csv.reader(io.StringIO(text, newline="")))
    out = io.StringIO(newline="")
    csv.writer(out, delimiter=";", lineterminator="\r\n").writerows(rows)
    return out.getvalue()


def _tabs_and_padding(text: str) -> str:
    """As a spreadsheet saves it: every row as wide as the widest."""
    rows = list(csv.reader(io.StringIO(text, newline="")))
    wide = max(map(len, rows))
    out = io.StringIO(newline="")
    writer = csv.writer(out, delimiter="\t", lineterminator="\n", quoting=csv.QUOTE_ALL)
    writer.writerows([[*row, *[""] * (wide - len(row))] for row in rows])
    return out.getvalue()


def _turned(text: str) -> str:
    """The named columns from right to left; what has no name stays behind them."""
    rows = list(csv.reader(io.StringIO(text, newline="")))
    named = len(rows[0])
    out = io.StringIO(newline="")
    csv.writer(out).writerows([[*row[:named][::-1], *row[named:][::-1]] for row in rows])
    return out.getvalue()


def _few(text: str) -> str:
    """Only the record, and the note."""
    rows = list(csv.reader(io.StringIO(text, newline="")))
    at, note = rows[0].index("record"), rows[0].index("note")
    out = io.StringIO(newline="")
    csv.writer(out).writerows([[row[note], *row[at:]] for row in rows])
    return out.getvalue()


SAVED: dict[str, Callable[[str], str]] = {
    "as it is": str,
    "a mark at the beginning": lambda text: "\ufeff" + text,
    "semicolons": _semicolons,
    "semicolons and a mark": lambda text: "\ufeff" + _semicolons(text),
    "tabs, every cell in quotes, as wide as the widest": _tabs_and_padding,
    "plain line ends": lambda text: text.replace("\r\n", "\n"),
    "columns turned round": _turned,
    "few columns": _few,
    "empty rows between": lambda text: text + ",,,,\r\n\r\n",
}


@pytest.mark.parametrize("how", SAVED.values(), ids=SAVED)
def test_a_table_comes_back_however_it_was_saved(
    how: Callable[[str], str], bank: Bank, tmp_path: Path
) -> None:
    with taken(tmp_path, "all.csv", how(table(bank))) as new:
        assert lines(new) == lines(bank)


def test_no_cell_is_run_and_none_is_cut_by_a_spreadsheet(tmp_path: Path) -> None:
    """Of levels side by side with three sets of numbers each a record is as long as they get."""
    long = Request(
        levels_side_by_side=True, number_sets=[20, 100, 1000], count=5, seed=2, home_language=["es"]
    )
    with Bank(tmp_path / "a.bank") as bank:
        bank.add(make_set(long))
        bank.add(a_set())
        first = json.loads(lines(bank).splitlines()[0])
        first["used"] = [
            {"class": f"class {at}", "day": "2026-09-14", "hand_out": f"a{at}"} for at in range(900)
        ]
        (tmp_path / "x.jsonl").write_text(json.dumps(first))
        bank.take_in(tmp_path / "x.jsonl")
        for at, note in enumerate(("=1+1", "+1", "-1", "@SUM(A1)", "'=1", "\uff1dA1")):
            bank.note(f"#{bank.find()[at].number}", note)
        rows = list(csv.reader(io.StringIO(table(bank), newline="")))
        cells = [cell for row in rows for cell in row]
        # A letter beyond the first plane counts twice there.
        assert max(len(cell.encode("utf-16-le")) // 2 for cell in cells) < EXCEL_CELL
        assert not [cell for cell in cells if cell[:1] in tuple("=+-@\t\r\uff1d")]
        records = [len(line) for line in lines(bank).splitlines()]
        assert max(records) > 2 * EXCEL_CELL
        with taken(tmp_path, "all.csv", table(bank)) as new:
            assert lines(new) == lines(bank)


NOTES = st.text(st.sampled_from("=+-@'\"\t\r\n;, a\u00e9\uff1d\u202e\x1b\x00"), max_size=12)


@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
@given(notes=st.lists(NOTES, min_size=1, max_size=8), semicolons=st.booleans())
def test_any_note_comes_back(
    notes: list[str], semicolons: bool, tmp_path_factory: pytest.TempPathFactory
) -> None:
    folder = tmp_path_factory.mktemp("notes")
    with Bank(folder / "a.bank") as bank:
        bank.add(a_set())
        for one, note in zip(bank.find(), notes, strict=False):
            bank.note(f"#{one.number}", note)
        text = table(bank)
        with taken(folder, "all.csv", _semicolons(text) if semicolons else text) as new:
            assert [one.note for one in new.find()] == [one.note for one in bank.find()]


def test_marks_in_a_table_are_taken_over(bank: Bank, tmp_path: Path) -> None:
    rows = list(csv.DictReader(io.StringIO(table(bank), newline=""), restkey="more"))
    named = [name for name in rows[0] if name != "more"]
    for row in rows:
        row.update(star="", retired="", note="")
    rows[3].update(star="x", note="  tell  it twice ")
    rows[4].update(retired="YES", code="ZZZZZ", text="other words", answer="99")
    out = io.StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow(named)
    writer.writerows([[*(row[name] for name in named), *(row.get("more") or ())] for row in rows])
    (tmp_path / "b.csv").write_text(out.getvalue())
    before = [one.text for one in bank.find(EVERY)]
    done = bank.take_in(tmp_path / "b.csv")
    assert done.new == 0
    found = bank.find(EVERY)
    assert [one.text for one in found] == before
    assert [at for at, one in enumerate(found) if one.star] == [3]
    assert [at for at, one in enumerate(found) if one.retired] == [4]
    assert [one.note for one in found if one.note] == ["tell it twice"]
    bank.undo()
    assert len([one for one in bank.find(EVERY) if one.star]) > 20


def test_lines_and_columns_that_are_not_there_change_no_mark(bank: Bank, tmp_path: Path) -> None:
    """An older file takes no star away, and no note of ours is written over by another."""
    (tmp_path / "old.jsonl").write_text(lines(bank), encoding="utf-8")
    (tmp_path / "old.csv").write_text(_few(table(bank)), encoding="utf-8")
    one = bank.find(Wanted(noted=True))[0]
    plain = next(some for some in bank.find() if not some.star and some.number != one.number)
    bank.note(f"#{one.number}", "ours now")
    bank.star([f"#{plain.number}"])
    bank.take_in(tmp_path / "old.jsonl")
    assert bank.named([f"#{one.number}"])[0].note == "ours now"
    bank.take_in(tmp_path / "old.csv")
    assert bank.named([f"#{plain.number}"])[0].star
    assert bank.named([f"#{one.number}"])[0].note == one.note, "the table has a column for notes"


@pytest.mark.parametrize("name", ["bad.jsonl", "bad.csv"])
def test_a_bad_line_is_named_and_nothing_is_kept(name: str, bank: Bank, tmp_path: Path) -> None:
    text = lines(bank) if name.endswith("jsonl") else table(bank)
    old, new = ('"answer":', '"answers":') if name.endswith("jsonl") else ('""answer"":', '""a"":')
    pieces = text.split(old)
    spoiled = old.join(pieces[:40]) + new + old.join(pieces[40:])
    (tmp_path / name).write_bytes(spoiled.encode())
    what = "line" if name.endswith("jsonl") else "row"
    with Bank(tmp_path / "new.bank") as fresh:
        with pytest.raises(BankError, match=rf"{name}, {what} \d+: .*answer.*Nothing was kept"):
            fresh.take_in(tmp_path / name)
        assert fresh.count(EVERY) == 0 and fresh.classes() == []
        done = fresh.take_in(tmp_path / name, skip_bad=True)
        ((number, why),) = done.bad
        assert number > 1 and "answer" in why
        assert done.new == bank.count(EVERY) - 1 == fresh.count(EVERY)


NO_TABLES = {
    "no record": ("number,star\r\n1,yes\r\n", 'no column "record"'),
    "nothing": ("", 'no column "record"'),
    "another star": ("star,record\r\nmaybe,{}\r\n", "row 2"),
    "a cell beyond all limits": (f"record\r\n{'x' * 1_100_000}\r\n", "cannot be read as a table"),
    "a quotation mark that never ends": (
        'record\r\n"' + "x\r\n" * 400_000,
        "cannot be read as a table",
    ),
    "a record cut off": ('record\r\n"{""format"":""storybank-prob"\r\n', "row 2: it is not valid"),
    "a part of a record": ("record\r\nrecord 1 of 2: {\r\n", "2 parts, and not all of them"),
    "a part too many": ("record\r\nrecord 1 of 1: {,record 2 of 1: {\r\n", "not all of them"),
}


@pytest.mark.parametrize(("text", "said"), NO_TABLES.values(), ids=NO_TABLES)
def test_what_is_no_table_is_said(text: str, said: str, tmp_path: Path) -> None:
    with pytest.raises(BankError, match=said):
        taken(tmp_path, "x.csv", text)


def test_a_table_in_another_encoding_is_said_with_what_to_do(bank: Bank, tmp_path: Path) -> None:
    first = bank.find()[0]
    bank.note(f"#{first.number}", "gut f\u00fcr Paare")
    (tmp_path / "x.csv").write_bytes(table(bank).encode("cp1252", errors="replace"))
    with (
        Bank(tmp_path / "new.bank") as fresh,
        pytest.raises(BankError, match=r"Save it as CSV \(UTF-8\)"),
    ):
        fresh.take_in(tmp_path / "x.csv")
