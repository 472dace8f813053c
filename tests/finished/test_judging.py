"""A finished problem that is judged afresh: no fault in any kind, and faults in spoiled ones."""

import json
from dataclasses import replace
from pathlib import Path

import pytest
from finished.kinds import KINDS, made

from storybank import Request, checks, make_set, people, themes, vocabulary
from storybank.errors import NotHereError, PackError
from storybank.finished import judge, problem_from_json, set_from_json
from storybank.model import Problem, ProblemSet

SEEDS = (1, 2, 3)


def read_again(problem: Problem) -> Problem:
    return problem_from_json(json.loads(json.dumps(problem.to_json())), "")


@pytest.mark.parametrize(("kind", "level"), KINDS)
@pytest.mark.parametrize("seed", SEEDS)
def test_no_fault_is_found_in_what_was_made(kind: str, level: str, seed: int) -> None:
    again = set_from_json(json.loads(made(kind, level, seed).to_text()), "")
    for problem in again.problems:
        assert judge(problem, again.request) == (), problem.text


def context_of(problem: Problem, problem_set: ProblemSet) -> checks.Context:
    """What the problem was judged by when it was made; no rule was switched."""
    request, pack = problem_set.request, vocabulary.get(problem.vocabulary)
    return checks.Context(
        limit=request["within"],
        vocabulary=vocabulary.with_one_more_sentence(pack) if request["extra_number"] else pack,
        theme=themes.get(problem.theme),
        asked_pair=bool(request["pair"]),
        people=people.own_list().people,
        measured=problem.story.unit is not None,
    )


@pytest.mark.parametrize("check_id", checks.ids())
def test_what_each_check_catches_is_caught_after_it_was_read(check_id: str) -> None:
    check, caught = checks.get(check_id), 0
    for kind, level in KINDS:
        problem_set = made(kind, level)
        problem = problem_set.problems[0]
        if kind == "rules switched":
            continue
        for spoiled in check.spoil(problem):
            if not check.judge(spoiled, context_of(problem, problem_set)):
                continue  # By chance true, or about numbers that the teacher named.
            try:
                again = read_again(spoiled)
                if again == problem:
                    continue  # What was spoiled does not stand in the JSON.
                assert judge(again, problem_set.request), f"{kind}, {level}: {again}"
            except (PackError, NotHereError):
                pass
            caught += 1
    assert caught


def test_a_level_that_is_wrong_is_named() -> None:
    problem_set = made("side by side", "level-4")
    problem = problem_set.problems[0]
    first, *others = problem.levels
    wrong = replace(first, reading=replace(first.reading, words=99))
    (fault,) = judge(replace(problem, levels=(wrong, *others)), problem_set.request)
    assert fault.startswith("At level-1: ")
    assert "99" in fault


def test_what_is_not_on_this_machine_is_named() -> None:
    problem_set = made("one step", "level-4")
    problem = problem_set.problems[0]
    with pytest.raises(NotHereError, match=r"^theme my-garden is not on this machine$"):
        judge(replace(problem, theme="my-garden"), problem_set.request)
    with pytest.raises(NotHereError, match=r"^vocabulary my-district is not on this machine$"):
        judge(replace(problem, vocabulary="my-district"), problem_set.request)


@pytest.mark.parametrize(
    "change",
    [{"within": "much"}, {"within": 10**30}, {"allow": ["no-rule"]}, {"allow": 3}, {"pair": "x"}],
)
def test_a_damaged_request_is_said_to_be_one(change: dict) -> None:
    problem_set = made("one step", "level-4")
    with pytest.raises(PackError, match="The request"):
        judge(problem_set.problems[0], {**problem_set.request, **change})


def test_a_smaller_limit_is_kept_to() -> None:
    problem_set = made("friendly-then-compensate", "level-4")
    faults = [judge(one, {**problem_set.request, "within": 5}) for one in problem_set.problems]
    assert all(any("limit of 5" in fault for fault in found) for found in faults)


def test_standards_of_a_state_are_not_judged() -> None:
    problem = made("one step", "level-4").problems[0]
    request = {**made("one step", "level-4").request, "standards": "A state"}
    assert judge(replace(problem, standards=("XX.2.1",)), request) == ()
    assert judge(replace(problem, standards=("XX.2.1",)), {**request, "standards": None})


def test_subjects_switched_off_and_names_of_a_class_are_judged_alike(tmp_path: Path) -> None:
    path = tmp_path / "class.txt"
    path.write_text("Nia,he\nOmar,she\nAlexandrina Josephine,she\n", encoding="utf-8")
    wish = {"names": str(path), "without": ["pets", "sweets"], "strategy": ["any"]}
    for level in ("level-1", "level-4"):
        problem_set = make_set(Request(count=12, seed=4, vocabulary=level, **wish))
        for problem in problem_set.problems:
            assert judge(read_again(problem), problem_set.request) == ()


def test_a_sum_that_adds_one_of_its_parts_twice_is_a_fault() -> None:
    problem_set = made("three addends", "level-4")
    problem = problem_set.problems[0]
    part = problem.numbers["part1"]
    twice = replace(problem.solution, lines=(f"{part} + {part} = {2 * part}", "1 + 1 = 2"))
    assert judge(replace(problem, solution=twice), problem_set.request)
