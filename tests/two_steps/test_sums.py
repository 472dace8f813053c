"""Sums of three and four addends: numbers with a friendly pair, laws, the reader, the format.

CCSS-M 1.OA.2: "Solve word problems that call for addition of three whole numbers whose sum is less
than or equal to 20"; 2.NBT.6: "Add up to four two-digit numbers using strategies based on place
value and properties of operations"; 1.OA.3: "To add 2 + 6 + 4, the second two numbers can be added
to make a ten, so 2 + 6 + 4 = 2 + 10 = 12" (Common Core State Standards for Mathematics, 2010;
quoted from memory).
"""

import json
import re
from collections import Counter
from itertools import combinations

import jsonschema
import pytest
from reader import CannotRead
from reader.sums import read_sum

from storybank import Request, checks, make_set, people, solution, strategies, themes, vocabulary
from storybank.documents.json import SCHEMA
from storybank.errors import NoNumbersError, RequestError
from storybank.model import Problem
from storybank.number_choice import SumWish, friendly_pairs, sum_supply

LEVELS = vocabulary.ids()
KINDS = ((3, None), (3, 100), (4, None))


def made(level: str, addends: int, within: int | None, seed: int) -> tuple[Problem, ...]:
    wish = Request(addends=addends, within=within, vocabulary=level, seed=seed, count=15)
    return make_set(wish).problems


@pytest.fixture(scope="module")
def some() -> tuple[Problem, ...]:
    return tuple(one for level in LEVELS for kind in KINDS for one in made(level, *kind, 21))


@pytest.mark.parametrize("level", LEVELS)
def test_the_reader_agrees_on_every_story(level: str) -> None:
    disagreed = []
    for seed in range(5):
        for addends, within in KINDS:
            for one in made(level, addends, within, seed):
                try:
                    found = read_sum(one.text)
                except CannotRead as error:
                    disagreed.append(f"{one.text!r}: {error}")
                    continue
                if (found.equation, found.answer) != (one.equations.situation, one.answer):
                    disagreed.append(f"{one.text!r}: read as {found.equation}")
    assert not disagreed, "\n".join(disagreed)


def test_the_friendly_pair_is_one_and_added_first_and_not_always_told_first(
    some: tuple[Problem, ...],
) -> None:
    places: Counter[tuple[int, int]] = Counter()
    for one in some:
        *parts, whole = one.numbers.values()
        assert list(one.story.given) == parts == list(map(int, re.findall(r"\d+", one.text)))
        assert sum(parts) == whole == one.answer
        assert len({*parts, whole}) == len(parts) + 1
        friendly = [
            (a, b) for a, b in combinations(range(len(parts)), 2) if (parts[a] + parts[b]) % 10 == 0
        ]
        ((first, second),) = friendly
        if len(parts) == 3:
            places[first, second] += 1
        total = parts[first] + parts[second]
        assert one.solution.lines[0] == f"{parts[first]} + {parts[second]} = {total}"
        if whole <= 20 and one.standards == ("1.OA.2",):
            assert total == 10
    assert set(places) == {(0, 1), (0, 2), (1, 2)}


def test_the_pair_stands_in_all_places_alike() -> None:
    supply = sum_supply(SumWish(3, 20, (*((1, 10),) * 3, (1, 30))))
    places: Counter[tuple[int, ...]] = Counter()
    for draw in range(3000):
        parts = supply.choose(f"{draw}/numbers", set())
        assert parts is not None
        (pair,) = friendly_pairs(parts)
        places[tuple(at for at, part in enumerate(parts) if part in pair)] += 1
    assert all(900 < count < 1100 for count in places.values()), places


def test_the_lines_of_an_example_of_the_standard() -> None:
    """CCSS-M 1.OA.3: 2 + 6 + 4 = 2 + 10 = 12."""
    assert solution.sum_solution((2, 6, 4), (6, 4)).lines == ("6 + 4 = 10", "10 + 2 = 12")


def test_standards_and_limits(some: tuple[Problem, ...]) -> None:
    for one in some:
        parts = list(one.numbers.values())[:-1]
        expected = ("1.OA.2",) if len(parts) == 3 and sum(parts) <= 20 else ("2.NBT.6",)
        assert one.standards == expected
        assert isinstance(one.answer, int) and one.answer <= 100


def test_wrong_answers_are_a_part_left_out_and_a_ten_dropped(some: tuple[Problem, ...]) -> None:
    for one in some:
        *parts, whole = one.numbers.values()
        by_mistake = {name: entry.answer for entry in one.watch_for for name in entry.mistakes}
        assert by_mistake["addend-left-out"] == whole - parts[-1]
        assert by_mistake.get("ten-dropped", whole - 10) == whole - 10
        assert set(by_mistake) <= {"addend-left-out", "ten-dropped"}


def test_friendly_pair_is_no_strategy_for_two_numbers() -> None:
    assert "friendly-pair" not in strategies.ids()


def test_each_check_of_sums_catches_its_samples(some: tuple[Problem, ...]) -> None:
    for check_id in ("addends", "given", "labels", "watch-for"):
        check, caught = checks.get(check_id), 0
        for one in some[::12]:
            pack = vocabulary.get(one.vocabulary)
            named = [who for who in people.own_list().people if who.name in one.story.people]
            context = checks.Context(100, pack, themes.get(one.theme), people=named)
            assert checks.judge(one, context) == ()
            for spoiled in check.spoil(one):
                assert check.judge(spoiled, context), f"{check_id} lets pass {spoiled}"
                caught += 1
        assert caught


def test_the_document_is_of_the_published_format() -> None:
    document = make_set(Request(addends=4, seed=2, count=8)).to_json()
    jsonschema.validate(document, json.loads(SCHEMA.read_text(encoding="utf-8")))
    assert document["request"]["addends"] == 4
    for one in document["problems"]:
        assert list(one["numbers"]) == ["part1", "part2", "part3", "part4", "whole"]
        assert (one["related_facts"], one["strategy"]) == ([], "friendly-pair")


@pytest.mark.parametrize(
    ("wishes", "words"),
    [
        ({"addends": 5}, "Choose 2, 3 or 4"),
        ({"addends": 4, "within": 20}, "choose 50 to 100"),
        ({"addends": 3, "within": 200}, "choose 10 to 100"),
        ({"addends": 3, "strategy": ["make-a-ten"]}, "--strategy does not go with"),
        ({"addends": 3, "pair": ["4 + 5"]}, "--pair does not go with"),
        ({"addends": 3, "situation": ["join-result-unknown"]}, "are told as whole-unknown"),
        ({"addends": 3, "steps": 2}, "--steps 2 and --addends 3 were asked for together"),
    ],
)
def test_what_cannot_be_is_refused_with_its_reason(wishes: dict[str, object], words: str) -> None:
    with pytest.raises(RequestError, match=re.escape(words)):
        make_set(Request(seed=1, **wishes))


def test_too_many_are_refused_with_the_largest_count() -> None:
    with pytest.raises(NoNumbersError, match=r"largest count possible is \d+"):
        make_set(Request(addends=3, seed=1, count=500, theme=["autumn-harvest"]))
