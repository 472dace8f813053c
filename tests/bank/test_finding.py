"""What is wanted is found, counted independently by going through all problems."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from bank.kept import a_set

from storybank import Bank, Problem, StorybankError
from storybank.bank import Wanted
from storybank.errors import BankError, RequestError


@pytest.fixture(scope="module")
def bank(tmp_path_factory: pytest.TempPathFactory) -> Any:
    with Bank(tmp_path_factory.mktemp("bank") / "a.bank") as bank:
        for kind in ("one step", "plain English", "two steps", "measured"):
            bank.add(a_set(kind))
        yield bank


def words(problem: Problem) -> str:
    return problem.text.lower()


CASES: dict[str, tuple[Wanted, Callable[[Problem], bool]]] = {
    "two themes": (
        Wanted(theme=["winter-days", "kitchen-days"]),
        lambda one: one.theme in ("winter-days", "kitchen-days"),
    ),
    "a situation": (
        Wanted(situation=["join-result-unknown"]),
        lambda one: "join-result-unknown" in _situations(one),
    ),
    "two strategies": (
        Wanted(strategy=["count-on", "count-up"]),
        lambda one: bool({"count-on", "count-up"} & _strategies(one)),
    ),
    "a level": (Wanted(vocabulary=["level-1"]), lambda one: one.vocabulary == "level-1"),
    "a limit": (Wanted(within=20), lambda one: max(_numbers(one)) <= 20),
    "a standard": (Wanted(standard=["2.OA.1"]), lambda one: "2.OA.1" in one.standards),
    "words": (Wanted(words="how many"), lambda one: "how many" in words(one)),
    "words that follow": (Wanted(words='"in the"'), lambda one: " in the " in words(one)),
    "a word that no story has": (Wanted(words="how OR xylophone"), lambda one: False),
    "all at once": (
        Wanted(words="how", within=50, vocabulary=["level-4"]),
        lambda one: max(_numbers(one)) <= 50 and one.vocabulary == "level-4",
    ),
}


def _situations(one: Problem) -> set[str]:
    return {step.situation for step in one.steps} or {one.situation}


def _strategies(one: Problem) -> set[str]:
    return {step.strategy for step in one.steps} or {one.strategy or ""}


def _numbers(one: Problem) -> list[int]:
    steps = [number for step in one.steps for number in step.numbers.values()]
    return steps or list(one.numbers.values())


@pytest.mark.parametrize(("wanted", "holds"), CASES.values(), ids=CASES)
def test_what_is_wanted_is_found(
    bank: Bank, wanted: Wanted, holds: Callable[[Problem], bool]
) -> None:
    every = [one.problem() for one in bank.find()]
    expected = [one.code for one in every if holds(one)]
    assert [one.code for one in bank.find(wanted)] == expected
    assert bank.count(wanted) == len(expected)


def test_a_word_finds_its_other_forms(bank: Bank) -> None:
    every = bank.find()
    plural = next(
        word.word
        for one in every
        for word in one.problem().story.word_bank
        if word.word.endswith("s")
    )
    found = {one.number for one in bank.find(Wanted(words=plural.removesuffix("s")))}
    assert found == {one.number for one in bank.find(Wanted(words=plural))} != set()


def test_pages_of_results_follow_one_another(bank: Bank) -> None:
    every = [one.number for one in bank.find()]
    assert [one.number for one in bank.find(most=5, skip=5)] == every[5:10]


def test_problems_of_the_same_meaning_are_found(tmp_path: Path) -> None:
    """The same numbers, situation and scene in other words are alike; other numbers are not."""
    from storybank import Request, make_set

    wish = {"pair": ["8 + 5"], "situation": ["whole-unknown"], "theme": ["autumn-harvest"]}
    with Bank(tmp_path / "a.bank") as bank:
        bank.add(make_set(Request(count=40, seed=1, **wish)))
        bank.add(make_set(Request(count=6, seed=2, strategy=["any"])))
        first = bank.find()[0]
        alike = bank.find(Wanted(like=f"#{first.number}"))
        numbers = sorted(first.node["numbers"].values())
        expected = [
            one.number
            for one in bank.find()
            if (one.scene, one.situation) == (first.scene, first.situation)
            and sorted(one.node["numbers"].values()) == numbers
        ]
        assert [one.number for one in alike] == expected and len(expected) > 1


HOSTILE = [
    "'; DROP TABLE problem; --",
    '" OR 1=1',
    "*",
    "NEAR(a b)",
    "text:apples",
    "a AND (b",
    "\x00",
    "^a",
    "{a b}",
    "-a",
    "x" * 500,
    "\u017f",
    "\U00010000",
]


@pytest.mark.parametrize("text", HOSTILE)
def test_words_are_never_read_as_commands(bank: Bank, text: str) -> None:
    count = bank.count()
    try:
        bank.find(Wanted(words=text))
    except RequestError as error:
        assert "No word is in" in str(error)
    for wanted in (
        Wanted(theme=[text]),
        Wanted(scene=[text]),
        Wanted(season=[text]),
        Wanted(standard=[text]),
        Wanted(code=[text]),
        Wanted(had_by=text),
        Wanted(like=text),
    ):
        with pytest.raises(StorybankError):
            bank.find(wanted)
    assert bank.find(Wanted(new_to=text)) == bank.find()
    assert bank.count() == count


def test_what_is_not_there_is_said_with_the_choices(bank: Bank) -> None:
    with pytest.raises(RequestError, match=r'no theme "wintr-days".*Did you mean "winter-days"'):
        bank.find(Wanted(theme=["wintr-days"]))
    with pytest.raises(BankError, match='no problem "ZZZZZ"'):
        bank.named(["ZZZZZ"])
    with pytest.raises(BankError, match='no problem "#999"'):
        bank.named(["#999"])
    with pytest.raises(RequestError, match="neither a code nor a number"):
        bank.named(["the first"])
    with pytest.raises(BankError, match='No class "9Z"'):
        bank.find(Wanted(had_by="9Z"))
