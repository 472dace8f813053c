"""One story with several sets of numbers: each within its limit, each worked out, one text."""

import json
import re

import jsonschema
import pytest
import sympy
from reader import read

from storybank import Request, make_set, situations, strategies, vocabulary
from storybank.cli import main
from storybank.documents import Layout, kinds
from storybank.documents._page import Paragraph, Table
from storybank.documents.json import SCHEMA
from storybank.errors import NoNumbersError, RequestError
from storybank.model import NumberSet, Problem, ProblemSet
from storybank.model.arithmetic import Form

NUMERAL = re.compile(r"\d+")
LIMITS = (10, 20, 100)
ONE_UNKNOWN = [one for one in situations.ids() if one != "both-parts-unknown"]


def schema() -> dict:
    return json.loads(SCHEMA.read_text(encoding="utf-8"))


def made(**wish: object) -> ProblemSet:
    return make_set(Request(**{"number_sets": LIMITS, "count": 6, "seed": 3, **wish}))  # type: ignore[arg-type]


def with_numbers(problem: Problem, one: NumberSet) -> str:
    """The text with the numbers of a set in place of its own."""
    numbers = iter(one.given)
    return NUMERAL.sub(lambda _: str(next(numbers)), problem.text)


@pytest.mark.parametrize("level", vocabulary.ids())
@pytest.mark.parametrize("seed", range(4))
def test_the_reader_solves_every_set_from_the_words(level: str, seed: int) -> None:
    for problem in made(vocabulary=level, count=8, seed=seed).problems:
        assert [one.limit for one in problem.number_sets] == [100, 20, 10]
        for one in problem.number_sets:
            reading = read(with_numbers(problem, one))
            assert reading.answer == one.answer, problem.text
            assert reading.equation == one.equations.situation


@pytest.mark.parametrize("situation", ONE_UNKNOWN)
def test_every_situation_has_sets_that_grow_and_fit(situation: str) -> None:
    unknown = sympy.Symbol("u")
    for problem in made(situation=[situation], count=3, seed=8).problems:
        assert problem.number_sets[0].numbers == problem.numbers
        assert problem.number_sets[0].solution == problem.solution
        for one, below in zip(problem.number_sets, (20, 10, 0), strict=True):
            a, b, c = one.numbers.values()
            assert a + b == c
            assert below < c <= one.limit
            assert min(a, b) > 1
            assert sorted((*one.given, one.answer)) == sorted((a, b, c))
            left, right = one.equations.solution.replace("?", "u").split("=")
            assert sympy.solve(sympy.sympify(left) - sympy.sympify(right), unknown) == [one.answer]
            solution = one.solution
            assert solution.a is not None and solution.b is not None
            fitting = {
                name
                for form in (Form.ADD, Form.SUBTRACT, Form.SOUGHT)
                if (form is Form.ADD) == (solution.operation == "+")
                for name in strategies.fitting(form, solution.a, solution.b, one.limit)
            }
            assert one.strategy in fitting


def test_no_three_numbers_come_twice_over_all_problems_and_sets() -> None:
    problems = made(count=12, seed=5).problems
    triples = [tuple(sorted(one.numbers.values())) for each in problems for one in each.number_sets]
    assert len(triples) == 36
    assert len(set(triples)) == 36


def test_the_largest_set_practices_the_strategy_asked_for_and_the_others_say_theirs() -> None:
    for problem in made(strategy=["friendly-then-compensate"]).problems:
        assert problem.strategy == "friendly-then-compensate"
        assert problem.number_sets[0].strategy == "friendly-then-compensate"
        for one in problem.number_sets[1:]:
            # Its numbers start at 11 and pass a ten, so none are within 20 when adding.
            assert one.strategy in strategies.ids()


def test_regrouping_is_kept_by_every_set_where_it_is_never_wished() -> None:
    for problem in made(crossing="never").problems:
        for one in problem.number_sets:
            a, _, c = one.numbers.values()
            assert c % 10 >= a % 10, one


def test_a_set_follows_the_schema_and_the_first_set_stands_at_the_top(
    capsys: pytest.CaptureFixture[str],
) -> None:
    wish = ["make", "--number-sets", "20", "100", "--count", "4", "--seed", "2"]
    assert main([*wish, "--format", "json", "--out", "-"]) == 0
    told = json.loads(capsys.readouterr().out)
    jsonschema.validate(told, schema(), cls=jsonschema.Draft202012Validator)
    assert told["request"]["number_sets"] == [20, 100]
    assert told["request"]["within"] == 100
    for problem in told["problems"]:
        first = problem["number_sets"][0]
        for key in ("numbers", "given", "answer", "strategy", "solution", "answer_sentence"):
            assert first[key] == problem[key]
        assert list(map(int, NUMERAL.findall(problem["text"]))) == first["given"]
    broken = json.loads(json.dumps(told))
    del broken["problems"][0]["number_sets"][1]["solution"]
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(broken, schema(), cls=jsonschema.Draft202012Validator)


def test_the_request_of_a_set_makes_it_again() -> None:
    first = made()
    again = make_set(Request(number_sets=LIMITS, count=6, seed=3, within=100, strategy=["any"]))
    assert first.to_json() == again.to_json()


@pytest.mark.parametrize(
    ("sets", "other", "said"),
    [
        ((10,), {}, "2 to 4 different limits"),
        ((10, 10), {}, "2 to 4 different limits"),
        ((10, 20, 50, 100, 1000), {}, "2 to 4 different limits"),
        ((4, 20), {}, "from 5 to 1000"),
        ((10, 1001), {}, "from 5 to 1000"),
        ((10, 20), {"within": 100}, "Leave --within out"),
        ((10, 20), {"pair": ["6 + 3"]}, "--pair"),
        ((10, 20), {"diagnose": True}, "--diagnose"),
        ((10, 20), {"extra_number": True}, "one change at a time"),
        ((10, 20), {"missing": True}, "one change at a time"),
        ((10, 20), {"situation": ["both-parts-unknown"]}, "all pairs of parts"),
    ],
)
def test_what_cannot_be_met_is_said(sets: tuple[int, ...], other: dict, said: str) -> None:
    with pytest.raises(RequestError, match=re.escape(said)):
        make_set(Request(number_sets=sets, count=1, seed=1, **other))


def test_the_limit_that_is_the_trouble_is_named(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(NoNumbersError, match="The numbers to 10 are the trouble") as caught:
        made(situation=["separate-result-unknown"], count=30)
    assert "--number-sets 20 100" in str(caught.value)
    largest = int(re.search(r"largest count possible is (\d+)", str(caught.value))[1])  # type: ignore[index]
    assert len(made(situation=["separate-result-unknown"], count=largest).problems) == largest
    assert main(["make", "--number-sets", "5", "6", "--count", "40", "--seed", "1"]) == 2
    assert "Traceback" not in capsys.readouterr().err


def test_all_levels_side_by_side_tell_every_set() -> None:
    for problem in made(levels_side_by_side=True, count=4).problems:
        assert len(problem.levels) == 4
        for one in problem.levels:
            assert [each.numbers for each in one.number_sets] == [
                each.numbers for each in problem.number_sets
            ]
            for each in one.number_sets:
                assert read(with_numbers(one, each)).answer == each.answer


def test_children_see_all_sets_in_brackets_and_the_key_answers_each() -> None:
    chosen = made(count=5)
    for kind in ("student", "cards", "launch", "exit"):
        page = kinds.page(kind, chosen, Layout())
        text = " ".join(_texts(page.flat()))
        shown = chosen.problems[-1:] if kind == "exit" else chosen.problems
        for problem in shown:
            small, middle, large = (one.given for one in reversed(problem.number_sets))
            for numbers in zip(small, middle, large, strict=True):
                assert "[{}]".format("\u00a0|\u00a0".join(map(str, numbers))) in text, kind
    key = list(kinds.page("key", chosen, Layout()).flat())
    (answers, *_) = [one for one in key if isinstance(one, Table)]
    rows = {row[0]: row[3] for row in answers.rows}
    for number, problem in enumerate(chosen.problems, start=1):
        for one in problem.number_sets:
            assert rows[f"{number}, to {one.limit}"] == str(one.answer)
            assert any(one.answer_sentence in text for text in _texts(key))


def _texts(blocks: object) -> list[str]:
    found = []
    for block in blocks:  # type: ignore[attr-defined]
        if isinstance(block, Paragraph):
            found.append(block.text)
        for card in getattr(block, "cards", ()):
            found += [one.text for one in card]
    return found
