"""Sets that follow one another: nothing comes back, one cast plays."""

from itertools import chain

import pytest

from storybank import Request
from storybank.errors import RequestError
from storybank.people import cast, own_list
from storybank.problem_set import Series

STRATEGIES = ("tens-then-ones", "next-ten-first", "count-up", "split-tens-and-ones")


def made(seed: int, levels: tuple[str, ...] = ()) -> tuple[Series, list]:
    series = Series(levels=levels, cast=6, seed=seed)
    sets = [
        series.make(Request(theme=["autumn-harvest"], strategy=[name], count=10, seed=seed + at))
        for at, name in enumerate(STRATEGIES)
    ]
    return series, list(chain.from_iterable(one.problems for one in sets))


@pytest.mark.parametrize("seed", range(5))
def test_no_numbers_texts_or_codes_come_back_in_a_series(seed: int) -> None:
    _, problems = made(seed)
    assert len(problems) == 40
    for key in (
        lambda one: tuple(sorted(one.numbers.values())),
        lambda one: one.text,
        lambda one: one.code,
    ):
        assert len({key(one) for one in problems}) == 40


def test_one_cast_plays_all_through_and_everybody_does() -> None:
    series, problems = made(3)
    told = set(chain.from_iterable(one.story.people for one in problems))
    assert told == {one.name for one in series.people}
    assert len(told) == 6


def test_every_story_is_told_at_each_level_of_the_series() -> None:
    _, problems = made(3, ("level-1", "level-3"))
    assert all([one.vocabulary for one in p.levels] == ["level-1", "level-3"] for p in problems)
    assert all(len(name) <= 5 for one in problems for name in one.story.people)


def test_the_same_seed_gives_the_same_series() -> None:
    assert made(8)[1] == made(8)[1] != made(9)[1]


def test_a_series_knows_its_levels() -> None:
    with pytest.raises(RequestError, match=r"level-9"):
        Series(levels=["level-9"], seed=1)


def test_a_cast_has_short_names_with_different_initials_while_there_are_any() -> None:
    chosen = cast(own_list(), 10, 5, "key").people
    assert len(chosen) == len({one.initial for one in chosen}) == 10
    assert all(len(one.name) <= 5 for one in chosen)
    many = cast(own_list(), 60, 8, "key").people
    assert len(many) == len(set(many)) == 60
