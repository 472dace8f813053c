"""The numbered space: every different problem once, the same whatever was made before."""

import hashlib
import os
import random
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from reader import read
from scipy.stats import chi2

from storybank import Request, Space, checks, number_choice, people, story
from storybank.errors import NoNumbersError, RequestError
from storybank.generate import Choice
from storybank.model import Problem
from storybank.number_choice import Wish
from storybank.number_choice._entries import triple_of
from storybank.request import Settled, settle
from storybank.tellings import KEYWORDS

ANY = ("any",)
SMALL: dict[str, dict[str, Any]] = {
    "any": {"theme": ["windy-spring"], "within": 10, "strategy": ANY},
    "two strategies": {
        "theme": ["winter-days"],
        "within": 20,
        "strategy": ["make-a-ten", "near-doubles"],
    },
    "level-1": {
        "theme": ["winter-days"],
        "within": 12,
        "strategy": ANY,
        "vocabulary": "level-1",
    },
    "both tiers": {
        "theme": ["windy-spring"],
        "within": 50,
        "strategy": ["tens-then-ones"],
        "situation": ["join-result-unknown", "separate-result-unknown"],
    },
    "diagnose": {"theme": ["winter-days"], "within": 20, "strategy": ANY, "diagnose": True},
    "no keywords": {
        "theme": ["winter-days"],
        "within": 10,
        "strategy": ANY,
        "keywords": "none",
    },
    "crossing": {"theme": ["winter-days"], "within": 14, "strategy": ANY, "crossing": "always"},
    "units": {"theme": ["winter-days"], "within": 20, "strategy": ANY, "units": ["any"]},
    "own rules": {
        "theme": ["winter-days"],
        "within": 10,
        "strategy": ANY,
        "vocabulary": "level-3",
        "allow": ["past"],
        "forbid": ["pronouns"],
        "situation": ["join-change-unknown", "both-parts-unknown"],
    },
    "both parts": {
        "theme": ["winter-days", "windy-spring"],
        "strategy": ANY,
        "situation": ["both-parts-unknown"],
    },
}


def request(name: str, seed: int = 3) -> Request:
    return Request(seed=seed, **SMALL[name])


def by_trying(settled: Settled) -> dict[Choice, int]:
    """Every choice with its tier, found plan by plan without the numbered space."""
    found: dict[Choice, int] = {}
    for key in settled.scene_keys():
        theme = settled.theme(key.split("/")[0])
        scene = theme.scenes[key.split("/")[1]]
        things = story.measured_things(scene, settled.units) if settled.units else scene.things
        for thing in things:
            for situation in settled.situations:
                for telling, plan in plans(settled, key, thing, situation):
                    for parts, tier in triples(settled, situation, plan):
                        choice = Choice(key, thing, situation, telling, parts)
                        found[choice] = min(tier, found.get(choice, tier))
    return found


def plans(
    settled: Settled, key: str, thing: str, situation: str
) -> Iterator[tuple[str, story.Plan]]:
    theme = settled.theme(key.split("/")[0])
    scene = theme.scenes[key.split("/")[1]]
    if settled.units:
        drafts = story.measured_drafts(theme, scene, thing, situation, settled.vocabulary)
        made = {name: [one.plan for one in some] for name, some in drafts.items()}
        found = {name: [plan for plan in some if plan] for name, some in made.items()}
    else:
        known = story.plans_for(theme, scene, thing, situation, settled.vocabulary)
        found = {name: list(some) for name, some in known.items()}
    for telling, some in found.items():
        for plan in some:
            shut = settled.keywords == "none" and not situation.startswith("compare")
            if shut and set(KEYWORDS) & set(plan.skeleton.keywords):
                continue
            if not settled.vocabulary.shipped and not told_within_limits(settled, plan, situation):
                continue
            yield telling, plan


def told_within_limits(settled: Settled, plan: story.Plan, situation: str) -> bool:
    """Whether a plan told with sevens keeps the pack's limits, by the checks themselves."""
    some = people.own_list().people
    first = next(one for one in some if one.pronoun == "he" and len(one.name) <= 5)
    second = next(one for one in some if one.initial != first.initial and len(one.name) <= 5)
    numbers = dict.fromkeys(
        ("start", "change", "end", "part1", "part2", "whole", "bigger", "smaller", "difference"), 7
    )
    cast = (first, second)[: plan.skeleton.people]
    told = story.tell(plan, cast, {**numbers, "answer": 7})
    theme = settled.theme(plan.scene.split("/")[0])
    context = checks.Context(1000, settled.vocabulary, theme, people=cast)
    return checks.keeps_limits(told, situation, context)


def triples(
    settled: Settled, situation: str, plan: story.Plan
) -> Iterator[tuple[tuple[int, int], int]]:
    for strategy in settled.strategies_for[situation] or (None,):
        wish = Wish(
            situation,
            strategy,
            settled.within,
            settled.crossing,
            plan.room,
            settled.diagnose,
            plan.skeleton.keywords,
        )
        one = number_choice.supply(wish)
        for tier, tens in enumerate((one.preferred, one.second_best)):
            for ten in tens:
                for entry in one.listed[ten][tier]:
                    triple = triple_of(entry, 0)[0]
                    yield (min(triple.a, triple.b), max(triple.a, triple.b)), tier


@pytest.mark.parametrize("name", SMALL)
def test_the_space_holds_every_different_choice_once(name: str) -> None:
    space = Space(request(name))
    found = [space.choice(n) for n in range(space.size)]
    expected = by_trying(settle(request(name), 0))
    assert len(set(found)) == len(found) == space.size
    assert set(found) == set(expected)
    assert set(found[: space.preferred]) == {one for one, tier in expected.items() if tier == 0}


def test_second_best_numbers_come_last() -> None:
    for name in ("both tiers", "both parts"):
        space = Space(request(name))
        assert 0 < space.preferred < space.size


def judged(problem: Problem, settled: Settled) -> tuple[str, ...]:
    context = checks.Context(
        settled.within,
        settled.vocabulary,
        settled.theme(problem.theme),
        people=[one for one in settled.roster.people if one.name in problem.story.people],
        measured=problem.story.unit is not None,
    )
    return checks.judge(problem, context)


@pytest.mark.parametrize("name", SMALL)
def test_every_problem_is_of_its_choice_and_without_fault(name: str) -> None:
    space, settled = Space(request(name)), settle(request(name), 0)
    for n in range(0, space.size, 1 + space.size // 1500):
        problem, choice = space.problem(n), space.choice(n)
        assert f"{problem.theme}/{problem.scene}" == choice.scene
        assert problem.situation == choice.situation
        assert problem.story.telling == choice.telling.split("/", 1)[1]
        *parts, whole = sorted(problem.numbers.values())
        assert whole == sum(choice.parts)
        assert tuple(parts) == choice.parts or problem.situation == "both-parts-unknown"
        assert not judged(problem, settled)
        if settled.strategies != ANY and problem.strategy is not None:
            assert problem.strategy in settled.strategies
        if settled.crossing == "always":
            given = problem.story.given
            assert sum(one % 10 for one in problem.numbers.values()) > whole % 10 * 2, given


def test_a_problem_does_not_hang_on_those_made_before() -> None:
    first, second = Space(request("two strategies")), Space(request("two strategies"))
    numbers = list(range(0, first.size, 9))
    one = {n: first.problem(n) for n in numbers}
    random.Random(1).shuffle(numbers)
    assert all(second.problem(n) == one[n] == first.problem(n) for n in numbers)
    assert first.request == second.request
    assert (first.size, first.preferred, first.notes) == (
        second.size,
        second.preferred,
        second.notes,
    )


def test_the_count_of_a_request_is_ignored() -> None:
    wish = SMALL["two strategies"]
    one, other = Space(Request(seed=3, **wish)), Space(Request(seed=3, count=90_000, **wish))
    assert one.request == other.request
    assert one.problem(17) == other.problem(17)


def test_another_seed_gives_the_same_choices_in_another_order() -> None:
    one, other = Space(request("two strategies")), Space(request("two strategies", seed=4))
    first, second = ([each.choice(n) for n in range(each.size)] for each in (one, other))
    assert first != second
    assert set(first) == set(second)
    stayed = sum(a == b for a, b in zip(first, second, strict=True))
    assert stayed < 12  # Of a permutation one place in all stays, and hardly ever more than a few.


def test_without_a_seed_one_is_drawn_and_told() -> None:
    one = Space(Request(**SMALL["two strategies"]))
    again = Space(Request(**SMALL["two strategies"], seed=one.request["seed"]))
    assert [one.problem(n) for n in range(5)] == [again.problem(n) for n in range(5)]


def test_there_is_no_problem_beyond_the_last() -> None:
    space = Space(request("two strategies"))
    for n in (-1, space.size):
        with pytest.raises(IndexError, match=str(space.size)):
            space.problem(n)


def test_a_slice_is_spread_over_the_situations() -> None:
    """Uniform over choices: chi-square of a slice against the shares of the whole space."""
    space = Space(request("level-1"))
    all_of_them = Counter(space.choice(n).situation for n in range(space.preferred))
    drawn = space.preferred // 4
    some = Counter(space.choice(n).situation for n in range(drawn))
    statistic = sum(
        (some[name] - count / 4) ** 2 / (count / 4) for name, count in all_of_them.items()
    )
    assert statistic < chi2.ppf(0.9999, len(all_of_them) - 1)


SCRIPT = """
import json
from storybank import Request, Space
space = Space(Request(theme=["windy-spring"], within=20, strategy=["any"], seed=8))
print(space.size, space.preferred)
for n in range(0, 300, 5):
    print(json.dumps(space.problem(n).to_json()))
"""


def test_the_same_problems_under_any_hash_seed() -> None:
    runs = {
        hashlib.sha256(
            subprocess.run(
                [sys.executable, "-c", SCRIPT],
                env={**os.environ, "PYTHONHASHSEED": seed},
                check=True,
                capture_output=True,
            ).stdout
        ).hexdigest()
        for seed in ("0", "4711")
    }
    assert len(runs) == 1


@pytest.mark.parametrize(
    ("wish", "words"),
    [
        ({"steps": 2}, ["--steps 2"]),
        ({"then": ["join-result-unknown"]}, ["--then join-result-unknown"]),
        ({"addends": 3}, ["--addends 3"]),
        ({"number_sets": [10, 20]}, ["--number-sets 10 20"]),
        ({"extra_number": True}, ["--extra-number"]),
        ({"missing": True}, ["--missing"]),
        ({"fact_families": True}, ["--fact-families"]),
        ({"pair": ["46 + 38"]}, ["--pair 46 + 38"]),
        ({"levels_side_by_side": True}, ["--levels-side-by-side"]),
        ({"crossing": "50"}, ["--crossing 50", "always"]),
        ({"crossing": "50%"}, ["--crossing 50%", "never"]),
        ({"names": "class.txt"}, ["--names class.txt"]),
    ],
)
def test_a_request_that_has_no_space_is_refused(wish: dict[str, Any], words: list[str]) -> None:
    with pytest.raises(RequestError) as said:
        Space(Request(seed=1, **wish))
    for word in (*words, "Leave it out"):
        assert word in str(said.value)


def test_other_mistakes_are_told_as_for_a_set() -> None:
    with pytest.raises(RequestError, match="--crossing"):
        Space(Request(crossing="often"))
    with pytest.raises(RequestError, match="Did you mean"):
        Space(Request(theme=["autum-harvest"]))


def test_a_space_of_nothing_is_refused() -> None:
    wish = {"theme": ["windy-spring"], "within": 5, "crossing": "always"}
    with pytest.raises(NoNumbersError, match=r"within 5.*--strategy any"):
        Space(Request(strategy=ANY, seed=1, **wish))


@pytest.fixture(scope="module")
def whole() -> Space:
    return Space(Request(strategy=ANY, seed=20))


def test_the_space_of_all_themes_holds_more_than_a_million(whole: Space) -> None:
    assert whole.size > 1_000_000
    assert whole.request["within"] == 100
    first, second = ({whole.choice(n) for n in range(at, at + 3000)} for at in (0, 3000))
    assert len(first) == len(second) == 3000
    assert first.isdisjoint(second)


@settings(max_examples=150, deadline=None)
@given(data=st.data())
def test_the_reader_solves_what_the_space_tells(whole: Space, data: st.DataObject) -> None:
    problem = whole.problem(data.draw(st.integers(0, whole.size - 1)))
    found = read(problem.text)
    assert found.equation == problem.equations.situation, problem.text
    assert found.situation == problem.situation, problem.text
    expected = problem.answer if isinstance(problem.answer, int) else list(problem.answer)
    assert found.answer == expected, problem.text
    assert problem.reading.words == len(problem.text.split())


MEMORY = """
import random
from pathlib import Path
from storybank import Request, Space
space = Space(Request(strategy=["any"], seed=5))
luck = random.Random(1)
for _ in range(2500):
    space.problem(luck.randrange(space.size)).to_json()
print(Path("/proc/self/status").read_text().split("VmHWM:")[1].split()[0])
"""


@pytest.mark.skipif(not Path("/proc/self/status").exists(), reason="Linux tells it there")
def test_little_room_is_taken() -> None:
    """All themes, situations and strategies within 100; the caches are bounded beyond that."""
    ran = subprocess.run([sys.executable, "-c", MEMORY], check=True, capture_output=True, text=True)
    assert int(ran.stdout) < 120 * 1024
