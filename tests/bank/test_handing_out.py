"""A class never gets the same twice, and what is drawn meets every wish of the request."""

from collections import Counter
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from bank.kept import KINDS, a_set, rows

from storybank import Bank, Problem, ProblemSet, Request, finished
from storybank.tellings import keywords_in

MORE = (
    Request(strategy=["any"], count=40, seed=51),
    Request(strategy=["any"], count=20, seed=52, within=1000),
    Request(strategy=["any"], count=20, seed=53, vocabulary="level-2"),
    Request(strategy=["any"], count=20, seed=54, crossing="always"),
    Request(strategy=["any"], count=20, seed=55, crossing="never"),
    Request(strategy=["any"], count=12, seed=56, keywords="none"),
    Request(count=12, seed=57, diagnose=True),
    Request(count=8, seed=58, home_language=["es"]),
    Request(count=12, seed=59, without=["meals", "sweets"]),
    Request(count=8, seed=60, vocabulary="level-2", allow=["past"]),
    Request(count=8, seed=61, theme=["lantern-nights"]),
    Request(count=8, seed=62, units=["lengths", "money"], strategy=["any"]),
    Request(count=12, seed=63, steps=2, within=20),
    Request(count=8, seed=64, steps=2, within=100),
    Request(count=8, seed=65, addends=3, within=100),
    Request(count=8, seed=66, pair=["40 + 30", "25 + 25"]),
)
"""What the bank is filled with beside one set of each kind."""


@pytest.fixture(scope="module")
def full(tmp_path_factory: pytest.TempPathFactory) -> bytes:
    """A bank of problems of many kinds, as the bytes of its file."""
    path = tmp_path_factory.mktemp("full") / "a.bank"
    from storybank import make_set

    with Bank(path) as bank:
        for kind in KINDS:
            bank.add(a_set(kind))
        for request in MORE:
            bank.add(make_set(request))
    return path.read_bytes()


@pytest.fixture
def path(full: bytes, tmp_path: Path) -> Path:
    (tmp_path / "a.bank").write_bytes(full)
    return tmp_path / "a.bank"


def meaning(one: Problem) -> tuple[Any, ...]:
    """What a class must not get twice: numbers, situation and scene."""
    worked = [(step.situation, sorted(step.numbers.values())) for step in one.steps]
    worked = worked or [(one.situation, sorted(one.numbers.values()))]
    return (one.theme, one.scene, str(worked))


def triples(one: Problem) -> list[str]:
    if one.steps:
        return [str([sorted(step.numbers.values()) for step in one.steps])]
    sets = [sorted(some.numbers.values()) for some in one.number_sets]
    return sorted({str(some) for some in [sorted(one.numbers.values()), *sets]})


def regroups(one: Problem) -> bool:
    """Whether adding the parts carries a ten."""
    parts = sorted(one.numbers.values())[:2]
    return parts[0] % 10 + parts[1] % 10 >= 10


def single_digits(one: Problem) -> bool:
    """Whether all parts of both steps are single digits but for what the first step gives."""
    first, then = one.steps
    parts = sorted(then.numbers.values())[:2]
    if one.hidden in parts:
        parts.remove(one.hidden)
    return max(*parts, *sorted(first.numbers.values())[:2]) < 10


def text_of(one: Problem) -> str:
    return one.text.lower()


Law = Callable[[Problem], object]
WISHES: dict[str, tuple[Request, Law]] = {
    "nothing said": (Request(count=8), lambda one: one.strategy == "friendly-then-compensate"),
    "a theme": (
        Request(strategy=["any"], count=5, theme=["winter-days", "forest-walk"]),
        lambda one: one.theme in ("winter-days", "forest-walk"),
    ),
    "a festival": (
        Request(count=6, theme=["lantern-nights"]),
        lambda one: one.theme == "lantern-nights",
    ),
    "a situation": (
        Request(strategy=["any"], count=5, situation=["join-result-unknown"]),
        lambda one: one.situation == "join-result-unknown",
    ),
    "a strategy": (
        Request(count=5, strategy=["count-on", "make-a-ten"]),
        lambda one: one.strategy in ("count-on", "make-a-ten"),
    ),
    "a limit": (
        Request(strategy=["any"], count=6, within=20),
        lambda one: max(one.numbers.values()) <= 20,
    ),
    "a level": (
        Request(strategy=["any"], count=6, vocabulary="level-1"),
        lambda one: one.vocabulary == "level-1",
    ),
    "a switched level": (
        Request(count=6, vocabulary="level-2", allow=["past"]),
        lambda one: one.vocabulary == "level-2",
    ),
    "regrouping": (Request(strategy=["any"], count=6, crossing="always"), regroups),
    "no regrouping": (
        Request(strategy=["any"], count=6, crossing="never"),
        lambda one: not regroups(one),
    ),
    "no keywords": (
        Request(strategy=["any"], count=6, keywords="none"),
        lambda one: "compar" in one.situation or not keywords_in(one.text),
    ),
    "to diagnose": (Request(count=6, diagnose=True), lambda one: one.watch_for),
    "words at home": (
        Request(count=6, home_language=["es"]),
        lambda one: all("es" in word.translations for word in one.story.word_bank),
    ),
    "units": (
        Request(strategy=["any"], count=5, units=["lengths"]),
        lambda one: one.story.unit in ("inches", "feet", "centimeters", "meters"),
    ),
    "two steps": (
        Request(steps=2, count=5),
        lambda one: len(one.steps) == 2 and single_digits(one),
    ),
    "two steps within 100": (
        Request(steps=2, count=5, within=100),
        lambda one: len(one.steps) == 2,
    ),
    "three addends": (Request(addends=3, count=5), lambda one: len(one.numbers) == 4),
    "number sets": (
        Request(number_sets=[20, 100], strategy=["any"], count=4),
        lambda one: [some.limit for some in one.number_sets] == [100, 20],
    ),
    "an extra number": (Request(extra_number=True, count=5), lambda one: len(one.extra) == 1),
    "a missing number": (Request(missing=True, count=5), lambda one: one.missing),
    "side by side": (
        Request(levels_side_by_side=True, count=3),
        lambda one: len(one.levels) == 4,
    ),
    "without subjects": (
        Request(strategy=["any"], count=6, without=["sweets", "meals"]),
        lambda one: not any(word in text_of(one) for word in ("cookie", "candy", "soup")),
    ),
}


def changes(one: Problem) -> tuple[bool, ...]:
    """What kinds of problem it is of that nobody gets without asking."""
    return (
        bool(one.steps),
        "part3" in one.numbers,
        bool(one.number_sets),
        bool(one.extra),
        one.missing is not None,
        bool(one.levels),
        one.story.unit is not None,
        one.family is not None,
    )


def drawn_and_new(
    path: Path, request: Request, label: str | None, **more: Any
) -> tuple[ProblemSet, int]:
    """A set that was handed out, and how many of its problems stood in the bank before."""
    (before,) = rows(path, "SELECT max(id) FROM problem")[0]
    with Bank(path) as bank:
        made = bank.hand_out(request, label, **more)
        history = bank.history(label)[-1] if label else None
    assert history is not None
    return made, sum(number <= before for number, *_ in history.problems)


@pytest.mark.parametrize(("request_", "law"), WISHES.values(), ids=WISHES)
def test_what_is_drawn_meets_every_wish(request_: Request, law: Law, path: Path) -> None:
    """The laws are told here anew; and every problem is as the checks want it for this request."""
    from dataclasses import replace

    new = replace(request_, seed=5)
    made, drawn = drawn_and_new(path, new, "2B")
    assert drawn > 0, "nothing of the bank met the wish, so nothing was compared"
    kind = {changes(one) for one in made.problems}
    assert len(kind) == 1
    for one in made.problems:
        assert law(one), one.text
        assert finished.judge(one, made.request) == (), one.text
    codes = Counter(one.code for one in made.problems)
    numbers = Counter(some for one in made.problems for some in triples(one))
    assert codes.most_common(1)[0][1] == numbers.most_common(1)[0][1] == 1
