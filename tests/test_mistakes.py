"""Known mistakes, each simulated by carrying the error out and not by its formula."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import zip_longest

import pytest

from storybank import mistakes, situations, strategies
from storybank.errors import RequestError
from storybank.mistakes import Case
from storybank.model import Form, Jump, Situation, Solution, Triple

ADD, SUBTRACT, SOUGHT = Form.ADD, Form.SUBTRACT, Form.SOUGHT
PLAIN = {
    ADD: "join-result-unknown",
    SUBTRACT: "separate-result-unknown",
    SOUGHT: "join-change-unknown",
}


def solution(form: Form, a: int, b: int, steps: list[int], lines: tuple[str, ...] = ()) -> Solution:
    start = b if form is SOUGHT else a
    jumps, at = [], start
    for step in steps:
        jumps.append(Jump(at, at + step, step, "hand"))
        at += step
    answer_is = "last line" if lines else "sum of jumps" if form is SOUGHT else "landing"
    operation = "+" if form is ADD else "-"
    begins = None if lines else start
    return Solution(operation, a, b, begins, tuple(jumps), lines, answer_is, ())


def case(
    form: Form,
    a: int,
    b: int,
    steps: list[int],
    lines: tuple[str, ...] = (),
    strategy: str | None = None,
    situation: str | None = None,
    keywords: tuple[str, ...] = (),
) -> Case:
    if form is ADD:
        triple, given, answer = Triple(a, b, a + b), (a, b), a + b
    elif form is SUBTRACT:
        triple, given, answer = Triple(a - b, b, a), (a, b), a - b
    else:
        triple, given, answer = Triple(b, a - b, a), (b, a), a - b
    story = situations.get(situation or PLAIN[form])
    solved = solution(form, a, b, steps, lines)
    return Case(story, triple, strategy, form, solved, answer, given, keywords)


def predict(name: str, one: Case) -> int | None:
    return mistakes.get(name).predict(one)


def sums() -> Iterator[tuple[int, int]]:
    return ((a, b) for a in range(1, 100) for b in range(1, 101 - a))


def differences() -> Iterator[tuple[int, int]]:
    return ((a, b) for a in range(2, 101) for b in range(1, a))


def column(a: int, b: int) -> list[tuple[int, int]]:
    """The digits of both numbers by place, ones first, read from the numerals."""
    return [
        (int(top), int(bottom))
        for top, bottom in zip_longest(reversed(str(a)), reversed(str(b)), fillvalue="0")
    ]


def written(digits: list[int]) -> int:
    return int("".join(str(digit) for digit in reversed(digits)))


# Compensation: go to the friendly number, then the child's own last move.


def compensations() -> Iterator[tuple[Case, int, int]]:
    """A compensating solution, the big jump from zero, and the size of the fix."""
    for a, b in sums():
        if (k := -b % 10) in (1, 2):
            yield case(ADD, a, b, [b + k, -k]), a + b + k, -k
    for a, b in differences():
        if (k := -b % 10) in (1, 2) and a >= b + k:
            yield case(SUBTRACT, a, b, [-b - k, k]), a - b - k, k
        if (k := -(a - b) % 10) in (1, 2):
            yield case(SOUGHT, a, b, [a - b + k, -k]), a - b + k, -k


def test_fix_forgotten_or_made_the_wrong_way() -> None:
    count = 0
    for one, stopped, fix in compensations():
        assert predict("forgot-to-fix", one) == stopped
        assert predict("fixed-the-wrong-way", one) == stopped - fix
        assert predict("last-jump-left-out", one) is None
        count += 1
    assert count > 2500


def test_tens_jumped_one_by_one_compensate_as_well() -> None:
    # 45 + 39 by 45 + 40 - 1: Klein, Beishuizen & Treffers 1998 (from memory).
    one = case(ADD, 45, 39, [10, 10, 10, 10, -1])
    assert predict("forgot-to-fix", one) == 85
    assert predict("fixed-the-wrong-way", one) == 86
    assert "jumped 40" in mistakes.get("forgot-to-fix").says(one, 85)


def test_a_number_above_the_friendly_one_gives_nothing_back() -> None:
    # 74 - 31: 30 and then 1 more the same way is no compensation.
    one = case(SUBTRACT, 74, 31, [-30, -1])
    assert predict("forgot-to-fix", one) is None
    assert predict("fixed-the-wrong-way", one) is None
    assert predict("last-jump-left-out", one) == 44


# Moving numbers before working them out.


def test_same_difference_slid_wrongly() -> None:
    for a, b in differences():
        m = -b % 10
        if m not in (1, 2):
            continue
        lines = (f"{a} - {b} = {a + m} - {b + m}", f"{a + m} - {b + m} = {a - b}")
        one = case(SUBTRACT, a, b, [], lines, strategy="same-difference")
        friendly = b + m
        assert predict("slid-opposite-ways", one) == (a - m) - friendly
        assert predict("moved-only-one", one) == a - friendly
        assert predict("moved-both-the-same-way", one) is None


def test_give_and_take_moved_wrongly() -> None:
    for a, b in sums():
        k = -a % 10
        if k not in (1, 2) or b % 10 in (0, 8, 9) or b < k:
            continue
        for first in (True, False):
            pair, new = ((a, b), (a + k, b - k)) if first else ((b, a), (b - k, a + k))
            lines = (f"{new[0]} + {new[1]} = {a + b}",)
            one = case(ADD, *pair, [], lines, strategy="give-and-take")
            friendly = a + k
            assert predict("moved-both-the-same-way", one) == friendly + (b + k)
            assert predict("moved-only-one", one) == friendly + b
            assert predict("slid-opposite-ways", one) is None


def test_worked_examples_of_moving() -> None:
    # 28 + 67 = 30 + 65 (public grade-2 guidance); 72 - 39 = 73 - 40 = 33 (teaching guidance).
    give = case(ADD, 28, 67, [], ("30 + 65 = 95",), strategy="give-and-take")
    assert predict("moved-both-the-same-way", give) == 30 + 69
    assert "28 into 30 and 67 into 69" in mistakes.get("moved-both-the-same-way").says(give, 99)
    assert predict("moved-only-one", give) == 97
    slide = case(SUBTRACT, 72, 39, [], ("73 - 40 = 33",), strategy="same-difference")
    assert predict("slid-opposite-ways", slide) == 71 - 40
    assert predict("moved-only-one", slide) == 72 - 40


# Place by place.


def test_smaller_digit_from_larger() -> None:
    # Adding It Up (NRC 2001); Resnick 1984.
    for a, b in differences():
        digits = column(a, b)
        wrong = written([max(pair) - min(pair) for pair in digits])
        hides = all(top >= bottom for top, bottom in digits)
        assert predict("smaller-from-larger", case(SUBTRACT, a, b, [-b])) == (
            None if hides else wrong
        )
        assert predict("smaller-from-larger", case(ADD, a, b, [b])) is None


@pytest.mark.parametrize(("a", "b", "wrong"), [(512, 287, 375), (305, 128, 223), (643, 251, 412)])
def test_smaller_digit_from_larger_within_1000(a: int, b: int, wrong: int) -> None:
    # By hand, from the definition in Adding It Up (NRC 2001).
    assert predict("smaller-from-larger", case(SUBTRACT, a, b, [-b])) == wrong


def test_new_ten_dropped() -> None:
    for a, b in sums():
        ones = a % 10 + b % 10
        digits = [top + bottom for top, bottom in column(a, b)]
        wrong = int("".join(str(digit) for digit in [*digits[:0:-1], str(digits[0])[-1]]))
        assert predict("ten-dropped", case(ADD, a, b, [b])) == (wrong if ones > 9 else None)


def test_opened_ten_kept() -> None:
    for a, b in differences():
        top, bottom = a % 10, b % 10
        tens_left_as_they_were = a // 10 - b // 10
        wrong = tens_left_as_they_were * 10 + (top + 10 - bottom)
        for form in (SUBTRACT, SOUGHT):
            expected = wrong if top < bottom else None
            assert predict("ten-kept", case(form, a, b, [-b])) == expected
        assert predict("ten-dropped", case(SUBTRACT, a, b, [-b])) is None


def test_sums_side_by_side() -> None:
    for a, b in sums():
        tens, ones = a // 10 + b // 10, a % 10 + b % 10
        applies = len(str(a)) == len(str(b)) == 2 and ones > 9
        wrong = int(f"{tens}{ones}") if applies else None
        assert predict("sums-side-by-side", case(ADD, a, b, [b])) == wrong
    assert predict("sums-side-by-side", case(ADD, 28, 36, [36])) == 514  # from memory


# Counting and jumping.


def test_the_start_counted_as_the_first_hop() -> None:
    # Described in open textbooks for teachers: 8 + 3 by "8, 9, 10".
    for a in range(1, 98):
        for b in (1, 2, 3):
            said = list(range(a, a + b))
            assert predict("counted-the-start", case(ADD, a, b, [1] * b)) == said[-1]
            if a > b:
                back = list(range(a, a - b, -1))
                assert predict("counted-the-start", case(SUBTRACT, a, b, [-1] * b)) == back[-1]
            goal = list(range(a, a + b + 1))
            one = case(SOUGHT, a + b, a, [1] * b)
            assert predict("counted-the-start", one) == len(goal)
    assert predict("counted-the-start", case(ADD, 46, 12, [10, 1, 1])) is None


def test_last_jump_left_out() -> None:
    for a, b in sums():
        steps = [step for step in (b // 10 * 10, b % 10) if step]
        at = a
        for step in steps[:-1]:
            at += step
        expected = at if len(steps) > 1 else None
        assert predict("last-jump-left-out", case(ADD, a, b, steps)) == expected
    for a, b in differences():
        steps = [step for step in (-(b % 10), -(b // 10 * 10)) if step]
        expected = a + sum(steps[:-1]) if len(steps) > 1 else None
        assert predict("last-jump-left-out", case(SUBTRACT, a, b, steps)) == expected
    # 82 - 67: 67 + 3 = 70, 70 + 12 = 82 (Journal of Numerical Cognition).
    assert predict("last-jump-left-out", case(SOUGHT, 82, 67, [3, 12])) == 3


def test_landing_given_for_the_jumps() -> None:
    assert predict("landing-not-jumps", case(SOUGHT, 82, 67, [3, 12])) == 82
    assert predict("landing-not-jumps", case(SOUGHT, 52, 14, [40, -2])) == 52
    assert predict("landing-not-jumps", case(SUBTRACT, 82, 67, [-60, -7])) is None


# Reading the story.


@pytest.mark.parametrize(
    ("situation", "form", "a", "b", "keywords", "wrong"),
    [
        # Lewis & Mayer 1987: the two inconsistent compares lead to the reversed operation.
        ("compare-bigger-unknown-fewer", ADD, 46, 38, ("fewer",), 8),
        ("compare-bigger-unknown-fewer", ADD, 38, 46, ("fewer",), 8),
        ("compare-smaller-unknown-more", SUBTRACT, 84, 38, ("more",), 122),
        ("compare-bigger-unknown-more", ADD, 46, 38, ("more",), None),
        ("compare-smaller-unknown-fewer", SUBTRACT, 84, 38, ("fewer",), None),
        ("compare-difference-unknown-more", SOUGHT, 84, 46, ("more",), 130),
        ("compare-difference-unknown-fewer", SOUGHT, 84, 46, ("fewer",), None),
        ("join-start-unknown", SUBTRACT, 84, 38, ("more",), 122),
        ("join-change-unknown", SOUGHT, 84, 46, (), None),
        ("separate-start-unknown", ADD, 46, 38, ("left",), 8),
        ("separate-change-unknown", SUBTRACT, 84, 46, ("left",), None),
        ("part-unknown", SUBTRACT, 84, 46, ("in all",), 130),
        ("whole-unknown", ADD, 46, 38, ("altogether", "total"), None),
        ("separate-result-unknown", SUBTRACT, 84, 38, ("left", "more"), 122),
    ],
)
def test_word_followed_against_the_story(
    situation: str, form: Form, a: int, b: int, keywords: tuple[str, ...], wrong: int | None
) -> None:
    one = case(form, a, b, [b], situation=situation, keywords=keywords)
    assert predict("word-not-story", one) == wrong
    if wrong is not None:
        assert f'"{keywords[-1]}"' in mistakes.get("word-not-story").says(one, wrong)


@pytest.mark.parametrize(
    ("situation", "form", "a", "b", "keywords", "said"),
    [
        ("compare-bigger-unknown-fewer", ADD, 46, 38, ("left", "fewer"), "fewer"),
        ("compare-smaller-unknown-more", SUBTRACT, 84, 38, ("in all", "more"), "more"),
        ("compare-difference-unknown-more", SOUGHT, 84, 46, ("total", "more"), "more"),
        ("compare-difference-unknown-fewer", SOUGHT, 84, 46, ("more", "fewer"), None),
        ("compare-bigger-unknown-more", ADD, 46, 38, ("left", "more"), None),
    ],
)
def test_the_word_of_a_comparison_is_its_own(
    situation: str, form: Form, a: int, b: int, keywords: tuple[str, ...], said: str | None
) -> None:
    one = case(form, a, b, [b], situation=situation, keywords=keywords)
    wrong = predict("word-not-story", one)
    assert (wrong is None) == (said is None)
    if wrong is not None:
        assert f'saw "{said}"' in mistakes.get("word-not-story").says(one, wrong)


@pytest.mark.parametrize("situation", situations.ids())
def test_larger_number_of_the_story(situation: str) -> None:
    # Cummins et al. 1988 for the idea; which situations: our own design.
    entry = situations.get(situation)
    if entry.both_parts:
        return
    form = ADD if entry.operation == "+" else SUBTRACT
    one = case(form, 84, 38, [38], situation=situation)
    applies = situation.startswith("compare-") or situation == "part-unknown"
    assert predict("number-from-story", one) == (84 if applies else None)


# All of them together.


def hand_cases() -> Iterator[Case]:
    for situation in situations.in_grade_order():
        if situation.both_parts:
            continue
        pairs = sums() if situation.operation == "+" else differences()
        forms = [ADD] if situation.operation == "+" else [SUBTRACT]
        forms += [SOUGHT] if situation.sought else []
        for a, b in pairs:
            for form in forms:
                size = a - b if form is SOUGHT else b
                sign = -1 if form is SUBTRACT else 1
                tens, ones, up = size // 10 * 10, size % 10, -size % 10
                ways = [[sign * tens, sign * ones] if tens and ones else [sign * size]]
                ways += [[sign] * size] if size < 4 else []
                ways += [[sign * (size + up), -sign * up]] if up in (1, 2) else []
                for steps in ways:
                    yield case(form, a, b, steps, situation=situation.id, keywords=("more", "left"))


def test_no_entry_is_right_negative_or_doubled() -> None:
    count = 0
    for one in hand_cases():
        entries = mistakes.watch_for(one)
        answers = [entry.answer for entry in entries]
        assert one.answer not in answers
        assert one.answer not in mistakes.predictions(one)
        assert len(set(answers)) == len(answers)
        assert all(answer >= 0 for answer in answers)
        for entry in entries:
            orders = [mistakes.get(name).ORDER for name in entry.mistakes]
            assert orders == sorted(orders)
            assert entry.says.isascii()
            assert "{" not in entry.says
        count += 1
    assert count > 60_000


def test_one_entry_lists_all_mistakes_that_meet() -> None:
    # ten-kept equals smaller-from-larger when the ones differ by 5: 81 - 46, both 45.
    (entry,) = mistakes.watch_for(case(SUBTRACT, 81, 46, [-46]))
    assert entry.answer == 45
    assert entry.mistakes == ("smaller-from-larger", "ten-kept")
    assert entry.says.startswith("Took the smaller digit from the larger: in the ones place did 6")
    assert entry.says.endswith('The same number also comes from "Kept the opened ten".')


def test_a_number_below_zero_is_no_prediction() -> None:
    # 31 - 29 slid the wrong ways is 30 - 30; 31 - 28 would be 29 - 30.
    lines = ("32 - 30 = 2",)
    zero = case(SUBTRACT, 31, 29, [], lines, strategy="same-difference")
    assert 0 in mistakes.predictions(zero)
    below = case(SUBTRACT, 31, 28, [], ("33 - 30 = 3",), strategy="same-difference")
    assert predict("slid-opposite-ways", below) == -1
    assert min(mistakes.predictions(below)) == 1


def test_told_apart_wants_three_single_entries() -> None:
    # 52 - 38 by 40 and 2: 12, 10, 26, 24 are four different errors.
    assert mistakes.told_apart(case(SUBTRACT, 52, 38, [-40, 2]))
    # 81 - 36: the ones differ by 5, so two errors meet.
    assert not mistakes.told_apart(case(SUBTRACT, 81, 36, [-30, -6]))
    # 58 + 21 regroups nothing: only a jump can be left out.
    assert not mistakes.told_apart(case(ADD, 58, 21, [20, 1]))


def test_the_twins_may_meet() -> None:
    one = case(SOUGHT, 81, 67, [3, 11], situation="compare-difference-unknown-more")
    assert mistakes.predictions(one)[81] == ("landing-not-jumps", "number-from-story")
    assert mistakes.told_apart(one)


def test_compensation_of_a_sought_number_never_tells_apart() -> None:
    # Fixed-the-wrong-way and smaller-from-larger agree wherever the pair regroups.
    for a, b in differences():
        k = -(a - b) % 10
        if k in (1, 2) and a % 10 < b % 10:
            one = case(SOUGHT, a, b, [a - b + k, -k], keywords=("more",))
            assert not mistakes.told_apart(one), (a, b)


def test_both_parts_have_nothing_to_watch_for() -> None:
    story = situations.get("both-parts-unknown")
    empty = Solution("list", None, None, None, (), ("5 = 0 + 5",), "all lines", ())
    one = Case(story, Triple(0, 5, 5), None, ADD, empty, 0, (5,))
    assert mistakes.watch_for(one) == ()
    assert not mistakes.told_apart(one)


def test_every_mistake_has_a_title_and_is_found_by_its_id() -> None:
    titles = [mistakes.get(name).TITLE for name in mistakes.ids()]
    assert len(set(titles)) == len(titles)
    with pytest.raises(RequestError, match=r'There is no mistake "forgot-to-fx"\. Did you mean'):
        mistakes.get("forgot-to-fx")


# With the solutions that the strategies give.


def real_cases(story: Situation) -> Iterator[Case]:
    form = ADD if story.operation == "+" else SUBTRACT
    forms = [form, SOUGHT] if story.sought else [form]
    for a, b in sums() if form is ADD else differences():
        for way in forms:
            for name in strategies.workable(way, a, b, 100):
                solved = strategies.get(name).solve(way, a, b, 100)
                assert solved is not None, (name, way, a, b)
                answer = a + b if form is ADD else a - b
                parts = (a, b) if form is ADD else (answer, b)
                if story.unknown == story.roles[1]:
                    parts = parts[::-1]
                triple = Triple(*parts, max(a, answer))
                words = ("more", "left", "fewer")
                yield Case(story, triple, name, way, solved, answer, (a, b), words)


@pytest.mark.parametrize(
    "story", [s for s in situations.in_grade_order() if not s.both_parts], ids=lambda one: one.id
)
def test_no_real_solution_meets_a_mistake_that_is_right(story: Situation) -> None:
    seen: set[str] = set()
    for one in real_cases(story):
        found = mistakes.predictions(one)
        assert one.answer not in found, (one.strategy, one.pair, found)
        seen.update(name for names in found.values() for name in names)
    against = (story.wording == "fewer") == (story.operation == "+")
    assert ("word-not-story" in seen) == (story.family != "compare" or against)
    assert ("ten-dropped" in seen) == (story.operation == "+")


def test_moving_mistakes_read_the_strategies_own_lines() -> None:
    count = 0
    for a, b in differences():
        solved = strategies.get("same-difference").solve(SUBTRACT, a, b, 100)
        if "same-difference" in strategies.workable(SUBTRACT, a, b, 100):
            assert solved is not None
            one = replace(case(SUBTRACT, a, b, [], strategy="same-difference"), solution=solved)
            friendly = b + -b % 10
            assert predict("slid-opposite-ways", one) == (a - -b % 10) - friendly
            assert predict("moved-only-one", one) == a - friendly
            says = mistakes.get("moved-only-one").says(one, 0)
            assert f"made {b} into {friendly} and left {a}" in says
            count += 1
    for a, b in sums():
        if "give-and-take" in strategies.workable(ADD, a, b, 100):
            solved = strategies.get("give-and-take").solve(ADD, a, b, 100)
            assert solved is not None
            one = replace(case(ADD, a, b, [], strategy="give-and-take"), solution=solved)
            near, other = (a, b) if a % 10 in (8, 9) else (b, a)
            friendly = near + -near % 10
            assert predict("moved-only-one", one) == friendly + other
            assert predict("moved-both-the-same-way", one) == friendly + other + friendly - near
            count += 1
    assert count > 1000


def test_counting_by_ones_is_never_told_apart() -> None:
    # 30 - 28 by two hops: 3, 1, 30, 18 and 12 are all different, yet 3 and 1 say little.
    one = case(SOUGHT, 30, 28, [1, 1])
    assert len(mistakes.predictions(one)) >= 3
    assert not mistakes.told_apart(one)
