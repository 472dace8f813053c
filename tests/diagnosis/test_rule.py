"""The rule, checked against sums written out by hand, and its properties."""

from itertools import product
from math import isclose, prod

import pytest
from hypothesis import given
from hypothesis import strategies as st

from storybank.diagnosis import _rule
from storybank.diagnosis._found import findings
from storybank.diagnosis._rule import MADE_AT, PRIOR, SLIPS, Pattern, slip

ANSWERS = {at: 30 + at for at in range(8)}


def by_hand(held: list[dict[int, int]], answers: dict[int, int], given_: dict[int, int]) -> float:
    """Prior times likelihood, answer by answer: the model as it is told, without short cuts."""
    total = 0.0
    for p, (e, share) in product(MADE_AT, SLIPS):
        terms = []
        for at, one in given_.items():
            wrong = {places[at] for places in held if at in places}
            distance = abs(one - answers[at])
            plain = 1 - e if distance == 0 else e * slip(distance)
            made = p / len(wrong) if one in wrong else 0.0
            terms.append(made + (1 - p) * plain if wrong else plain)
        total += share / len(MADE_AT) * prod(terms)
    return total * (PRIOR / (1 - PRIOR)) ** len(held)


def test_weights_are_those_of_bayes_rule_written_out() -> None:
    first = {0: 40, 1: 41, 2: 42, 3: 43}
    second = {2: 42, 3: 50, 4: 51, 5: 52}
    given_ = {0: 40, 1: 31, 2: 42, 3: 43, 4: 51, 5: 35, 6: 37, 7: 37}
    found = (Pattern(("one",), first), Pattern(("two",), second))
    weighed = _rule.weighed(found, ANSWERS, given_)
    held = {(): [], (0,): [first], (1,): [second], (0, 1): [first, second]}
    raw = {key: by_hand(one, ANSWERS, given_) for key, one in held.items()}
    assert weighed.explanations.keys() == raw.keys()
    for key, one in raw.items():
        assert isclose(weighed.explanations[key], one / sum(raw.values()), rel_tol=1e-9)
    assert isclose(weighed.weight(0), (raw[0,] + raw[0, 1]) / sum(raw.values()))


def test_slips_are_spread_over_all_numbers_once() -> None:
    near = 2 * sum(slip(one) for one in range(1, _rule.NEAREST + 1))
    assert isclose(near + _rule.FAR, 1)
    assert isclose(sum(share for _, share in SLIPS), 1)
    assert slip(1) > slip(10) > slip(7) > slip(300) > 0


WRONG = {at: ANSWERS[at] + 10 for at in range(6)}


def given_with(hits: int, wrong: dict[int, int]) -> dict[int, int]:
    return {**ANSWERS, **dict(list(wrong.items())[:hits])}


def test_one_hit_names_nothing_and_more_hits_weigh_more() -> None:
    assert not findings({"ten-kept": WRONG}, ANSWERS, given_with(1, WRONG))
    far = {at: ANSWERS[at] + 300 for at in range(2)}
    once = given_with(1, far)
    assert _rule.weighed((Pattern(("x",), far),), ANSWERS, once).weight(0) > _rule.ENOUGH
    assert not findings({"sums-side-by-side": far}, ANSWERS, once)
    weights = []
    for hits in range(3, 7):
        ((patterns, weight, clear),) = findings(
            {"ten-kept": WRONG}, ANSWERS, given_with(hits, WRONG)
        )
        assert patterns[0].mistakes == ("ten-kept",)
        assert clear == (hits >= 4)
        weights.append(weight)
    assert weights == sorted(weights)


def test_mistakes_that_coincide_on_what_was_answered_are_named_together() -> None:
    longer = {**WRONG, 7: 99}
    predicted = {"first": WRONG, "second": longer}
    given_ = given_with(3, WRONG)
    ((apart, _, _), *_) = findings(predicted, ANSWERS, given_)
    del given_[7]
    ((joined, _, _),) = findings(predicted, ANSWERS, given_)
    assert joined[0].mistakes == ("first", "second")
    assert all(len(one.mistakes) == 1 for one in apart)


def test_a_mistake_not_made_at_other_chances_gives_way() -> None:
    # Both lead to the same numbers in problems 0 to 3; the second has three more chances.
    shared = {at: ANSWERS[at] + 10 for at in range(4)}
    more = {**shared, 4: 51, 5: 52, 6: 53}
    given_ = given_with(4, shared)
    ((patterns, weight, _),) = findings({"narrow": shared, "wide": more}, ANSWERS, given_)
    assert patterns[0].mistakes == ("narrow",)
    assert weight > _rule.ENOUGH
    ((patterns, _, _),) = findings(
        {"narrow": shared, "wide": more}, ANSWERS, {**given_, 4: 51, 5: 52}
    )
    assert patterns[0].mistakes == ("wide",)


def test_where_the_problems_do_not_tell_both_are_said() -> None:
    shared = {0: 50, 1: 51}
    predicted = {"one": {**shared, 2: 60}, "two": {**shared, 3: 61}}
    ((patterns, weight, clear),) = findings(predicted, ANSWERS, given_with(2, shared))
    assert [one.mistakes for one in patterns] == [("one",), ("two",)]
    assert weight >= _rule.ENOUGH and not clear


def test_two_mistakes_of_one_child_are_both_named() -> None:
    one = {at: ANSWERS[at] + 10 for at in range(4)}
    two = {at: ANSWERS[at] + 25 for at in range(4, 8)}
    given_ = {**ANSWERS, **dict(list(one.items())[:3]), **dict(list(two.items())[:3])}
    found = findings({"one": one, "two": two}, ANSWERS, given_)
    assert {names.mistakes for (names,), _, _ in found} == {("one",), ("two",)}


def test_far_numbers_weigh_more_than_slips_of_counting() -> None:
    far = {at: ANSWERS[at] + 40 for at in range(6)}
    near = {at: ANSWERS[at] + 1 for at in range(6)}
    weights = [
        _rule.weighed((Pattern(("x",), one),), ANSWERS, given_with(2, one)).weight(0)
        for one in (far, near)
    ]
    assert weights[0] > weights[1]


@given(
    st.dictionaries(st.integers(0, 7), st.integers(0, 80), max_size=8),
    st.lists(st.dictionaries(st.integers(0, 7), st.integers(81, 90), max_size=8), max_size=5),
)
def test_weights_are_shares_and_findings_have_hits(
    given_: dict[int, int], places: list[dict[int, int]]
) -> None:
    predicted = {str(at): one for at, one in enumerate(places)}
    weighed = _rule.weighed(_rule.patterns(predicted), ANSWERS, given_)
    assert isclose(sum(weighed.explanations.values()), 1)
    # No number given is one predicted, so nothing may be named.
    assert findings(predicted, ANSWERS, given_) == []


@pytest.mark.parametrize("answered", [0, 1])
def test_next_to_no_answers_name_nothing(answered: int) -> None:
    given_ = dict(list(WRONG.items())[:answered])
    assert findings({"ten-kept": WRONG}, ANSWERS, given_) == []
