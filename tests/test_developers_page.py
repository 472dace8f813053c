"""DEVELOPERS.md follows one real problem: what it says of it is what is made."""

from pathlib import Path

from storybank import Request, make_set

PAGE = Path(__file__).parent.parent / "DEVELOPERS.md"


def test_the_problem_followed_through_is_the_one_that_is_made() -> None:
    page = PAGE.read_text(encoding="utf-8")
    assert "make --theme autumn-harvest --seed 119 --count 1" in page
    (problem,) = make_set(Request(theme=["autumn-harvest"], seed=119, count=1)).problems
    told = [
        problem.text,
        problem.code,
        problem.situation,
        problem.story.telling,
        problem.story.answer_sentence,
        problem.equations.situation,
        problem.equations.solution,
        *problem.related_facts,
        *(str(entry.answer) for entry in problem.watch_for),
    ]
    for value in told:
        assert value in page, value
