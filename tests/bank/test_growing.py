"""A bank grows to the same problems however often it is stopped, and by however many workers."""

import os
import sqlite3
from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest
from bank.grown import WISHES, digest, unbroken
from bank.kept import rows

from storybank import Bank, Request, make_set
from storybank.bank import grow
from storybank.bank._growing import begin, grow_here
from storybank.bank._pieces import missing, pieces_of
from storybank.errors import BankError, RequestError


def test_a_grown_bank_is_sound_and_holds_what_its_request_makes(tmp_path: Path) -> None:
    path = tmp_path / "a.bank"
    growth, new = grow(path, WISHES, 733)
    assert (new, growth.there, growth.wanted) == (733, 0, 733)
    with Bank(path) as bank:
        report = bank.check()
        assert (report.faults, report.problems, report.judged) == ([], 733, 733)
        assert {one.number for one in bank.find(most=1000)} == set(range(1, 734))
    assert rows(path, "SELECT count(DISTINCT text) FROM problem")[0][0] == 733


def test_two_workers_grow_the_same(tmp_path: Path) -> None:
    path = tmp_path / "a.bank"
    assert grow(path, WISHES, 1501, workers=2)[1] == 1501
    assert digest(path) == unbroken(1501)


def test_a_larger_number_goes_on_after_the_piece_that_was_cut(tmp_path: Path) -> None:
    path = tmp_path / "a.bank"
    assert grow(path, WISHES, 733)[1] == 733
    growth, new = grow(path, WISHES, 1501)
    assert (new, growth.there) == (1501 - 733, 733)
    assert digest(path) == unbroken(1501)
    assert grow(path, WISHES, 900)[1] == 0
    assert grow(path, WISHES, 1501)[1] == 0


def test_what_an_undo_takes_back_is_grown_again(tmp_path: Path) -> None:
    """Also the rest of a piece whose beginning stays."""
    path = tmp_path / "a.bank"
    grow(path, WISHES, 733)
    grow(path, WISHES, 1501)
    with Bank(path) as bank:
        bank.undo()
    assert digest(path) == unbroken(733)
    assert grow(path, WISHES, 1501)[1] == 1501 - 733
    assert digest(path) == unbroken(1501)
    with Bank(path) as bank:
        bank.undo()
        bank.undo()
        assert bank.count() == 0
    assert grow(path, WISHES, 1501)[1] == 1501
    assert digest(path) == unbroken(1501)


def test_problems_that_came_otherwise_while_it_grew_are_grown_after_an_undo(tmp_path: Path) -> None:
    """Another program adds one of the problems first, and takes it back when the grow is done."""
    path = tmp_path / "a.bank"
    grow(tmp_path / "b.bank", WISHES, 600)
    with Bank(tmp_path / "b.bank") as bank:
        (tmp_path / "some.jsonl").write_text("".join(_lines(bank)[500:]))
    with Bank(path) as bank, Bank(path) as other:
        growth = begin(bank, WISHES, 1000)
        early = replace(growth, pieces=growth.pieces[:1])
        grow_here(bank, early)
        other.take_in(tmp_path / "some.jsonl")
        grow_here(bank, replace(growth, pieces=growth.pieces[1:]))
        assert bank.count() == 1000
        assert other.undo().what == "import"
        assert bank.count() == 900
    assert grow(path, WISHES, 1000)[1] == 100
    assert digest(path) == unbroken(1000)


def test_a_bank_that_holds_some_of_them_gets_the_others(tmp_path: Path) -> None:
    path = tmp_path / "a.bank"
    grow(tmp_path / "b.bank", WISHES, 700)
    with Bank(tmp_path / "b.bank") as bank:
        lines = "".join(_lines(bank))
    (tmp_path / "some.jsonl").write_text("\n".join(lines.splitlines()[5:700:7]))
    with Bank(path) as bank:
        done = bank.take_in(tmp_path / "some.jsonl")
        bank.add(make_set(replace(WISHES, count=5)))
        before = bank.count()
    assert grow(path, WISHES, 1501)[1] >= 1501 - before
    assert rows(path, "SELECT count(DISTINCT text) FROM problem") == rows(
        path, "SELECT count(*) FROM problem"
    )
    assert done.new == 100
    assert grow(path, WISHES, 1501)[1] == 0
    digest(path)


def _lines(bank: Bank) -> list[str]:
    from storybank.bank import as_lines

    return list(as_lines(record for _, record in bank.records()))


def test_without_a_seed_it_goes_on_with_the_one_it_had(tmp_path: Path) -> None:
    path = tmp_path / "a.bank"
    grow(path, WISHES, 600)
    growth, new = grow(path, replace(WISHES, seed=None), 1501)
    assert (growth.request.seed, new) == (7, 901)
    assert digest(path) == unbroken(1501)
    other = grow(path, replace(WISHES, seed=None, within=10), 10)[0]
    assert other.number != growth.number and other.there == 0


def test_two_that_begin_the_same_without_a_seed_share_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The second begins while the first counts the problems there are."""
    from storybank.bank import _growing

    path = tmp_path / "a.bank"
    wishes = replace(WISHES, seed=None)
    real = _growing.sized
    begun = []

    def sized(request: Request, problems: int) -> object:
        if not begun:
            begun.append(1)
            with Bank(path) as other:
                begun.append(begin(other, wishes, 600, luck=5).request.seed)
        return real(request, problems)

    with Bank(path) as bank:
        monkeypatch.setattr(_growing, "sized", sized)
        assert begin(bank, wishes, 600, luck=4).request.seed == 5
    assert begun == [1, 5]


@pytest.mark.parametrize("of", range(1, 8))
def test_slices_never_meet_and_leave_nothing_out(of: int) -> None:
    for problems in (*range(1, 30), *range(490, 520), 999, 1000, 1001, 2501, 3000):
        parts = [pieces_of(problems, (at, of)) for at in range(1, of + 1)]
        numbers = [n for part in parts for first, some in part for n in range(first, first + some)]
        assert numbers == list(range(problems))


def test_what_is_missing_of_pieces() -> None:
    with closing(sqlite3.connect(":memory:")) as connection:
        connection.execute("CREATE TABLE grown (growth, first, count)")
        connection.executemany(
            "INSERT INTO grown VALUES (1, ?, ?)", [(3, 2), (5, 5), (12, 1), (18, 10), (40, 5)]
        )
        wanted = [(0, 10), (10, 10), (20, 10), (30, 7)]
        left = missing(connection, 1, wanted)
        assert left == ((0, 3), (10, 2), (13, 5), (28, 2), (30, 7))
        assert missing(connection, 2, wanted) == tuple(wanted)


@pytest.mark.parametrize(
    "problems, more, says",
    [
        (0, {}, "--problems 0"),
        (-5, {}, "--problems -5"),
        (9_999_999, {}, "--problems 8494"),
        (500, {"workers": 0}, "--workers 0 is out of range"),
        (500, {"workers": -1}, "--workers -1 is out of range"),
        (3000, {"workers": 65}, "--workers 65 is out of range"),
        (500, {"part": (5, 4)}, "--slice 5/4"),
        (500, {"part": (0, 4)}, "--slice 0/4"),
    ],
)
def test_what_cannot_be_grown_leaves_no_bank(
    problems: int, more: dict[str, int], says: str, tmp_path: Path
) -> None:
    with pytest.raises(RequestError, match=says):
        grow(tmp_path / "a.bank", WISHES, problems, **more)  # type: ignore[arg-type]
    assert list(tmp_path.iterdir()) == []
    with Bank(tmp_path / "a.bank"):
        pass
    with pytest.raises(RequestError, match=says):
        grow(tmp_path / "a.bank", WISHES, problems, **more)  # type: ignore[arg-type]
    with Bank(tmp_path / "a.bank") as bank:
        assert bank.actions() == []
    assert rows(tmp_path / "a.bank", "SELECT * FROM growth") == []


def test_names_of_ones_own_never_come_into_a_bank(tmp_path: Path) -> None:
    own = tmp_path / "ours.names.csv"
    own.write_text("name,pronoun\nZebulon,he\nQuintessa,she\nXochitl,she\nWolfram,he\n")
    with pytest.raises(RequestError, match="--names-from"):
        grow(tmp_path / "a.bank", replace(WISHES, names_from=str(own)), 10)
    assert not (tmp_path / "a.bank").exists()


def test_the_memory_does_not_grow_with_the_bank(tmp_path: Path) -> None:
    """What the process holds after 8,000 problems is about what it held after 2,000."""
    held = []

    def report(made: int, wanted: int) -> None:
        if made in (2000, 8000):
            pages = Path("/proc/self/statm").read_text().split()[1]
            held.append(int(pages) * os.sysconf("SC_PAGE_SIZE"))

    grow(tmp_path / "a.bank", WISHES, 8000, report=report)
    assert len(held) == 2 and held[1] - held[0] < 40 << 20


def test_a_folder_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(BankError, match="there is no folder"):
        grow(tmp_path / "none" / "a.bank", WISHES, 10)
