"""Undoing takes back all that an action did and nothing else, also after it was stopped."""

import json
from argparse import Namespace
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from bank.kept import rows
from bank.killed import GROWN, WISH

from storybank import Bank, make_set
from storybank.bank import _pieces, grow
from storybank.cli._from_bank import made
from storybank.errors import BankError, OutputError

GROWN_ROWS = "SELECT first, count FROM grown ORDER BY first"
PLACES = "SELECT place FROM problem ORDER BY place"


def _places(count: int) -> list[tuple[int]]:
    return [(place,) for place in range(count)]


@pytest.fixture(autouse=True)
def small_pieces(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(_pieces, "PIECE", 10)


def test_a_grow_that_went_further_is_undone_to_where_it_had_been(tmp_path: Path) -> None:
    """Its last piece was half full before; `grown` never says more than is kept."""
    path = tmp_path / "a.bank"
    for problems in (14, 27):
        grow(path, GROWN, problems)
        assert rows(path, PLACES) == _places(problems)
    with Bank(path) as bank:
        digest = bank.check(judging=False).digest
        bank.undo()
        assert rows(path, PLACES) == _places(14)
        assert rows(path, "SELECT sum(count) FROM grown") == [(14,)]
        grow(path, GROWN, 27)
        assert bank.check(judging=False).digest == digest
        assert grow(path, GROWN, 27)[1] == grow(path, GROWN, 5)[1] == 0
        for left in (14, 0):
            bank.undo()
            assert rows(path, PLACES) == _places(left)
            assert rows(path, "SELECT total(count) FROM grown") == [(left,)]


def test_a_merge_that_brought_more_of_a_grow_is_undone(tmp_path: Path) -> None:
    path, other = tmp_path / "a.bank", tmp_path / "b.bank"
    grow(path, GROWN, 14)
    grow(other, GROWN, 27)
    before = rows(path, GROWN_ROWS)
    with Bank(path) as bank:
        assert bank.merge(other) == (13, 27)
        assert grow(path, GROWN, 27)[1] == 0
        bank.undo()
        assert (rows(path, PLACES), rows(path, GROWN_ROWS)) == (_places(14), before)
        assert grow(path, GROWN, 27)[1] == 13


def test_an_undo_by_another_program_stops_a_grow(tmp_path: Path) -> None:
    path = tmp_path / "a.bank"

    def undo(there: int, _: int) -> None:
        if there == 20:
            with Bank(path) as other:
                other.undo()

    with pytest.raises(BankError, match="undone by another program while it ran"):
        grow(path, GROWN, 40, report=undo)
    assert rows(path, PLACES) == rows(path, GROWN_ROWS) == []
    assert grow(path, GROWN, 40)[1] == 40


@pytest.mark.parametrize("what", ["import", "merge"])
def test_what_fails_halfway_leaves_nothing_and_takes_nothing_of_others(
    what: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Nobody sees a part of it, so nobody counts on a part that is taken back."""
    path, other, lines = tmp_path / "a.bank", tmp_path / "b.bank", tmp_path / "b.jsonl"
    some = make_set(replace(WISH, situation=[], count=30, seed=2))
    with Bank(other) as bank:
        bank.add(some)
        bank.used("2B", [f"#{one.number}" for one in bank.find()])
        lines.write_text("\n".join(json.dumps(one.to_json()) for _, one in bank.records()))
    monkeypatch.setattr("storybank.bank._exchange._AT_ONCE", 10)
    monkeypatch.setattr("storybank.bank._merging._AT_ONCE", 10)
    with Bank(path) as bank, Bank(path) as reader:
        seen = []

        def stop(*_: Any) -> None:
            seen.append(reader.count())
            raise KeyboardInterrupt

        monkeypatch.setattr("storybank.bank._actions.tell", stop)
        with pytest.raises(KeyboardInterrupt):
            bank.take_in(lines) if what == "import" else bank.merge(other)
        monkeypatch.undo()
        assert seen == [0] and reader.count() == 0
        assert bank.actions() == [] and bank.classes() == []
        done = bank.take_in(lines).new if what == "import" else bank.merge(other)[0]
        assert done == 30 and bank.check(judging=False).faults == []
        bank.undo()
        assert bank.count() == 0
        assert rows(path, "SELECT * FROM handed") == rows(path, "SELECT * FROM hand_out") == []


@pytest.mark.parametrize("meanwhile", [False, True])
def test_what_could_not_be_written_is_not_recorded(tmp_path: Path, meanwhile: bool) -> None:
    """Also where another program did something to the bank in between."""
    path = tmp_path / "a.bank"
    options = Namespace(bank=path, label="2B", day=None, all_new=False, change=[])
    request = replace(WISH, situation=[], count=3, seed=1)
    with pytest.raises(OutputError), made(options, request):
        if meanwhile:
            with Bank(path) as other:
                other.star(["#2"])
        raise OutputError("no room")
    assert rows(path, "SELECT * FROM handed") == rows(path, PLACES) == []


def test_what_cannot_be_undone_any_more_is_said(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Files could not be written, and then the bank could not be either."""

    def refuse(bank: Bank, action: int | None) -> None:
        raise BankError("no room for this either")

    monkeypatch.setattr(Bank, "give_up", refuse)
    options = Namespace(bank=tmp_path / "a.bank", label="2B", day=None, all_new=False, change=[])
    with pytest.raises(OutputError), made(options, replace(WISH, situation=[], count=3, seed=1)):
        raise OutputError("no room")
    assert "note: what was made stays recorded" in capsys.readouterr().err
