"""Every strategy worked out for every pair: all pairs to 100, and many to 1000."""

import re
from collections.abc import Iterable

import pytest
from strategies.evaluator import is_true, numbers, sides, value

from storybank import strategies
from storybank.model import Form, Solution

WORKED = [(one, form) for one in strategies.ids() for form in Form]
TO_100 = [(c, b) for c in range(2, 101) for b in range(1, c)]
TO_1000 = [(c, b) for c in range(101, 1001, 13) for b in range(1, c, 11)]


def pairs(form: Form, wholes: Iterable[tuple[int, int]]) -> Iterable[tuple[int, int]]:
    """The pairs as solved: for adding, whole - b and b."""
    return ((c - b if form is Form.ADD else c, b) for c, b in wholes)


def faults(form: Form, a: int, b: int, limit: int, solution: Solution) -> list[str]:
    """What is wrong with a solution, judged by arithmetic alone."""
    found = []
    answer = a + b if form is Form.ADD else a - b
    if solution.operation != ("+" if form is Form.ADD else "-"):
        found.append("operation")
    if (solution.a, solution.b) != (a, b) and (form is not Form.ADD or solution.a != b):
        found.append("numbers")
    if bool(solution.jumps) == bool(solution.lines):
        found.append("jumps or lines")
    steps = len(solution.jumps) + len(solution.lines)
    if len(solution.says) != steps or len(set(solution.says)) != steps:
        found.append("one thing to say for each step, and none twice")
    if solution.jumps:
        found += jump_faults(limit, solution, answer)
    else:
        found += line_faults(limit, solution, answer)
    return found + [fault for say in solution.says for fault in language_faults(say)]


def jump_faults(limit: int, solution: Solution, answer: int) -> list[str]:
    found = []
    at = solution.start
    for jump, say in zip(solution.jumps, solution.says, strict=True):
        if jump.start != at or jump.start + jump.by != jump.to or jump.by == 0 or not jump.why:
            found.append(f"jump {jump}")
        if not 0 <= jump.to <= limit:
            found.append(f"outside: {jump}")
        said = [int(number) for number in re.findall(r"[0-9]+", say)]
        if not {jump.start, jump.to, abs(jump.by)} <= set(said):
            found.append(f"place, size or landing not said: {say}")
        at = jump.to
    total = sum(jump.by for jump in solution.jumps)
    if solution.answer_is == "landing":
        ends = solution.start == solution.a and at == answer
    else:
        ends = (
            solution.answer_is == "sum of jumps"
            and solution.start == solution.b
            and at == solution.a
            and total == answer
        )
    return found if ends else [*found, "answer"]


def line_faults(limit: int, solution: Solution, answer: int) -> list[str]:
    found = []
    for line in solution.lines:
        if not is_true(line) or not re.search(r"[0-9] [+-] [0-9]", line):
            found.append(f"untrue or no operation: {line}")
        if not all(0 <= number <= limit for number in numbers(line)):
            found.append(f"outside: {line}")
        if not all(0 <= value(side) <= limit for side in sides(line)):
            found.append(f"outside: {line}")
    if value(sides(solution.lines[-1])[1]) != answer or solution.answer_is != "last line":
        found.append("answer")
    return found if solution.start is None else [*found, "start"]


def language_faults(say: str) -> list[str]:
    sentences = re.split(r"(?<=\.) ", say)
    wrong = [f"sentence: {one}" for one in sentences if not re.fullmatch(r"[A-Z][^.{}]*\.", one)]
    if re.search(r"\b1 (hops|tens|fives|hundreds)\b|\b(?!1\b)[0-9]+ (hop|ten|five|hundred)\b", say):
        wrong.append(f"number of the noun: {say}")
    return wrong


@pytest.mark.parametrize(("strategy", "form"), WORKED)
@pytest.mark.parametrize(("limit", "wholes"), [(100, TO_100), (1000, TO_1000)], ids=["100", "1000"])
def test_solutions(strategy: str, form: Form, limit: int, wholes: list[tuple[int, int]]) -> None:
    one = strategies.get(strategy)
    solved = 0
    for a, b in pairs(form, wholes):
        solution = one.solve(form, a, b, limit)
        order = one.ordered(form, a, b, limit)
        if solution is None:
            assert order is None, f"the rule holds for {a}, {b}, but nothing is worked out"
            continue
        solved += 1
        assert faults(form, a, b, limit, solution) == [], (a, b)
        if order is not None:
            assert (solution.a, solution.b) == order
            assert re.fullmatch(r"[0-9A-Z].*[.]", one.reason(form, *order))
    can = form in forms_of(strategy)
    assert (solved > 0) == (can and (limit == 100 or strategy not in WITHIN_20))


WITHIN_20 = ("make-a-ten", "related-fact")
ONLY_ADDING = ("give-and-take", "near-doubles")
ONLY_TAKING_AWAY = ("related-fact", "same-difference")


def forms_of(strategy: str) -> set[Form]:
    """The forms in which a strategy can be carried out at all."""
    if strategy in ONLY_ADDING:
        return {Form.ADD}
    if strategy in ONLY_TAKING_AWAY:
        return {Form.SUBTRACT}
    if strategy in ("doubles", "make-a-ten", "split-tens-and-ones"):
        return {Form.ADD, Form.SUBTRACT}
    return {Form.SUBTRACT, Form.SOUGHT} if strategy == "count-up" else set(Form)


def test_a_tight_limit_keeps_every_number_within_it() -> None:
    for limit in (5, 9, 20, 29, 69):
        for strategy, form in WORKED:
            for a, b in pairs(form, ((c, b) for c in range(2, limit + 1) for b in range(1, c))):
                solution = strategies.get(strategy).solve(form, a, b, limit)
                if solution is not None:
                    assert faults(form, a, b, limit, solution) == [], (strategy, a, b, limit)


def test_the_fix_runs_against_the_big_jump() -> None:
    one = strategies.get("friendly-then-compensate")
    for form in Form:
        for a, b in pairs(form, TO_100):
            solution = one.solve(form, a, b, 200)
            if solution is None:
                continue
            big, fix = (jump.by for jump in solution.jumps)
            assert big * fix < 0
            assert abs(fix) < abs(big) and big % 10 == 0


@pytest.mark.parametrize(
    ("form", "a", "b", "limit"),
    [
        (Form.ADD, 60, 50, 100),
        (Form.SUBTRACT, 47, 82, 100),
        (Form.SUBTRACT, 47, 47, 100),
        (Form.SOUGHT, 47, 47, 100),
        (Form.SUBTRACT, 120, 20, 100),
        (Form.ADD, 0, 5, 100),
    ],
)
def test_nothing_is_worked_out_outside_the_limits(form: Form, a: int, b: int, limit: int) -> None:
    assert [one.id for one in strategies.by_rank() if one.solve(form, a, b, limit)] == []


def test_the_judge_finds_planted_faults() -> None:
    one = strategies.get("tens-then-ones")
    good = one.solve(Form.ADD, 37, 26, 100)
    assert good is not None
    assert faults(Form.ADD, 37, 26, 100, good) == []
    assert "answer" in faults(Form.ADD, 37, 27, 100, good)
    assert faults(Form.ADD, 37, 26, 60, good) != []
    assert not is_true("30 + 20 = 60")
    assert language_faults("Jump 1 hops.") and language_faults("38 is near.")
    with pytest.raises(ValueError, match="not a sum"):
        value("3 * 4")
