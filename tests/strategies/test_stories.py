"""Which story suits which strategy, and that every refusal has its own reason."""

import dataclasses

import pytest

from storybank import situations, strategies
from storybank.errors import RequestError
from storybank.model import Form, Situation
from storybank.strategies import _stories

TO_100 = [(c, b) for c in range(2, 101) for b in range(1, c)]
SHARED = {_stories.NOT_ADDING, _stories.NOT_TAKING_AWAY, _stories.BOTH_PARTS}
PAIRED = [
    # Torbeyns; Peltenburg 2012: children follow the story; pairing is our own design
    ("count-up", {"join-change-unknown", "separate-change-unknown", "part-unknown",
                  "compare-difference-unknown-more", "compare-difference-unknown-fewer"}),
    ("friendly-then-compensate", {"join-result-unknown", "separate-result-unknown",
                                  "join-change-unknown", "separate-change-unknown"}),
    ("same-difference", {"compare-difference-unknown-more", "compare-difference-unknown-fewer",
                         "compare-smaller-unknown-more", "compare-smaller-unknown-fewer"}),
]  # fmt: skip


def test_there_are_thirteen_strategies_in_four_ranks() -> None:
    assert len(strategies.ids()) == 13
    assert [one.rank for one in strategies.by_rank()] == [1] * 3 + [2] * 3 + [3] * 4 + [4] * 3


def test_an_unknown_strategy_names_the_valid_ones() -> None:
    with pytest.raises(RequestError, match=r'no strategy "count-onn".*"count-on".*tens-then-ones'):
        strategies.get("count-onn")


@pytest.mark.parametrize("strategy", strategies.ids())
def test_every_situation_is_suited_or_refused(strategy: str) -> None:
    one = strategies.get(strategy)
    assert not set(one.suits) & set(one.refuses)
    assert set(one.suits) | set(one.refuses) == set(situations.ids())
    for name in situations.ids():
        situation = situations.get(name)
        assert (one.suit(situation) is None) == (one.refusal(situation) is not None)


def test_at_least_twenty_refusals_have_their_own_reason() -> None:
    own = [
        reason
        for one in strategies.by_rank()
        for reason in one.refuses.values()
        if reason not in SHARED
    ]
    assert len(own) >= 20
    assert len(set(own)) == len(own)


def test_every_suit_has_its_own_reason() -> None:
    reasons = [suit.why for one in strategies.by_rank() for suit in one.suits.values()]
    assert len(set(reasons)) == len(reasons)
    assert all(reason.endswith(".") for reason in reasons)


def test_shared_refusals_follow_the_operation() -> None:
    for one in strategies.by_rank():
        for name, reason in one.refuses.items():
            situation = situations.get(name)
            assert (reason == _stories.BOTH_PARTS) == situation.both_parts
            if reason == _stories.NOT_ADDING:
                assert situation.operation == "+"
            if reason == _stories.NOT_TAKING_AWAY:
                assert situation.operation == "-"


@pytest.mark.parametrize("strategy", strategies.ids())
def test_the_forms_of_a_story_follow_its_operation(strategy: str) -> None:
    for name, suit in strategies.get(strategy).suits.items():
        situation = situations.get(name)
        for form in suit.forms:
            assert (form is Form.ADD) == (situation.operation == "+")
            assert form is not Form.SOUGHT or situation.sought


@pytest.mark.parametrize(("strategy", "expected"), PAIRED)
def test_strategies_paired_with_stories(strategy: str, expected: set[str]) -> None:
    assert set(strategies.get(strategy).suits) == expected


@pytest.mark.parametrize("strategy", strategies.ids())
def test_every_suited_form_has_pairs_to_100(strategy: str) -> None:
    forms = {form for suit in strategies.get(strategy).suits.values() for form in suit.forms}
    for form in forms:
        assert any(
            strategy in strategies.workable(form, c - b if form is Form.ADD else c, b, 100)
            for c, b in TO_100
        )


def _new(like: str) -> Situation:
    return dataclasses.replace(situations.get(like), id="a-new-one")


def test_a_situation_that_no_strategy_names_is_judged_by_its_operation() -> None:
    count_up = strategies.get("count-up")
    assert count_up.suit(_new("whole-unknown")) is None
    assert count_up.refusal(_new("whole-unknown")) == _stories.NOT_ADDING
    sought = count_up.suit(_new("part-unknown"))
    assert sought is not None and sought.forms == (Form.SOUGHT,)
    assert strategies.get("give-and-take").refusal(_new("part-unknown")) == (
        _stories.NOT_TAKING_AWAY
    )
    slid = strategies.get("same-difference").suit(_new("part-unknown"))
    assert slid is not None and slid.forms == (Form.SUBTRACT,)
    assert strategies.get("doubles").refusal(_new("both-parts-unknown")) == _stories.BOTH_PARTS
