"""All that one bank holds comes into another, once, in whatever order banks are merged."""

import signal
import subprocess
import sys
from dataclasses import replace
from itertools import permutations
from pathlib import Path

import pytest
from bank.grown import WISHES, digest, unbroken
from bank.kept import a_set, rows, two_banks

from storybank import Bank
from storybank.bank import Wanted, as_lines, grow
from storybank.errors import BankError


@pytest.mark.parametrize("of", [2, 3])
def test_slices_merged_in_any_order_are_the_whole(of: int, tmp_path: Path) -> None:
    parts = [tmp_path / f"{at}.bank" for at in range(1, of + 1)]
    for at, part in enumerate(parts, 1):
        grow(part, WISHES, 1501, part=(at, of))
    for number, order in enumerate(permutations(parts)):
        path = tmp_path / f"whole-{number}.bank"
        with Bank(path) as bank:
            for part in order:
                bank.merge(part)
        growth, new = grow(path, replace(WISHES, seed=None), 1501)
        assert (growth.there, growth.pieces, new) == (1501, (), 0)
        assert digest(path) == unbroken(1501)
    with Bank(parts[0]) as bank:
        for part in parts[1:]:
            bank.merge(part)
    assert digest(parts[0]) == unbroken(1501)


def test_growths_that_overlap_merge_to_one_that_can_be_undone(tmp_path: Path) -> None:
    ours, theirs = tmp_path / "a.bank", tmp_path / "b.bank"
    grow(ours, WISHES, 733)
    grow(theirs, WISHES, 1501)
    with Bank(ours) as bank:
        assert bank.merge(theirs) == (1501 - 733, 1501)
    assert digest(ours) == unbroken(1501)
    assert grow(ours, WISHES, 1501)[1] == 0
    with Bank(ours) as bank:
        bank.undo()
    assert digest(ours) == unbroken(733)
    assert grow(ours, WISHES, 1501)[1] == 1501 - 733
    assert digest(ours) == unbroken(1501)


def test_marks_and_classes_come_along_and_go_again(tmp_path: Path) -> None:
    ours, theirs = two_banks(tmp_path)
    codes = [one.code for one in a_set().problems]
    steps = [one.code for one in a_set("two steps").problems]
    before, untouched = digest(ours), theirs.read_bytes()
    with Bank(ours) as bank:
        new, seen = bank.merge(theirs)
        assert (new, seen) == (len(steps), len(steps) + len(codes))
        found = {one.code: one for one in bank.named([*codes[:4], *steps[:2]])}
        assert [found[code].note for code in codes[:2]] == ["ours", "theirs as well"]
        assert found[codes[1]].star and found[codes[2]].star and found[steps[0]].star
        assert found[codes[3]].retired and found[steps[1]].retired
        had = {
            one.day: (one.label, {code for _, code, _ in one.problems})
            for one in bank.history("2B")
        }
        assert had["2026-09-14"] == ("2b", set(codes[:2]))
        assert had["2026-09-15"] == ("2b", {codes[2]})
        assert bank.classes() == ["2b", "3C"]
        assert bank.count(Wanted(had_by="3c")) == 1
        assert bank.check().faults == []
        after = bank.check().digest
        assert bank.merge(theirs) == (0, seen)
        assert bank.check().digest == after
        assert len(bank.history("2B")) == 2
        assert bank.undo().what == "merge"
        assert bank.check().digest == before
        assert [one.day for one in bank.history("2B")] == ["2026-09-14"]
    assert theirs.read_bytes() == untouched
    assert {one.name for one in tmp_path.iterdir()} == {"ours.bank", "theirs.bank"}


def test_merged_problems_are_found_by_their_words(tmp_path: Path) -> None:
    ours, theirs = two_banks(tmp_path)
    problem = a_set("two steps").problems[2]
    phrase = Wanted(words=f'"{" ".join(problem.text.split(".")[0].split()[-4:])}"')
    with Bank(ours) as bank:
        before = {one.code for one in bank.find(phrase)}
        bank.merge(theirs)
        assert {one.code for one in bank.find(phrase)} - before >= {problem.code}


def test_a_hand_out_that_is_known_in_part_is_completed(tmp_path: Path) -> None:
    """Else a class would be given again what it had."""
    ours, theirs = tmp_path / "ours.bank", tmp_path / "theirs.bank"
    made = a_set()
    codes = [one.code for one in made.problems]
    with Bank(theirs) as bank:
        bank.add(made)
        bank.used("2B", codes, "2026-09-14")
        lines = list(as_lines(record for _, record in bank.records()))
    (tmp_path / "some.jsonl").write_text("".join(lines[:3]))
    with Bank(ours) as bank:
        bank.take_in(tmp_path / "some.jsonl")
        assert bank.count(Wanted(had_by="2B")) == 3
        bank.merge(theirs)
        assert bank.count(Wanted(had_by="2B")) == len(codes)
        assert len(bank.history("2B")) == 1
    assert len(rows(ours, "SELECT * FROM hand_out")) == 1


def test_a_bank_that_is_written_to_meanwhile(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It is merged as it was when the merge began; what came in then is taken next time."""
    from storybank.bank import _merging

    ours, theirs = tmp_path / "ours.bank", tmp_path / "theirs.bank"
    grow(theirs, WISHES, 1000)
    monkeypatch.setattr(_merging, "_AT_ONCE", 400)
    seen = []

    def report(made: int, wanted: int) -> None:
        seen.append(made)
        if len(seen) == 1:
            with Bank(theirs) as other:
                other.add(a_set("two steps"))
                other.used("2B", [a_set("two steps").problems[0].code])
        if made == 1000 and len(seen) < 9:
            seen.extend([0] * 9)
            grow(theirs, WISHES, 1501)

    with Bank(ours) as bank:
        assert bank.merge(theirs, report) == (1000, 1000)
        assert bank.count() == 1000 and bank.classes() == []
        bank.merge(theirs)
        assert bank.count() == 1501 + len(a_set("two steps").problems)
        assert bank.count(Wanted(had_by="2B")) == 1
        assert bank.check(judging=False).faults == []
    assert grow(ours, WISHES, 1501)[1] == 0


def test_nobody_sees_or_undoes_half_a_merge(tmp_path: Path) -> None:
    ours, theirs = two_banks(tmp_path)
    before, held = digest(ours), len(rows(ours, "SELECT id FROM problem"))

    def report(made: int, wanted: int) -> None:
        with Bank(ours, wait=0.1) as other:
            assert other.count(Wanted(retired=True)) == held
            with pytest.raises(BankError, match="Another program has been writing"):
                other.undo()

    with Bank(ours) as bank:
        assert bank.merge(theirs, report)[0] == len(a_set("two steps").problems)
        assert bank.undo().what == "merge"
        assert bank.check().digest == before


_KILLED = """
import os, signal, sys
from pathlib import Path
from storybank import Bank
from storybank.bank import _merging
_merging._AT_ONCE = 400
def report(made, wanted):
    if made >= 800:
        os.kill(os.getpid(), signal.SIGKILL)
with Bank(sys.argv[1]) as bank:
    bank.merge(Path(sys.argv[2]), report)
"""


def test_killed_and_asked_again(tmp_path: Path) -> None:
    ours, theirs = two_banks(tmp_path)
    grow(theirs, WISHES, 1501)
    unhurt = tmp_path / "unhurt.bank"
    unhurt.write_bytes(ours.read_bytes())
    with Bank(unhurt) as bank:
        bank.merge(theirs)
    held = len(rows(ours, "SELECT id FROM problem"))
    ended = subprocess.run([sys.executable, "-c", _KILLED, str(ours), str(theirs)], check=False)
    assert ended.returncode == -signal.SIGKILL
    with Bank(ours) as bank:
        assert bank.count(Wanted(retired=True)) == held
        bank.merge(theirs)
        assert len(bank.history("2B")) == 2
    assert digest(ours) == digest(unhurt)
    assert grow(ours, WISHES, 1501)[1] == 0
