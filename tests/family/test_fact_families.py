"""Fact families: four stories of one scene, an equation each, read by the reader, laws kept.

The checks run on every problem while it is made, so a set that is made keeps every law. The
reader (tests/reader) imports nothing of Storybank and reads the English alone.
"""

import json
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given
from hypothesis import strategies as st
from reader import read

from storybank import (
    Request,
    documents,
    families,
    make_set,
    number_choice,
    situations,
    themes,
    vocabulary,
)
from storybank.cli import main
from storybank.errors import NoNumbersError, RequestError
from storybank.model import Form, Problem, Triple
from storybank.number_choice import Wish
from storybank.solution import equations
from storybank.strategies import fitting

SCHEMA = json.loads(
    (Path(documents.__file__).parent / "set_schema.json").read_text(encoding="utf-8")
)
CELLS = [(theme, level) for theme in themes.ids() for level in vocabulary.ids()]


def fours(problems: Sequence[Problem]) -> Iterator[tuple[Problem, ...]]:
    """The stories of each family, in order."""
    assert len(problems) % 4 == 0
    for start in range(0, len(problems), 4):
        yield tuple(problems[start : start + 4])


def key(problem: Problem) -> tuple[int, ...]:
    return tuple(sorted(problem.numbers.values()))


@pytest.mark.parametrize(("theme", "level"), CELLS)
def test_a_family_tells_its_four_equations_in_one_scene(theme: str, level: str) -> None:
    made = make_set(Request(theme=[theme], vocabulary=level, fact_families=True, count=8, seed=77))
    assert [one.family for one in made.problems] == [1] * 4 + [2] * 4
    assert len({one.text for one in made.problems}) == 8
    assert len({one.code for one in made.problems}) == 8
    triples = set()
    for four in fours(made.problems):
        (triple,) = {key(one) for one in four}
        triples.add(triple)
        a, b = four[0].story.given
        c = a + b
        assert a != b and triple[-1] == c
        assert [one.equations.solution for one in four] == [
            f"{a} + {b} = ?", f"{b} + {a} = ?", f"{c} - {a} = ?", f"{c} - {b} = ?",
        ]  # fmt: skip
        assert [one.answer for one in four] == [c, c, b, a]
        assert {tuple(sorted(one.related_facts)) for one in four} == {
            tuple(sorted(four[0].related_facts))
        }
        assert len({one.scene for one in four}) == 1
        people = max((one.story.people for one in four), key=len)
        assert all(one.story.people == people[: len(one.story.people)] for one in four)
        things = [{word.word for word in one.story.word_bank if word.one} for one in four]
        assert set.intersection(*things)
        for one in four:
            reading = read(one.text)
            assert (reading.equation, reading.answer) == (one.equations.situation, one.answer)
    assert len(triples) == 2


def test_published_families_are_told() -> None:
    """The three numbers of CCSS-M 1.OA.3, 1.OA.4 and 1.OA.6: 8 + 3, 10 - 8 and 12 - 8."""
    for a, b in ((8, 3), (8, 2), (8, 4)):
        for shape in families.SHAPES:
            told = families.triples(shape, a, b)
            c = a + b
            assert [equations(situations.get(name), triple).solution for name, triple in told] == [
                f"{a} + {b} = ?", f"{b} + {a} = ?", f"{c} - {a} = ?", f"{c} - {b} = ?",
            ]  # fmt: skip


@pytest.mark.parametrize("shape", families.SHAPES)
@pytest.mark.parametrize("strategy", [None, "make-a-ten", "split-tens-and-ones", "count-on"])
@pytest.mark.parametrize("crossing", ["any", "always", "never"])
def test_the_supply_is_every_triple_that_fits_all_four_stories(
    shape: str, strategy: str | None, crossing: str
) -> None:
    """Against the supplies of the four situations, listed one by one."""
    wish = Wish("join-result-unknown", strategy, limit=40, crossing=crossing)
    wishes = number_choice.wishes_for(shape, wish)
    listed = [set(number_choice.supply(one)) for one in wishes]
    expected = {
        Triple(a, c - a, c)
        for c in range(2, 41)
        for a in range(1, c)
        if 2 * a != c
        and all(
            triple in one
            for one, (_, triple) in zip(listed, families.triples(shape, a, c - a), strict=True)
        )
    }
    assert set(number_choice.family_supply(shape, wishes)) == expected
    if strategy is None or (strategy, crossing) == ("make-a-ten", "always"):
        assert expected


@given(
    st.sampled_from(list(families.SHAPES)),
    st.tuples(*[st.tuples(st.integers(1, 30), st.integers(20, 60))] * 12),
)
def test_the_room_of_all_four_stories_holds(
    shape: str, bounds: tuple[tuple[int, int], ...]
) -> None:
    plain = number_choice.wishes_for(shape, Wish("join-result-unknown", limit=60))
    rooms = [bounds[at : at + 3] for at in range(0, 12, 3)]
    wishes = tuple(
        Wish(one.situation, limit=60, room=(room[0], room[1], room[2]))
        for one, room in zip(plain, rooms, strict=True)
    )
    first, second, third, fourth = wishes
    supply = number_choice.family_supply(shape, (first, second, third, fourth))
    chosen = number_choice.choose(supply, "any key")
    if chosen is None:
        assert not set(supply)
        return
    for room, (_, triple) in zip(rooms, families.triples(shape, chosen.a, chosen.b), strict=True):
        numbers = (triple.a, triple.b, triple.c)
        assert all(low <= one <= high for one, (low, high) in zip(numbers, room, strict=True))


@pytest.mark.parametrize("strategy", ["make-a-ten", "split-tens-and-ones", "tens-then-ones"])
def test_a_strategy_asked_for_fits_each_pair_as_solved(strategy: str) -> None:
    made = make_set(Request(strategy=[strategy], fact_families=True, count=20, seed=4))
    for one in made.problems:
        assert one.strategy == strategy
        a, b = one.solution.a, one.solution.b
        assert a is not None and b is not None
        forms = ("add",) if one.solution.operation == "+" else ("subtract", "sought")
        assert any(strategy in fitting(Form(form), a, b, 100) for form in forms)


def test_a_share_that_regroups_is_kept_by_families() -> None:
    made = make_set(Request(fact_families=True, count=40, crossing="30", seed=9))
    regroup = []
    for four in fours(made.problems):
        whole = max(four[0].numbers.values())
        (found,) = {whole % 10 < part % 10 for one in four for part in one.numbers.values()
                    if part != whole} or {False}  # fmt: skip
        regroup.append(found)
    assert sum(regroup) == 3


def test_keywords_stay_in_balance_or_it_is_said() -> None:
    for seed in range(6):
        made = make_set(Request(fact_families=True, count=40, seed=seed))
        for word in ("more", "left", "in all", "altogether", "together"):
            uses = [one for one in made.problems if f" {word}" in one.text]
            adding = sum(one.solution.operation == "+" for one in uses)
            leans = len(uses) >= 4 and max(adding, len(uses) - adding) > 0.75 * len(uses)
            assert not leans or any(f'"{word}"' in note for note in made.notes), (seed, word)


def test_the_levels_side_by_side_tell_the_same_family() -> None:
    made = make_set(Request(fact_families=True, levels_side_by_side=True, count=8, seed=2))
    for problem in made.problems:
        assert [one.vocabulary for one in problem.levels] == list(vocabulary.ids())
        for one in problem.levels:
            assert one.numbers == problem.numbers
            assert read(one.text).answer == problem.answer


def test_every_child_of_a_class_list_is_named(tmp_path: Path) -> None:
    names = [f"{first}{rest}" for first in "ABCDE" for rest in ("nna", "lio", "ruk", "mira")]
    listed = tmp_path / "class.txt"
    listed.write_text("\n".join(names), encoding="utf-8")
    made = make_set(Request(fact_families=True, names=listed, count=80, seed=1))
    assert {name for one in made.problems for name in one.story.people} == set(names)


def test_the_set_says_of_each_problem_which_family_it_is_of(
    capsys: pytest.CaptureFixture[str],
) -> None:
    wish = ["make", "--seed", "3", "--count", "8", "--format", "json", "--no-settings"]
    assert main([*wish, "--fact-families", "--out", "-"]) == 0
    made = json.loads(capsys.readouterr().out)
    jsonschema.validate(made, SCHEMA)
    assert [one["family"] for one in made["problems"]] == [1] * 4 + [2] * 4
    assert made["request"]["fact_families"] is True
    assert main([*wish, "--out", "-"]) == 0
    plain = json.loads(capsys.readouterr().out)
    assert "fact_families" not in plain["request"]
    assert all("family" not in one for one in plain["problems"])


@pytest.mark.parametrize(
    ("wish", "said"),
    [
        ({"count": 10}, r"--count is 10, and it counts stories.*multiple of 4, such as 8 or 12"),
        ({"count": 3}, r"multiple of 4, such as 4\."),
        ({"pair": ["8 + 5"]}, r'pair "8 \+ 5" and fact families were both asked for'),
        ({"strategy": ["count-up"]}, r"count-up does not suit all four.*make-a-ten.*or any"),
        ({"strategy": ["make-a-ten", "count-up"]}, r"count-up does not suit all four stories"),
        ({"situation": ["join-result-unknown"]}, r"join-result-unknown tells no fact family"),
        (
            {"situation": ["whole-unknown", "part-unknown", "join-start-unknown"]},
            r"join-start-unknown tells no fact family.*whole-unknown and part-unknown",
        ),
    ],
)
def test_a_wish_that_cannot_be_told_as_families_is_explained(
    wish: dict[str, Any], said: str
) -> None:
    with pytest.raises(RequestError, match=said):
        make_set(Request(**{"fact_families": True, "seed": 1, **wish}))


def test_where_no_numbers_are_left_the_largest_count_is_named() -> None:
    with pytest.raises(NoNumbersError, match=r"0 where friendly-then-compensate fits all four"):
        make_set(Request(fact_families=True, strategy=["friendly-then-compensate"], seed=1))
    wish = {"fact_families": True, "strategy": ["make-a-ten"], "within": 20, "seed": 1}
    with pytest.raises(NoNumbersError, match=r"largest count possible is 48\."):
        make_set(Request(**wish, count=52))  # type: ignore[arg-type]
    assert len(make_set(Request(**wish, count=48)).problems) == 48  # type: ignore[arg-type]
