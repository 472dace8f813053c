"""Worked examples from published sources, by their sums and landings."""

import pytest

from storybank import strategies
from storybank.model import Form

JUMPS = [
    # NCETM and New Zealand teaching guidance: tens, then ones
    ("tens-then-ones", Form.ADD, 37, 26, [57, 63], 63),
    # The same: to the next ten first
    ("next-ten-first", Form.ADD, 37, 26, [40, 63], 63),
    # NCETM: 28 + 15 = 28 + 2 + 13
    ("next-ten-first", Form.ADD, 28, 15, [30, 43], 43),
    # Journal of Numerical Cognition, subtraction by addition: 67 + 3 = 70, + 12 = 82
    ("count-up", Form.SUBTRACT, 82, 67, [70, 82], 15),
    ("count-up", Form.SOUGHT, 82, 67, [70, 82], 15),
    # The same: 87 to 92 by 3 and 2
    ("count-up", Form.SUBTRACT, 92, 87, [90, 92], 5),
    # Klein, Beishuizen & Treffers 1998, from memory: N10C, N10, A10 of 45 + 39 and 65 - 49
    ("friendly-then-compensate", Form.ADD, 45, 39, [85, 84], 84),
    ("friendly-then-compensate", Form.SUBTRACT, 65, 49, [15, 16], 16),
    ("tens-then-ones", Form.ADD, 45, 39, [75, 84], 84),
    ("tens-then-ones", Form.SUBTRACT, 65, 49, [25, 16], 16),
    ("next-ten-first", Form.SUBTRACT, 65, 49, [60, 20, 16], 16),
]
LINES = [
    # CCSS-M 1.OA.6: 8 + 6 = 8 + 2 + 4 = 10 + 4 = 14
    ("make-a-ten", Form.ADD, 8, 6, ["6 = 2 + 4", "8 + 2 = 10", "10 + 4 = 14"]),
    # CCSS-M 1.OA.6: 13 - 4 = 13 - 3 - 1 = 10 - 1 = 9
    ("make-a-ten", Form.SUBTRACT, 13, 4, ["4 = 3 + 1", "13 - 3 = 10", "10 - 1 = 9"]),
    # CCSS-M 1.OA.6: 6 + 7 = 6 + 6 + 1
    ("near-doubles", Form.ADD, 6, 7, ["6 + 6 = 12", "12 + 1 = 13"]),
    # CCSS-M 1.OA.6: 8 + 4 = 12, so 12 - 8 = 4
    ("related-fact", Form.SUBTRACT, 12, 8, ["8 + 4 = 12", "12 - 8 = 4"]),
    # NCETM and New Zealand teaching guidance: 30 + 20 = 50, 7 + 6 = 13
    ("split-tens-and-ones", Form.ADD, 37, 26, ["30 + 20 = 50", "7 + 6 = 13", "50 + 13 = 63"]),
    # Public grade-2 guidance: 28 + 67 = 30 + 65
    ("give-and-take", Form.ADD, 28, 67, ["28 + 67 = 30 + 65", "30 + 65 = 95"]),
    # New Zealand and Australian guidance: 72 - 39 = 73 - 40 = 33; 72 - 49 = 73 - 50
    ("same-difference", Form.SUBTRACT, 72, 39, ["72 - 39 = 73 - 40", "73 - 40 = 33"]),
    ("same-difference", Form.SUBTRACT, 72, 49, ["72 - 49 = 73 - 50", "73 - 50 = 23"]),
]
FITTING = [
    # CCSS-M 1.OA.6
    (Form.ADD, 8, 6, "make-a-ten"),
    (Form.SUBTRACT, 13, 4, "make-a-ten"),
    (Form.ADD, 6, 7, "near-doubles"),
    (Form.SUBTRACT, 12, 8, "related-fact"),
    # NCETM: 28 + 15; public grade-2 guidance: 28 + 67
    (Form.ADD, 28, 67, "give-and-take"),
    # Journal of Numerical Cognition
    (Form.SUBTRACT, 92, 87, "count-up"),
    # New Zealand and Australian guidance
    (Form.SUBTRACT, 72, 39, "same-difference"),
    # Klein, Beishuizen & Treffers 1998, from memory
    (Form.ADD, 45, 39, "friendly-then-compensate"),
    (Form.SUBTRACT, 65, 49, "friendly-then-compensate"),
]


@pytest.mark.parametrize(("strategy", "form", "a", "b", "landings", "answer"), JUMPS)
def test_landings(
    strategy: str, form: Form, a: int, b: int, landings: list[int], answer: int
) -> None:
    solution = strategies.get(strategy).solve(form, a, b, 100)
    assert solution is not None
    assert [jump.to for jump in solution.jumps] == landings
    found = (
        sum(jump.by for jump in solution.jumps)
        if solution.answer_is == "sum of jumps"
        else solution.jumps[-1].to
    )
    assert found == answer


@pytest.mark.parametrize(("strategy", "form", "a", "b", "lines"), LINES)
def test_lines(strategy: str, form: Form, a: int, b: int, lines: list[str]) -> None:
    solution = strategies.get(strategy).solve(form, a, b, 100)
    assert solution is not None
    assert list(solution.lines) == lines


@pytest.mark.parametrize(("form", "a", "b", "strategy"), FITTING)
def test_the_example_fits_its_strategy(form: Form, a: int, b: int, strategy: str) -> None:
    assert strategy in strategies.fitting(form, a, b, 100)


def test_an_addition_is_turned_round_where_the_rule_asks_for_it() -> None:
    # Our own design: 40 + 7 is skip-counting, from 7.
    assert strategies.get("skip-count").ordered(Form.ADD, 40, 7, 100) == (7, 40)
    assert strategies.fitting(Form.ADD, 40, 7, 100) == ("skip-count",)


def test_what_a_child_says() -> None:
    solution = strategies.get("friendly-then-compensate").solve(Form.ADD, 46, 38, 100)
    assert solution is not None
    assert solution.says == (
        "From 46, jump 40 because 38 is 2 less than 40. I land on 86.",
        "I jumped 2 too far, so I jump back 2 from 86 and land on 84.",
    )


def test_count_on_hops_by_1_and_skip_count_by_tens_and_fives() -> None:
    hops = strategies.get("count-on").solve(Form.ADD, 3, 58, 100)
    tens = strategies.get("skip-count").solve(Form.ADD, 47, 25, 100)
    assert hops is not None and tens is not None
    assert (hops.a, hops.b) == (58, 3)
    assert [jump.by for jump in hops.jumps] == [1, 1, 1]
    assert [jump.by for jump in tens.jumps] == [10, 10, 5]
