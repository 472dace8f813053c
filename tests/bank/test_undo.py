"""Whatever was done, undone step by step, leaves the bank as it was at each step."""

import json
from pathlib import Path
from typing import Any

import pytest
from bank.kept import KINDS, a_set
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, precondition, rule

from storybank import Bank, Request
from storybank.bank import Wanted, as_lines, grow
from storybank.errors import BankError

LABELS = st.sampled_from(["2A", "2B", "Frau Ö's group"])
PLACES = st.integers(0, 200)


def content(bank: Bank) -> Any:
    """All that a bank holds as its own commands tell it."""
    lines = list(as_lines(one for _, one in bank.records(Wanted(retired=True))))
    numbers = [one.number for one in bank.find(Wanted(retired=True))]
    history = {
        label: [(one.day, one.problems) for one in bank.history(label)] for label in bank.classes()
    }
    return lines, numbers, history, bank.figures(), bank.check(judging=False).digest


class Doing(RuleBasedStateMachine):
    """Acts on a bank as a teacher does; then all is undone."""

    folder: Path

    @initialize()
    def start(self) -> None:
        for file in self.folder.iterdir():
            file.unlink()
        self.bank = Bank(self.folder / "a.bank")
        self.states: list[tuple[int, Any]] = []
        self.files = 0

    def note_state(self) -> tuple[int, Any]:
        return self._done(), content(self.bank)

    def _done(self) -> int:
        return sum(not one.undone for one in self.bank.actions(10_000))

    def did(self, before: tuple[int, Any]) -> None:
        """An action that changed something is one more; one that changed nothing is none."""
        changed = content(self.bank) != before[1]
        assert self._done() == before[0] + changed
        if changed:
            self.states.append(before)

    def named(self, place: int) -> str:
        every = self.bank.find(Wanted(retired=True))
        return f"#{every[place % len(every)].number}"

    @rule(kind=st.sampled_from(["one step", "two steps", "both parts", "fact families"]))
    def add(self, kind: str) -> None:
        before = self.note_state()
        self.bank.add(a_set(kind))
        self.did(before)

    @rule(label=LABELS, seed=st.integers(0, 3), from_bank=st.booleans())
    def hand_out(self, label: str, seed: int, from_bank: bool) -> None:
        before = self.note_state()
        wish = Request(strategy=["any"], count=3, seed=seed)
        self.bank.hand_out(wish, label, from_bank=from_bank)
        self.did(before)

    @precondition(lambda self: self.bank.count(Wanted(retired=True)) > 0)
    @rule(what=st.integers(0, 5), place=PLACES, label=LABELS, day=st.integers(1, 3))
    def mark(self, what: int, place: int, label: str, day: int) -> None:
        before, name = self.note_state(), self.named(place)
        if what < 2:
            self.bank.star([name, self.named(place + 1)], on=what == 0)
        elif what < 4:
            self.bank.retire([name], on=what == 2)
        elif what == 4:
            self.bank.note(name, ["", "good", "'=1+1"][day - 1])
        else:
            self.bank.used(label, [name, self.named(place + 3)], f"2026-09-0{day}")
        self.did(before)

    def other(self, kind: str, place: int, label: str) -> Path:
        """Another bank, with marks and a class in it, and some of our own hand-outs."""
        self.files += 1
        path = self.folder / f"other-{self.files}.bank"
        with Bank(path) as other:
            other.add(a_set(kind))
            every = other.find()
            codes = [f"#{every[(place + at) % len(every)].number}" for at in range(3)]
            other.star(codes[:1])
            other.note(codes[1], "theirs")
            other.retire(codes[2:])
            other.used(label, codes)
            other.hand_out(Request(strategy=["any"], count=2, seed=place), label)
        return path

    @rule(
        kind=st.sampled_from(["one step", "three addends"]),
        place=PLACES,
        label=LABELS,
        how=st.sampled_from(["merge", "lines", "table"]),
    )
    def take_in(self, kind: str, place: int, label: str, how: str) -> None:
        path = self.other(kind, place, label)
        before = self.note_state()
        if how == "merge":
            self.bank.merge(path)
        else:
            from storybank.bank import write_table

            file = path.with_suffix(".jsonl" if how == "lines" else ".csv")
            with Bank(path) as other, file.open("w", encoding="utf-8", newline="") as stream:
                if how == "lines":
                    stream.writelines(as_lines(one for _, one in other.records()))
                else:
                    write_table(stream, other.records())
            self.bank.take_in(file)
        self.did(before)

    @precondition(lambda self: len(self.states) > 0)
    @rule()
    def undo(self) -> None:
        self.bank.undo()
        assert self.note_state() == self.states.pop()

    def teardown(self) -> None:
        if not hasattr(self, "bank"):
            return
        while self.states:
            self.undo()
        with pytest.raises(BankError, match="nothing to undo"):
            self.bank.undo()
        assert self.bank.check().faults == []
        self.bank.close()


def test_undoing_all_goes_back_through_every_state(tmp_path: Path) -> None:
    from hypothesis.stateful import run_state_machine_as_test

    Doing.folder = tmp_path / "banks"
    Doing.folder.mkdir()
    run_state_machine_as_test(
        Doing,
        settings=settings(
            max_examples=15,
            stateful_step_count=12,
            deadline=None,
            suppress_health_check=list(HealthCheck),
        ),
    )


def test_a_hand_out_of_which_only_a_part_came_before_is_merged_whole(tmp_path: Path) -> None:
    """An export of some problems carries their hand-outs; the bank itself has the rest of them."""
    with Bank(tmp_path / "a.bank") as bank:
        made = bank.hand_out(Request(strategy=["any"], count=4, seed=1), "2B")
        bank.star([made.problems[0].code])
        (tmp_path / "liked.jsonl").write_text(
            "".join(as_lines(one for _, one in bank.records(Wanted(starred=True))))
        )
    with Bank(tmp_path / "b.bank") as bank:
        bank.take_in(tmp_path / "liked.jsonl")
        bank.merge(tmp_path / "a.bank")
        (had,) = bank.history("2B")
        assert {code for _, code, _ in had.problems} == {one.code for one in made.problems}
        bank.undo()
        assert [len(one.problems) for one in bank.history("2B")] == [1]


def test_undoing_a_longer_grow_forgets_what_it_grew_of_a_piece(tmp_path: Path) -> None:
    path = tmp_path / "a.bank"
    wish = Request(strategy=["count-on"], theme=["winter-days"], within=20, seed=4)
    grow(path, wish, 20)
    with Bank(path) as bank:
        short = content(bank)
    grow(path, wish, 60)
    with Bank(path) as bank:
        long = content(bank)
        bank.undo()
        assert content(bank) == short
    grow(path, wish, 60)
    with Bank(path) as bank:
        texts = {json.loads(line)["problem"]["text"] for line in content(bank)[0]}
        assert texts == {json.loads(line)["problem"]["text"] for line in long[0]}
        assert bank.count() == 60


def test_an_import_that_is_broken_off_keeps_nothing(tmp_path: Path) -> None:
    """All is judged before any is kept."""
    from storybank.bank import _exchange
    from storybank.bank._lines import record_of

    with Bank(tmp_path / "a.bank") as bank:
        for kind in KINDS:
            bank.add(a_set(kind))
        bank.used("2B", [f"#{one.number}" for one in bank.find()])
        every = list(as_lines(one for _, one in bank.records()))

    def broken() -> Any:
        for at in range(1000):
            if at == 700:
                assert fresh.count() == 0
                raise KeyboardInterrupt
            yield at, record_of(every[at % len(every)].encode())

    with Bank(tmp_path / "new.bank") as fresh:
        empty = content(fresh)
        with pytest.raises(KeyboardInterrupt):
            _exchange.take_in(fresh, broken(), source="x")
        assert content(fresh) == empty
        assert fresh.actions() == []
