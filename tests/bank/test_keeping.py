"""Problems of every kind are kept as they are, once, and come back exactly."""

import json
from pathlib import Path

import pytest
from bank.kept import KINDS, a_set, rows

from storybank import Bank, ProblemSet, Request, make_set
from storybank.bank import Wanted
from storybank.errors import BankError


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_comes_back_exactly(kind: str, tmp_path: Path) -> None:
    made = a_set(kind)
    with Bank(tmp_path / "a.bank") as bank:
        added = bank.add(made)
        assert (added.new, added.there) == (len(made.problems), 0)
    with Bank(tmp_path / "a.bank", create=False) as bank:
        found = bank.find()
        assert [one.problem() for one in found] == list(made.problems)
        assert [one.node for one in found] == [one.to_json() for one in made.problems]
        assert bank.check().faults == []
        again = bank.add(made)
        assert (again.new, again.there) == (0, len(made.problems))


def test_one_problem_under_other_names_is_the_same_one(tmp_path: Path) -> None:
    """The same set with a class's names in it is known to be there."""
    (tmp_path / "class.txt").write_text("Zebulon, he\nQuintessa, she\nXochitl, she\nWolfram, he\n")
    own = make_set(Request(strategy=["any"], count=6, seed=9, situation=["join-result-unknown"]))
    with Bank(tmp_path / "a.bank") as bank:
        bank.add(own)
        for kept in bank.find():
            problem = kept.problem()
            assert problem.text in {one.text for one in own.problems}
        lines = [json.dumps(record.to_json()) for _, record in bank.records()]
    changed = [
        line.replace(name, "Nora")
        for line in lines
        for name in json.loads(line)["problem"]["people"][:1]
    ]
    (tmp_path / "other.jsonl").write_text("\n".join(changed))
    with Bank(tmp_path / "a.bank") as bank:
        done = bank.take_in(tmp_path / "other.jsonl")
        assert done.new == 0 and done.there == len(changed) > 0


def test_names_of_children_are_nowhere_in_the_file(tmp_path: Path) -> None:
    names = ["Zebulon", "Quintessa", "Xochitl", "Wolfram"]
    (tmp_path / "class.txt").write_text("\n".join(f"{name}, she" for name in names))
    made = make_set(Request(strategy=["any"], count=20, seed=9, names=tmp_path / "class.txt"))
    assert any(name in one.text for one in made.problems for name in names)
    path = tmp_path / "a.bank"
    with Bank(path) as bank:
        added = bank.add(made)
        assert any("class list" in note for note in added.notes)
        stored = "\n".join(json.dumps(record.to_json()) for _, record in bank.records())
        assert bank.check().faults == []
    everything = b"".join(file.read_bytes() for file in tmp_path.glob("a.bank*"))
    for name in names:
        assert name not in stored
        assert name.encode() not in everything
    assert "class.txt" not in stored


def test_a_problem_with_a_fault_is_not_kept_nor_any_other_of_its_set(tmp_path: Path) -> None:
    from dataclasses import replace

    made = a_set()
    bad = replace(made.problems[3], answer_frame="") if False else made.problems[3]
    story = replace(bad.story, answer_sentence=bad.story.answer_sentence.replace(".", " apples."))
    spoiled = replace(bad, story=story)
    wrong = ProblemSet(
        made.request, (*made.problems[:3], spoiled, *made.problems[4:]), made.version
    )
    with Bank(tmp_path / "a.bank") as bank:
        with pytest.raises(BankError, match=f"{bad.code} breaks a law"):
            bank.add(wrong)
        assert bank.count() == 0 and bank.actions() == []


def test_the_text_of_a_stored_problem_is_never_changed(tmp_path: Path) -> None:
    """Marking, handing out and undoing leave the text and all that is kept with it alone."""
    path = tmp_path / "a.bank"
    with Bank(path) as bank:
        bank.add(a_set())
        before = rows(path, "SELECT id, digest, text, body FROM problem")
        first = bank.find()[0]
        bank.star([first.code])
        bank.note(first.code, "good for partners")
        bank.used("2B", [first.code])
        bank.retire([first.code])
        assert rows(path, "SELECT id, digest, text, body FROM problem") == before
        assert bank.find(Wanted(retired=True))[0].note == "good for partners"
