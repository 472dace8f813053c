"""Without changes a set is the one that is made without them."""

import pytest
from revision.kinds import KINDS, request
from revision.laws import faults

from storybank import make_set
from storybank.model import ProblemSet
from storybank.revision import revise


@pytest.mark.parametrize("seed", [1, 8])
@pytest.mark.parametrize("kind", KINDS)
def test_it_is_the_set_that_is_made(kind: str, seed: int) -> None:
    asked = request(kind, seed)
    made, revised = make_set(asked), revise(asked)
    assert revised.problem_set == made
    assert revised.problem_set.notes == made.notes
    assert revised.notes == ()
    assert all(one.problem == one.made and one.words is None for one in revised.stories)
    assert not list(faults(revised, asked))


@pytest.mark.parametrize("kind", KINDS)
def test_a_finished_set_stays_as_it_is(kind: str) -> None:
    made: ProblemSet = make_set(request(kind))
    assert revise(made).problem_set == made


def test_the_seed_is_used_where_none_is_asked_for() -> None:
    asked = request("plain", None)
    assert revise(asked, seed=5).problem_set == make_set(request("plain", 5))
