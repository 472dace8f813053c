"""Any changes in any order: the same set again, and every law of sets kept."""

from functools import cache

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from revision.kinds import KINDS, request
from revision.laws import faults

from storybank import vocabulary
from storybank.finished import set_from_json
from storybank.revision import Revised, changes_of, revise

PLACE = st.integers(1, 9)
CHANGE = st.one_of(
    st.builds("{}-{}".format, st.sampled_from(["swap", "numbers", "up", "down"]), PLACE),
    st.builds("{}-{}".format, st.sampled_from(["remove", "plain"]), PLACE),
    st.builds("level-{}-{}".format, PLACE, st.sampled_from(vocabulary.ids())),
    st.lists(PLACE, min_size=1, max_size=3, unique=True).map(
        lambda places: "-".join(["renew", *map(str, places)])
    ),
    st.just("more"),
)
CHANGES = st.lists(CHANGE, max_size=7).map(tuple)
CASES = st.tuples(st.sampled_from(sorted(KINDS)), st.integers(0, 5), CHANGES)
QUICK = settings(
    max_examples=120, deadline=None, suppress_health_check=[HealthCheck.too_slow], database=None
)


@cache
def changed(kind: str, seed: int, texts: tuple[str, ...]) -> Revised:
    return revise(request(kind, seed), changes_of(texts))


@QUICK
@given(CASES)
def test_every_law_holds_and_the_set_comes_back(case: tuple[str, int, tuple[str, ...]]) -> None:
    kind, seed, texts = case
    asked = request(kind, seed)
    revised = changed(kind, seed, texts)
    assert not list(faults(revised, asked))
    assert revised.problem_set.request.get("change", []) == list(texts)
    again = revise(asked, changes_of(texts))
    assert again == revised and again.problem_set.notes == revised.problem_set.notes
    read = set_from_json(revised.problem_set.to_json(), "")
    assert read.to_text() == revised.problem_set.to_text()
    for note in revised.notes:
        assert " was not done: " in note or " now: names have at most " in note


@QUICK
@given(CASES.filter(lambda case: case[2]))
def test_a_change_leaves_all_other_stories(case: tuple[str, int, tuple[str, ...]]) -> None:
    """Undo is the list without its last: what that has changed is only what it names."""
    kind, seed, texts = case
    before = changed(kind, seed, texts[:-1]).problem_set.problems
    after = changed(kind, seed, texts).problem_set.problems
    name, *places = texts[-1].split("-")
    if name == "level":
        del places[1:]
    touched = {int(one) - 1 for one in places}
    if kind == "fact families" and name != "remove":
        touched = {at for one in touched for at in range(one - one % 4, one - one % 4 + 4)}
    if name in ("up", "down"):
        assert sorted(one.text for one in after) == sorted(one.text for one in before)
    elif name == "remove":
        kept = [one.text for at, one in enumerate(before) if at not in touched or len(before) == 1]
        assert [one.text for one in after] == kept
    elif name == "more":
        assert after[: len(before)] == before
    else:
        assert len(before) == len(after)
        for at, (one, other) in enumerate(zip(before, after, strict=True)):
            assert one == other or at in touched


@QUICK
@given(st.integers(0, 5), CHANGES)
def test_no_story_of_the_class_list_loses_its_children(seed: int, texts: tuple[str, ...]) -> None:
    """The children at a place stay, whatever story is told there."""
    asked = request("class list", seed)
    told = [set(one.story.people) for one in revise(asked).problem_set.problems]
    here = tuple(one for one in texts if one.split("-")[0] in ("swap", "numbers", "renew", "level"))
    after = revise(asked, changes_of(here)).problem_set.problems
    assert [set(one.story.people) for one in after] == told
