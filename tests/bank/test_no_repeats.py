"""Hand-out after hand-out: nothing twice for a class, counted here without the bank's own keys."""

import multiprocessing
from collections import Counter
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from bank.kept import a_set, rows
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from storybank import Bank, Problem, Request, make_set
from storybank.errors import NoNumbersError


def meaning(one: Problem) -> tuple[str, str, str]:
    """What a class must not get twice: numbers, situation and scene, whatever the words."""
    worked = [(step.situation, sorted(step.numbers.values())) for step in one.steps]
    return one.theme, one.scene, str(worked or (one.situation, sorted(one.numbers.values())))


def regroups(one: Problem) -> bool:
    parts = sorted(one.numbers.values())[:2]
    return parts[0] % 10 + parts[1] % 10 >= 10


WISHES = [
    Request(strategy=["any"], count=7),
    Request(strategy=["any"], count=5, within=20),
    Request(strategy=["any"], count=5, within=1000),
    Request(strategy=["any"], count=6, vocabulary="level-1"),
    Request(strategy=["any"], count=6, crossing="50%"),
    Request(count=6, theme=["autumn-harvest"]),
    Request(steps=2, count=4),
    Request(addends=3, count=4),
    Request(missing=True, count=4),
    Request(fact_families=True, count=8, within=20),
    Request(pair=["8 + 5"], count=4, situation=["whole-unknown"]),
    Request(levels_side_by_side=True, count=2),
]


@settings(max_examples=5, deadline=None, suppress_health_check=list(HealthCheck))
@given(
    st.lists(
        st.tuples(
            st.sampled_from(range(len(WISHES))),
            st.sampled_from(["2A", "2B"]),
            st.booleans(),
            st.integers(0, 3),
        ),
        min_size=2,
        max_size=5,
    )
)
def test_a_class_never_gets_the_same_twice(
    tmp_path_factory: pytest.TempPathFactory, asked: list[tuple[int, str, bool, int]]
) -> None:
    given: dict[str, list[Problem]] = {"2A": [], "2B": []}
    with Bank(tmp_path_factory.mktemp("bank") / "a.bank") as bank:
        bank.add(a_set())
        bank.add(a_set("plain English"))
        for wish, label, from_bank, seed in asked:
            request = replace(WISHES[wish], seed=seed)
            made = bank.hand_out(request, label, from_bank=from_bank)
            assert len(made.problems) == request.count
            assert len({one.code for one in made.problems}) == request.count
            # The stories of a family share their numbers; one of each stands for all of them.
            families = {one.family: one for one in made.problems if one.family}
            given[label] += families.values() if families else made.problems
        for problems in given.values():
            assert max(Counter(map(meaning, problems)).values(), default=1) == 1
        assert bank.check().faults == []


def test_what_is_left_over_for_one_class_is_drawn_for_another(tmp_path: Path) -> None:
    """Two classes are independent, and the same seed and bank give the same set."""
    wish = Request(strategy=["any"], count=10, seed=3)
    with Bank(tmp_path / "a.bank") as bank:
        bank.hand_out(wish, "2A")
    copy = (tmp_path / "a.bank").read_bytes()
    (tmp_path / "b.bank").write_bytes(copy)
    with Bank(tmp_path / "a.bank") as bank, Bank(tmp_path / "b.bank") as other:
        one, two = bank.hand_out(wish, "2B"), other.hand_out(wish, "2B")
        assert one.problems == two.problems
        assert {p.code for p in bank.hand_out(wish, "2C").problems} == {
            p.code for p in one.problems
        }
        assert "10 problems from the bank." in one.notes


def test_a_percentage_holds_over_the_whole_set_whatever_the_bank_had(tmp_path: Path) -> None:
    with Bank(tmp_path / "a.bank") as bank:
        bank.hand_out(Request(strategy=["any"], count=10, crossing="always", seed=1), None)
        made = bank.hand_out(Request(strategy=["any"], count=12, crossing="50", seed=2), "2B")
        assert "6 problems from the bank." in made.notes
        assert Counter(map(regroups, made.problems)) == {True: 6, False: 6}
        first = [regroups(one) for one in made.problems[:6]]
        assert len(set(first)) == 2, "all that came from the bank stands first"


def test_families_stay_whole_when_a_class_had_one_of_their_stories(tmp_path: Path) -> None:
    wish = Request(fact_families=True, count=8, within=10, theme=["autumn-harvest"])
    with Bank(tmp_path / "a.bank") as bank:
        for _ in range(6):
            made = bank.hand_out(wish, "2B")
            families = [one.family for one in made.problems]
            assert families == [1] * 4 + [2] * 4
            for at in (0, 4):
                some = made.problems[at : at + 4]
                assert len({str(sorted(one.numbers.values())) for one in some}) == 1
                assert len({one.scene for one in some}) == 1
        assert bank.check().faults == []


def test_what_is_handed_out_is_found_by_the_code_on_the_page(tmp_path: Path) -> None:
    """Also a problem that the bank has under other names, by which its code was made."""
    (tmp_path / "class.txt").write_text("Zebulon, he\nQuintessa, she\nWolfram, he\nXochitl, she\n")
    wish = {"strategy": ["any"], "count": 8, "seed": 4}
    with Bank(tmp_path / "a.bank") as bank:
        first = bank.hand_out(Request(**wish), "2A")
        named = Request(**wish, names=tmp_path / "class.txt")
        again = bank.hand_out(named, "2B", from_bank=False)
        assert bank.count() < len(first.problems) + len(again.problems)
        for one in again.problems:
            (kept,) = bank.named([one.code])
            assert sorted(kept.node["numbers"]) == sorted(one.numbers)
        bare = make_set(named)
        noted = bank.add(bare).notes
        codes = {one.code for one in bare.problems} - {one.code for one in bank.find()}
        assert codes and all(any(note.startswith(code) for note in noted) for code in codes)


def test_new_problems_are_as_without_a_bank(tmp_path: Path) -> None:
    """With nothing to draw the set is that of the same request and seed, levels included."""
    for at, wish in enumerate(WISHES):
        request = replace(wish, seed=2)
        with Bank(tmp_path / f"{at}.bank") as bank:
            assert bank.hand_out(request, "2B").problems == make_set(request).problems
            assert bank.check().faults == []


def test_what_was_retired_is_not_made_again_for_anybody(tmp_path: Path) -> None:
    wish = Request(strategy=["any"], count=6, seed=1)
    with Bank(tmp_path / "a.bank") as bank:
        first = bank.hand_out(wish, "2A")
        gone = [one.text for one in first.problems[:3]]
        bank.retire([one.code for one in first.problems[:3]])
        for label, from_bank in (("2B", True), ("2C", False), (None, False)):
            made = bank.hand_out(wish, label, from_bank=from_bank)
            assert not [one for one in made.problems if one.text in gone]
            assert len(made.problems) == 6


def test_when_nothing_more_can_be_found_it_is_said_with_the_number(tmp_path: Path) -> None:
    wish = Request(
        pair=["8 + 5"], count=12, situation=["join-result-unknown"], theme=["forest-walk"], seed=1
    )
    given: list[Problem] = []
    with Bank(tmp_path / "a.bank") as bank, pytest.raises(NoNumbersError) as told:
        while True:
            before = (bank.actions(100), bank.count())
            given += bank.hand_out(wish, "2B").problems
    assert max(Counter(map(meaning, given)).values(), default=1) == 1
    assert "problems asked for" in str(told.value) and "class 2B has not had" in str(told.value)
    with Bank(tmp_path / "a.bank") as bank:
        assert (bank.actions(100), bank.count()) == before


def test_children_take_turns_and_none_is_kept(tmp_path: Path) -> None:
    names = ["Zebulon", "Quintessa", "Xochitl", "Wolfram", "Yevgenia", "Thorvald"]
    said = ["he", "she", "she", "he", "she", "he"]
    lines = [f"{name}, {pronoun}" for name, pronoun in zip(names, said, strict=True)]
    (tmp_path / "class.txt").write_text("\n".join(lines))
    path = tmp_path / "a.bank"
    with Bank(path) as bank:
        bank.hand_out(Request(strategy=["any"], count=30, seed=1), "2A")
        wish = Request(strategy=["any"], count=12, seed=2, names=tmp_path / "class.txt")
        made = bank.hand_out(wish, "2B")
        assert "12 problems from the bank." in made.notes
        used = Counter(name for one in made.problems for name in one.story.people)
        assert set(used) == set(names)
        assert max(used.values()) - min(used.values()) <= 2
        bank.hand_out(Request(count=4, seed=3, names=tmp_path / "class.txt"), "2B", from_bank=False)
    held = b"".join(file.read_bytes() for file in tmp_path.glob("a.bank*"))
    text = str(rows(path, "SELECT text FROM problem"))
    for name in names:
        assert name.encode() not in held and name not in text


def _hand_out(path: Path, at: int, out: Any) -> None:
    found = []
    with Bank(path) as bank:
        for turn in range(10):
            wish = Request(strategy=["any"], count=3, seed=turn % 3)
            found += [meaning(one) for one in bank.hand_out(wish, "2B").problems]
    out.put((at, found))


def test_programs_that_hand_out_at_once_give_nothing_twice(tmp_path: Path) -> None:
    path = tmp_path / "a.bank"
    with Bank(path) as bank:
        bank.hand_out(Request(strategy=["any"], count=60, seed=1), None)
    process = multiprocessing.get_context("spawn")
    out = process.Queue()
    programs = [process.Process(target=_hand_out, args=(path, at, out)) for at in range(4)]
    for one in programs:
        one.start()
    given = [some for _ in programs for some in out.get(timeout=300)[1]]
    for one in programs:
        one.join()
    assert len(given) == 4 * 10 * 3 == len(set(given))
    with Bank(path) as bank:
        assert sum(len(one.problems) for one in bank.history("2B")) == len(given)
        assert len(bank.history("2B")) == 40
