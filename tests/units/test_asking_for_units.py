"""`--units`: what is asked, what is refused, standards and set format; without it nothing changes.

The standards are quoted, from memory, from the Common Core State Standards for Mathematics (2010),
grade 2, Measurement and Data:

2.MD.5 "Use addition and subtraction within 100 to solve word problems involving lengths that are
given in the same units, e.g., by using drawings (such as drawings of rulers) and equations with a
symbol for the unknown number to represent the problem."

2.MD.8 "Solve word problems involving dollar bills, quarters, dimes, nickels, and pennies, using $
and c symbols appropriately. Example: If you have 2 dimes and 3 pennies, how many cents do you
have?" Storybank tells whole dollars or whole cents by their words; single coins it does not tell.
"""

import json
import re
from importlib import resources

import pytest
from jsonschema import Draft202012Validator
from units.made import problems

from storybank import Request, StorybankError, make_set
from storybank.errors import RequestError
from storybank.model.measures import UNITS

SCHEMA = json.loads(
    (resources.files("storybank") / "documents" / "set_schema.json").read_text(encoding="utf-8")
)


def test_lengths_are_within_100_in_the_same_units_with_a_symbol_for_the_unknown() -> None:
    """The text of 2.MD.5: within 100, the same units, equations with a symbol."""
    lengths = [one for one in problems() if UNITS[str(one.story.unit)].kind == "lengths"]
    assert lengths
    for problem in lengths:
        assert problem.standards == ("2.MD.5",)
        assert max(problem.numbers.values()) <= 100
        assert problem.equations.situation.count("?") == 1
        assert re.fullmatch(r"[\d?]+ [+-] [\d?]+ = [\d?]+", problem.equations.situation)


def test_lengths_beyond_100_are_no_longer_that_standard() -> None:
    made = make_set(Request(units=["lengths"], within=1000, count=40, seed=8)).problems
    beyond = [one for one in made if max(one.numbers.values()) > 100]
    assert beyond
    assert all(one.standards == ("2.NBT.7",) for one in beyond)


def test_money_is_told_in_whole_dollars_or_cents_and_never_in_both() -> None:
    """The text of 2.MD.8; the word stands with each number, so no sign does."""
    money = [one for one in problems() if UNITS[str(one.story.unit)].kind == "money"]
    assert {one.story.unit for one in money} == {"dollars", "cents"}
    for problem in money:
        assert problem.standards == ("2.MD.8",)
        assert not re.search(r"[$\u00a2.]\d|\d[.]\d", problem.text)


def test_minutes_and_points_are_practised_as_things_to_count_are() -> None:
    found = {
        code
        for one in problems()
        if UNITS[str(one.story.unit)].kind in ("minutes", "points")
        for code in one.standards
    }
    assert found <= {"K.OA.2", "1.OA.1", "1.OA.6", "2.OA.1", "2.OA.2", "2.NBT.5"}
    assert {"2.OA.1", "2.NBT.5"} <= found


@pytest.mark.parametrize("kind", ["lengths", "money", "minutes", "points"])
def test_a_kind_asked_for_alone_is_told_alone(kind: str) -> None:
    made = make_set(Request(units=[kind], strategy=["any"], count=24, seed=5))
    assert {UNITS[str(one.story.unit)].kind for one in made.problems} == {kind}
    document = json.loads(made.to_text())
    assert document["request"]["units"] == [kind]
    assert all(UNITS[one["unit"]].kind == kind for one in document["problems"])
    assert list(Draft202012Validator(SCHEMA).iter_errors(document)) == []


def test_without_units_no_key_joins_a_set() -> None:
    document = json.loads(make_set(Request(count=6, seed=5)).to_text())
    assert "units" not in document["request"]
    assert all("unit" not in one for one in document["problems"])


def test_any_stands_for_all_kinds_in_our_order() -> None:
    made = make_set(Request(units=["points", "any"], count=1, seed=5))
    assert made.request["units"] == ["lengths", "money", "minutes", "points"]


def test_the_same_request_gives_the_same_bytes() -> None:
    request = Request(units=["any"], strategy=["any"], count=30, seed=77)
    assert make_set(request).to_text() == make_set(request).to_text()


def test_levels_side_by_side_tell_the_same_amounts() -> None:
    for problem in make_set(
        Request(units=["any"], strategy=["any"], count=12, seed=4, levels_side_by_side=True)
    ).problems:
        assert len(problem.levels) == 4
        for one in problem.levels:
            assert one.story.unit == problem.story.unit
            assert sorted(one.story.given) == sorted(problem.story.given)


@pytest.mark.parametrize(
    ("request_", "said"),
    [
        (Request(units=["weight"]), "lengths, money, minutes, points, any"),
        (Request(units=["any"], situation=["both-parts-unknown"]), "Leave out that situation"),
        (Request(units=["money"], theme=["sports-day"]), "lengths, minutes, points"),
        (Request(units=["money"], without=["buying"]), "without buying"),
    ],
)
def test_what_cannot_be_told_is_refused_with_what_to_do(request_: Request, said: str) -> None:
    with pytest.raises(RequestError, match=re.escape(said)):
        make_set(request_)
    assert issubclass(RequestError, StorybankError)


def test_a_pair_is_told_as_asked() -> None:
    made = make_set(Request(units=["lengths"], pair=["46 - 18"], count=4, seed=3)).problems
    assert all(sorted(one.numbers.values()) == [18, 28, 46] for one in made)
