"""The choice of numbers: every law over every pair to 100, evenness, repeatability, messages."""

import subprocess
import sys
from collections import Counter
from collections.abc import Iterator
from functools import cache

import pytest
from scipy.stats import chisquare

from storybank import mistakes, number_choice, situations, strategies
from storybank.errors import NoNumbersError, RequestError
from storybank.mistakes import Case
from storybank.model import Form, Situation, Triple
from storybank.number_choice import OPEN, Wish, choose, distinct_count, explain_shortage, supply

ONE_ANSWER = [one for one in situations.in_grade_order() if not one.both_parts]
TENS_ALLOWED = {"doubles", "skip-count"}


@cache
def workable(form: Form, a: int, b: int, limit: int) -> tuple[str, ...]:
    return strategies.workable(form, a, b, limit)


def pair(situation: str, triple: Triple) -> tuple[int, int]:
    """The two numbers told, the whole first where it is told."""
    story = situations.get(situation)
    told = [
        number
        for role, number in zip(story.roles, (triple.a, triple.b, triple.c), strict=True)
        if role != story.unknown
    ]
    return (told[1], told[0]) if told[1] == triple.c else (told[0], told[1])


def meeting(wish: Wish) -> Iterator[Triple]:
    """Every triple that meets the wish, by trying all of them: the laws written out again."""
    story = situations.get(wish.situation)
    names = [wish.strategy] if wish.strategy else list(strategies.ids())
    suits = [
        (name, form)
        for name in names
        for form in getattr(strategies.get(name).suit(story), "forms", ())
    ]
    for c in range(2, wish.limit + 1):
        for a in range(1, c):
            triple = Triple(a, c - a, c)
            numbers = (triple.a, triple.b, triple.c)
            if any(not lo <= n <= hi for n, (lo, hi) in zip(numbers, wish.room, strict=True)):
                continue
            regroups = a % 10 + (c - a) % 10 > 9
            if wish.crossing != "any" and regroups != (wish.crossing == "always"):
                continue
            told = pair(wish.situation, triple)
            for name, form in suits:
                if name != "doubles" and triple.a == triple.b:
                    continue
                if triple.a == triple.b and story.operation == "-" and wish.strategy != "doubles":
                    continue  # The answer would stand in the story.
                if name not in TENS_ALLOWED and any(number % 10 == 0 for number in told):
                    continue
                if name in workable(form, *told, wish.limit):
                    yield triple
                    break


@pytest.mark.parametrize("strategy", [*strategies.ids(), None])
@pytest.mark.parametrize("story", ONE_ANSWER, ids=lambda one: one.id)
def test_supply_is_every_triple_that_meets_the_wish(story: Situation, strategy: str | None) -> None:
    wish = Wish(story.id, strategy, 100)
    listed = list(supply(wish))
    assert len(set(listed)) == len(listed)
    assert set(listed) == set(meeting(wish))
    for triple in listed:
        assert triple.a + triple.b == triple.c <= 100
        assert min(triple.a, triple.b) >= 1
        ways = supply(wish).strategies(triple)
        assert ways
        for name, form in ways:
            assert name in workable(form, *pair(story.id, triple), 100)
            assert supply(wish).form(triple, name) is form
            answer = {story.roles[0]: triple.a, story.roles[1]: triple.b}.get(
                story.unknown, triple.c
            )
            assert name == "doubles" or answer not in pair(story.id, triple)


@pytest.mark.parametrize("crossing", ["always", "never", "any"])
@pytest.mark.parametrize("limit", [10, 20, 57])
def test_room_limit_and_crossing(crossing: str, limit: int) -> None:
    for story in ONE_ANSWER:
        for room in ((OPEN, OPEN, OPEN), ((3, 24), (5, 31), OPEN), (OPEN, (2, 12), (8, 44))):
            for strategy in (None, "count-on", "tens-then-ones"):
                wish = Wish(story.id, strategy, limit, crossing, room)
                assert set(supply(wish)) == set(meeting(wish))
                assert distinct_count(supply(wish)) == len({one.key for one in meeting(wish)})


def test_known_supply_of_the_default_strategy() -> None:
    # Listing every pair, our own count: friendly-then-compensate fits 366 sums; none of them
    # has equal parts or a multiple of ten.
    assert distinct_count(supply(Wish("join-result-unknown", "friendly-then-compensate"))) == 366


# Evenness.


def even(counts: Counter[object], cells: int) -> float:
    """The chance of counts this uneven or more when all cells are equally likely."""
    if cells == 1:
        return 1.0
    return float(chisquare([*counts.values(), *[0] * (cells - len(counts))]).pvalue)


@pytest.mark.parametrize(
    ("situation", "strategy"),
    [
        ("join-result-unknown", "friendly-then-compensate"),
        ("separate-result-unknown", "friendly-then-compensate"),
        ("join-change-unknown", "count-up"),
        ("whole-unknown", "count-on"),
        ("compare-bigger-unknown-more", None),
        ("join-result-unknown", "doubles"),
    ],
)
def test_even_over_tens_and_then_over_pairs(situation: str, strategy: str | None) -> None:
    one = supply(Wish(situation, strategy))
    adding = situations.get(situation).operation == "+"
    cells: dict[int, set[object]] = {}
    for triple in one:
        cells.setdefault((triple.c - 1) // 10, set()).add(triple.key if adding else triple)
    drawn = [choose(one, f"evenness/{index}") for index in range(40_000)]
    triples = [triple for triple in drawn if triple]
    tens: Counter[object] = Counter((triple.c - 1) // 10 for triple in triples)
    assert even(tens, len(cells)) > 0.001
    for ten, pairs in cells.items():
        counts: Counter[object] = Counter(
            triple.key if adding else triple for triple in triples if (triple.c - 1) // 10 == ten
        )
        assert set(counts) <= pairs
        if counts.total() > 5 * len(pairs):
            assert even(counts, len(pairs)) > 0.0001
    if adding and strategy != "doubles":
        orders: Counter[object] = Counter(t.a < t.b for t in triples if t.a != t.b)
        assert even(orders, 2) > 0.001


def test_a_double_weighs_as_much_as_any_other_pair() -> None:
    # Within 10 with any strategy, doubles stand among pairs that come in two orders.
    one = supply(Wish("join-result-unknown", None, 10))
    keys = {triple.key for triple in one}
    assert (4, 8) in keys
    assert (3, 8) in keys
    drawn = Counter(t.key for i in range(30_000) if (t := choose(one, f"double/{i}")))
    assert even(Counter[object](drawn), len(keys)) > 0.001


def test_choice_still_even_when_much_is_used() -> None:
    one = supply(Wish("join-result-unknown", "near-doubles", 20))
    keys = sorted({triple.key for triple in one})
    used = set(keys[::2])
    left = set(keys) - used
    tens: dict[int, list[tuple[int, int]]] = {}
    for key in left:
        tens.setdefault((key[1] - 1) // 10, []).append(key)
    drawn = Counter(t.key for i in range(20_000) if (t := choose(one, f"used/{i}", used)))
    assert set(drawn) == left
    for pairs in tens.values():
        assert even(Counter[object]({key: drawn[key] for key in pairs}), len(pairs)) > 0.001


# No repeats, and the same again.


@pytest.mark.parametrize(
    ("situation", "strategy", "limit"),
    [
        ("join-result-unknown", "friendly-then-compensate", 100),
        ("separate-result-unknown", "related-fact", 100),
        ("part-unknown", None, 20),
        ("both-parts-unknown", None, 20),
    ],
)
def test_no_repeats_until_nothing_is_left(situation: str, strategy: str | None, limit: int) -> None:
    one = supply(Wish(situation, strategy, limit))
    used: set[tuple[int, int]] = set()
    while triple := choose(one, f"all/{len(used)}", used):
        assert triple.key not in used
        used.add(triple.key)
    assert used == {each.key for each in one}
    assert len(used) == distinct_count(one)


SCRIPT = """
from storybank.number_choice import Wish, choose, supply
one = supply(Wish("join-change-unknown", None, 100, diagnose=False))
used = set()
for index in range(60):
    triple = choose(one, f"42/{index}", used)
    used.add(triple.key)
    print(triple, one.strategy(triple, f"42/{index}"))
"""


def test_same_numbers_under_any_hash_seed() -> None:
    runs = {
        subprocess.run(
            [sys.executable, "-c", SCRIPT],
            env={"PYTHONHASHSEED": seed},
            check=True,
            capture_output=True,
            text=True,
        ).stdout
        for seed in ("0", "1", "77")
    }
    assert len(runs) == 1
    assert len(set(next(iter(runs)).splitlines())) == 60


def test_earlier_draws_leave_no_trace() -> None:
    wish = Wish("separate-result-unknown", "count-on", 100)
    fresh = number_choice.Supply(wish)
    for index in range(500):
        choose(fresh, f"before/{index}")
    again = number_choice.Supply(wish)
    for index in range(200):
        assert choose(fresh, f"after/{index}") == choose(again, f"after/{index}")


def test_strategy_of_a_triple_follows_its_key() -> None:
    one = supply(Wish("join-result-unknown", None))
    triple = next(each for each in one if len(one.strategies(each)) > 1)
    names = [name for name, _ in one.strategies(triple)]
    taken = Counter(one.strategy(triple, str(index)) for index in range(300))
    assert set(taken) == set(names)
    assert one.strategy(triple, "7") == one.strategy(triple, "7")


# Both parts unknown.


@pytest.mark.parametrize(("limit", "highest"), [(5, 5), (20, 20), (100, 20)])
def test_both_parts_have_wholes_from_2_to_20(limit: int, highest: int) -> None:
    one = supply(Wish("both-parts-unknown", None, limit))
    assert [(t.a, t.b, t.c) for t in one] == [(0, n, n) for n in range(2, highest + 1)]
    assert one.strategies(Triple(0, 5, 5)) == ()
    assert one.strategy(Triple(0, 5, 5), "key") is None


def test_both_parts_suit_no_named_strategy() -> None:
    for wish in (
        Wish("both-parts-unknown", "count-on"),
        Wish("both-parts-unknown", None, 20, "always"),
        Wish("both-parts-unknown", None, 20, diagnose=True),
    ):
        assert list(supply(wish)) == []
        assert "To use it" in explain_shortage(wish)


# Diagnosis.

KEYWORDS = {"compare-difference-unknown-more": ("more",), "separate-start-unknown": ("left",)}


def solved(wish: Wish, triple: Triple, name: str, form: Form) -> Case:
    story = situations.get(wish.situation)
    solution = strategies.get(name).solve(form, *pair(story.id, triple), wish.limit)
    assert solution is not None
    answer = {story.roles[0]: triple.a, story.roles[1]: triple.b}.get(story.unknown, triple.c)
    told = pair(story.id, triple)
    return Case(story, triple, name, form, solution, answer, told, wish.keywords)


@pytest.mark.parametrize("story", ONE_ANSWER, ids=lambda one: one.id)
def test_diagnosis_takes_exactly_what_is_told_apart(story: Situation) -> None:
    keywords = KEYWORDS.get(story.id, ())
    wide = Wish(story.id, None, 60, keywords=keywords)
    narrow = Wish(story.id, None, 60, diagnose=True, keywords=keywords)
    expected = {
        triple
        for triple in supply(wide)
        if any(
            mistakes.told_apart(solved(wide, triple, *way))
            for way in supply(wide).strategies(triple)
        )
    }
    assert set(supply(narrow)) == expected
    assert distinct_count(supply(narrow)) == len({triple.key for triple in expected})
    for triple in expected:
        for way in supply(narrow).strategies(triple):
            assert mistakes.told_apart(solved(narrow, triple, *way))


def test_diagnosis_prefers_a_fix_of_two() -> None:
    # A forgotten fix of 1 lies one from the answer and looks like a slip of counting.
    one = supply(Wish("separate-result-unknown", "friendly-then-compensate", diagnose=True))
    first = {choose(one, f"prefer/{index}") for index in range(300)}
    assert {triple.b % 10 for triple in first if triple} == {8}
    used = {triple.key for triple in one if triple.b % 10 == 8}
    later = choose(one, "later", used)
    assert later is not None
    assert later.b % 10 == 9


@pytest.mark.parametrize("strategy", ["count-on", "split-tens-and-ones"])
def test_some_strategies_never_tell_mistakes_apart(strategy: str) -> None:
    for story in ONE_ANSWER:
        wish = Wish(story.id, strategy, diagnose=True, keywords=("more", "left"))
        assert list(supply(wish)) == []


def test_compensation_of_a_sought_number_is_refused_for_diagnosis() -> None:
    # Fixed-the-wrong-way and smaller-from-larger agree wherever the pair regroups.
    compensate, count = strategies.get("friendly-then-compensate"), 0
    for story in ONE_ANSWER:
        suit = compensate.suit(story)
        if suit and suit.forms == (Form.SOUGHT,):
            count += 1
            wish = Wish(story.id, "friendly-then-compensate", diagnose=True)
            assert list(supply(wish)) == []
            text = explain_shortage(wish)
            assert "0 whose known mistakes can be told apart" in text
            assert "Without --diagnose there are" in text
    assert count >= 2


# Messages.


def test_shortage_counts_what_each_wish_leaves() -> None:
    text = explain_shortage(Wish("join-result-unknown", "make-a-ten", 10), 12)
    assert "25 pairs within 10, 0 where make-a-ten fits" in text
    assert "Without the limit of 10 (say --within 20) there are 12." in text


def test_shortage_names_the_largest_count_possible() -> None:
    text = explain_shortage(Wish("join-result-unknown", "make-a-ten", 20), 24)
    assert text.startswith(
        "Only 12 pairs of numbers for join-result-unknown with make-a-ten within 20, "
        "and 24 asked for. The largest count possible is 12."
    )
    assert "With any strategy (--strategy any) there are" in text


def test_shortage_by_room() -> None:
    wish = Wish("join-result-unknown", "friendly-then-compensate", room=(OPEN, (1, 3), OPEN))
    text = explain_shortage(wish)
    assert "0 that have room in the story" in text
    assert "In a story with more room (another theme or scene) there are 366." in text
    assert "With any strategy" in text


def test_shortage_by_crossing() -> None:
    text = explain_shortage(Wish("join-result-unknown", "split-tens-and-ones", crossing="always"))
    assert "0 that regroup" in text
    assert "With regrouping as it comes (--crossing any) there are" in text
    text = explain_shortage(Wish("join-result-unknown", "give-and-take", crossing="never"))
    assert "0 that do not regroup" in text


def test_shortage_by_diagnosis_names_strategies_that_do() -> None:
    text = explain_shortage(Wish("separate-result-unknown", "count-on", diagnose=True))
    assert "0 whose known mistakes can be told apart" in text
    assert "Without --diagnose there are" in text
    assert "Mistakes can be told apart here with " in text
    assert "friendly-then-compensate" in text.split("can be told apart here with ")[1]


def test_shortage_of_a_strategy_that_the_situation_refuses() -> None:
    text = explain_shortage(Wish("join-result-unknown", "same-difference"))
    reason = strategies.get("same-difference").refusal(situations.get("join-result-unknown"))
    assert reason is not None
    assert reason in text
    assert "It suits " in text
    assert "compare-difference-unknown-more" in text


def test_shortage_within_100_points_to_1000() -> None:
    text = explain_shortage(Wish("join-change-unknown", "count-up"), 500)
    assert text.startswith("Only 319 pairs of numbers")
    assert "Without the limit of 100 (say --within 1000) there are at least 2,000." in text


def test_shortage_where_no_single_wish_helps() -> None:
    wish = Wish("join-result-unknown", "split-tens-and-ones", 20, "always", ((1, 3), (1, 3), OPEN))
    text = explain_shortage(wish)
    assert "No single wish, dropped, gives more" in text


def test_shortage_of_wholes() -> None:
    text = explain_shortage(Wish("both-parts-unknown", None, 100), 30)
    assert "The largest count possible is 19." in text
    assert "ask for another situation" in text
    text = explain_shortage(Wish("both-parts-unknown", None, 5), 12)
    assert "Raise the limit of 5" in text
    text = explain_shortage(Wish("both-parts-unknown", None, 20, room=(OPEN, OPEN, (18, 20))), 12)
    assert "In a story with more room" in text


def test_crossing_misspelt() -> None:
    with pytest.raises(RequestError, match=r'crossing "allways"\. Did you mean "always"'):
        Wish("join-result-unknown", crossing="allways")


# Named pairs.


def test_a_named_sum_keeps_its_order() -> None:
    found = number_choice.for_pair(46, 38, "+", "join-result-unknown", 100)
    assert found is not None
    assert found.triple == Triple(46, 38, 84)
    best = found.ways[0]
    assert best.fits
    assert best.strategy in strategies.fitting(Form.ADD, 46, 38, 100)
    assert number_choice.for_pair(46, 38, "+", "join-change-unknown", 100) is None


@pytest.mark.parametrize(
    ("situation", "triple"),
    [
        ("separate-result-unknown", Triple(35, 47, 82)),
        ("join-start-unknown", Triple(35, 47, 82)),
        ("join-change-unknown", Triple(47, 35, 82)),
        ("part-unknown", Triple(47, 35, 82)),
        ("compare-difference-unknown-more", Triple(47, 35, 82)),
        ("compare-smaller-unknown-more", Triple(35, 47, 82)),
    ],
)
def test_a_named_difference_takes_the_roles_of_the_story(situation: str, triple: Triple) -> None:
    found = number_choice.for_pair(82, 47, "-", situation, 100)
    assert found is not None
    assert found.triple == triple
    assert pair(situation, found.triple) == (82, 47)


def test_a_named_pair_is_not_refused_for_not_fitting() -> None:
    # Both numbers are tens and equal: no default set would have them.
    found = number_choice.for_pair(40, 40, "+", "whole-unknown", 100, "tens-then-ones")
    plain = number_choice.for_pair(40, 40, "+", "whole-unknown", 100)
    assert found is not None
    assert plain is not None
    assert all(not way.fits for way in found.ways)
    assert plain.ways
    assert plain.ways[0].fits
    # 74 - 31 is no compensation: 31 lies above the friendly number.
    trap = number_choice.for_pair(
        74, 31, "-", "separate-result-unknown", 100, "friendly-then-compensate"
    )
    assert trap is not None
    assert all(not way.fits for way in trap.ways)


def test_fitting_ways_come_first_for_every_pair() -> None:
    for a in range(2, 101, 3):
        for b in range(1, a):
            for situation in ("separate-result-unknown", "compare-difference-unknown-fewer"):
                found = number_choice.for_pair(a, b, "-", situation, 100)
                assert found is not None
                assert found.ways, (a, b)
                fits = [way.fits for way in found.ways]
                assert fits == sorted(fits, reverse=True)
                names = [way.strategy for way in found.ways]
                assert len(set(names)) == len(names)


@pytest.mark.parametrize(
    ("a", "b", "operation", "said"),
    [
        (70, 60, "+", "reaches 130, which is beyond the limit of 100.*--within 130"),
        (120, 60, "-", "reaches 120"),
        (0, 5, "+", "below 1"),
        (12, 12, "-", "below 1"),
        (12, 15, "-", "below 1"),
    ],
)
def test_a_named_pair_out_of_range(a: int, b: int, operation: str, said: str) -> None:
    with pytest.raises(NoNumbersError, match=said):
        number_choice.for_pair(a, b, operation, "join-result-unknown", 100)


# Within 1000.


@pytest.mark.parametrize(
    "strategy", ["tens-then-ones", "friendly-then-compensate", "count-up", None]
)
def test_draws_within_1000(strategy: str | None) -> None:
    situation = "join-change-unknown"
    one = supply(Wish(situation, strategy, 1000))
    drawn = [choose(one, f"thousand/{index}") for index in range(20)]
    assert max(triple.c for triple in drawn if triple) > 500
    for triple in drawn:
        assert triple is not None
        for name, form in one.strategies(triple):
            assert name in strategies.workable(form, *pair(situation, triple), 1000)


@pytest.mark.parametrize("situation", ["whole-unknown", "part-unknown", "separate-result-unknown"])
def test_the_strategy_of_the_day_is_shown_at_work_while_numbers_last(situation: str) -> None:
    """One-digit jumps show no tens: they come last. The bounds are our own design."""
    supply = number_choice.supply(Wish(situation, strategy="tens-then-ones", limit=50))
    thin = strategies.get("tens-then-ones").thin
    assert thin is not None
    used: set[tuple[int, int]] = set()
    seen = []
    while (found := number_choice.choose(supply, f"key/{len(used)}", used)) is not None:
        used.add(found.key)
        form = supply.form(found)
        pair = (found.a, found.b) if form is Form.ADD else (found.c, supply._part(found))
        seen.append(thin(form, *pair))
    assert True in seen and False in seen
    assert seen == sorted(seen)
