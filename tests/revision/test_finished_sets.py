"""A finished set that is gone on with: stories move, go, are reworded; none is made again."""

import json

import pytest
from revision.kinds import request

from storybank import make_set
from storybank.finished import set_from_json
from storybank.model import ProblemSet
from storybank.revision import Words, changes_of, revise

KEPT = (
    "these stories are kept as they were made. Move, remove or reword them, or make a new set to "
    "swap stories."
)


def kept(kind: str = "any") -> ProblemSet:
    """A set as a file of it gives it."""
    return set_from_json(json.loads(make_set(request(kind)).to_text()), "")


@pytest.mark.parametrize("kind", ["any", "fact families", "two steps", "level-1"])
def test_its_stories_move_and_go(kind: str) -> None:
    made = kept(kind)
    revised = revise(made, changes_of(["down-1", "remove-3", "up-3"]))
    first, second, third, fourth, *others = made.problems
    assert revised.problem_set.problems == (second, fourth, first, *others)
    assert not revised.notes and third not in revised.problem_set.problems
    assert revised.problem_set.request == {
        **made.request,
        "change": ["down-1", "remove-3", "up-3"],
    }


def test_they_are_told_in_words_of_a_teacher() -> None:
    made = kept("level-1")
    problem = made.problems[1]
    *begin, question = problem.story.sentences
    text = " ".join([*begin, "It is a good day.", question])
    revised = revise(made, changes_of(["words-2-1", "up-2"]), [Words(text)])
    story = revised.stories[0]
    assert story.made == problem and not any(fault.law for fault in story.faults)
    assert story.problem.text == "\n".join([" ".join([*begin, "It is a good day."]), question])
    assert story.problem.reading.words == problem.reading.words + 5
    again = revise(made, changes_of(["words-2-1", "plain-2"]), [Words(text)])
    assert again.problem_set.problems == made.problems


def test_they_may_be_of_a_theme_that_is_not_here() -> None:
    node = json.loads(make_set(request("any")).to_text())
    for problem in node["problems"]:
        problem["theme"] = "nobodys-theme"
    made = set_from_json(node, "")
    revised = revise(made, changes_of(["words-1-1"]), [Words(made.problems[0].text)])
    (fault,) = revised.stories[0].faults
    assert not fault.law
    assert fault.text == "Its English was not checked: theme nobodys-theme is not on this machine."
    assert revised.problem_set.problems == made.problems


def test_nothing_of_them_is_made_again() -> None:
    made = kept()
    texts = ["swap-1", "numbers-2", "renew-1-3", "level-1-level-2", "more"]
    revised = revise(made, changes_of(texts))
    assert revised.problem_set.problems == made.problems
    assert revised.notes == tuple(f"{text} was not done: {KEPT}" for text in texts)


def test_earlier_changes_stand_before_the_later_ones() -> None:
    made = revise(request("any"), changes_of(["swap-1"])).problem_set
    later = revise(made, changes_of(["down-1"])).problem_set
    assert later.request["change"] == ["swap-1", "down-1"]
    assert made.request["change"] == ["swap-1"]
