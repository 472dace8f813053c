"""Solutions as asked for by the other stages, second ways, lists of pairs and equations."""

import pytest
from strategies.evaluator import is_true, value

from storybank import situations, strategies
from storybank.errors import StorybankError
from storybank.model import Form, Triple
from storybank.solution import all_pairs_solution, equations, second_way, work_out

SOME = [(c, b) for c in range(3, 101, 4) for b in range(1, c, 3)]


def test_work_out_gives_what_the_strategy_solves() -> None:
    solution = work_out("count-up", Form.SOUGHT, 92, 87, 100)
    assert solution == strategies.get("count-up").solve(Form.SOUGHT, 92, 87, 100)
    assert (solution.operation, solution.a, solution.b, solution.start) == ("-", 92, 87, 87)


@pytest.mark.parametrize(
    ("strategy", "form", "a", "b", "message"),
    [
        ("doubles", Form.ADD, 46, 38, r"doubles cannot .* 46 \+ 38.*give-and-take"),
        ("give-and-take", Form.SOUGHT, 84, 46, r"46 \+ \? = 84.*0 to 100.*count-up"),
        ("same-difference", Form.SUBTRACT, 100, 19, "100 - 19.*friendly-then-compensate"),
        ("tens", Form.ADD, 46, 38, 'no strategy "tens"'),
        ("count-on", Form.ADD, 90, 30, "No strategy can"),
    ],
)
def test_what_cannot_be_worked_out(strategy: str, form: Form, a: int, b: int, message: str) -> None:
    with pytest.raises(StorybankError, match=message):
        work_out(strategy, form, a, b, 100)


def test_a_second_way_is_one_that_fits_if_there_is_one() -> None:
    way = second_way("friendly-then-compensate", Form.ADD, 46, 38, 100)
    assert way is not None
    assert way.strategy == "give-and-take"
    assert way.solution.lines == ("46 + 38 = 44 + 40", "44 + 40 = 84")


@pytest.mark.parametrize("form", list(Form))
def test_a_second_way_differs_and_is_right(form: Form) -> None:
    for c, b in SOME:
        a = c - b if form is Form.ADD else c
        answer = a + b if form is Form.ADD else a - b
        for one in strategies.fitting(form, a, b, 100):
            first = strategies.get(one).solve(form, a, b, 100)
            way = second_way(one, form, a, b, 100)
            if way is None or first is None:
                continue
            assert way.strategy != one
            solution = way.solution
            places = [(jump.start, jump.to) for jump in solution.jumps]
            assert solution.lines or places != [(jump.start, jump.to) for jump in first.jumps]
            if solution.answer_is == "sum of jumps":
                assert sum(jump.by for jump in solution.jumps) == answer
            elif solution.answer_is == "landing":
                assert solution.jumps[-1].to == answer
            else:
                assert value(solution.lines[-1].split("=")[1].strip()) == answer
            others = set(strategies.fitting(form, a, b, 100)) - {one}
            able = [name for name in others if strategies.get(name).solve(form, a, b, 100)]
            if way.strategy not in others and form is not Form.SOUGHT:
                assert able == []


def test_no_second_way_is_none() -> None:
    assert second_way("count-on", Form.SUBTRACT, 2, 1, 100) is not None
    assert second_way("count-on", Form.ADD, 1, 100, 100) is None


def test_all_pairs_with_zero_and_the_whole_first() -> None:
    solution = all_pairs_solution(12)
    assert len(solution.lines) == 13
    assert (solution.lines[0], solution.lines[-1]) == ("12 = 0 + 12", "12 = 12 + 0")
    assert all(is_true(line) for line in solution.lines)
    assert solution.to_json() == {"lines": list(solution.lines), "answer_is": "all lines"}
    assert solution.operation is None


@pytest.mark.parametrize("whole", [0, 21, -3])
def test_all_pairs_only_for_small_wholes(whole: int) -> None:
    with pytest.raises(StorybankError, match="from 1 to 20"):
        all_pairs_solution(whole)


@pytest.mark.parametrize("name", situations.ids())
def test_equations_are_true_once_the_answer_is_filled_in(name: str) -> None:
    situation = situations.get(name)
    triple = Triple(46, 38, 84)
    pair = equations(situation, triple)
    if situation.both_parts:
        assert pair.situation == pair.solution == "84 = ? + ?"
        return
    numbers = dict(zip(situation.roles, (46, 38, 84), strict=True))
    answer = numbers[situation.unknown]
    for equation in (pair.situation, pair.solution):
        assert equation.count("?") == 1
        assert equation.isascii()
        assert is_true(equation.replace("?", str(answer)))
        assert not is_true(equation.replace("?", str(answer + 1)))
    assert pair.solution.endswith("= ?")
