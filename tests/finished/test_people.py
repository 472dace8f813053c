"""Other people in a finished problem: every name is replaced, and nothing else."""

import json
from dataclasses import replace
from pathlib import Path

import pytest
from finished.kinds import KINDS, made

from storybank import Request, make_set, people
from storybank.errors import RequestError
from storybank.finished import choose_people, judge, own_names, pronouns, renamed
from storybank.model import Problem, ProblemSet
from storybank.people import Person, Roster

CLASS = (
    "Ana,she\nAnabel,she\nWill,he\nMay,she\nApril,she\nJosé María,he\nO'Brien,he\nLi Wei\n"
    "Al,he\nNguyễn Thị Minh Khai,she\nArjun-Dev,he\nZoë,she\nEmma,she\nRose,she\nSky,they\n"
)


def class_set(folder: Path, names: str = CLASS, **wish: object) -> ProblemSet:
    path = folder / "class.txt"
    path.write_text(names, encoding="utf-8")
    return make_set(Request(names=str(path), seed=3, **wish))


def in_json(name: str, problem: Problem) -> bool:
    return name in json.dumps(problem.to_json(), ensure_ascii=False)


@pytest.mark.parametrize(("kind", "level"), KINDS)
def test_chosen_people_take_every_place_and_can_give_it_back(kind: str, level: str) -> None:
    problem_set = made(kind, level)
    for at, problem in enumerate(problem_set.problems):
        chosen = choose_people(problem, people.own_list(), f"another/{at}")
        assert chosen is not None
        told = renamed(problem, chosen)
        assert judge(told, problem_set.request) == (), told.text
        old = problem.story.people
        assert all(
            not in_json(name, told) for name in old if name not in str([one.name for one in chosen])
        )
        again = [Person(*one) for one in zip(old, pronouns(problem), strict=True)]
        assert renamed(told, again) == problem


@pytest.mark.parametrize(
    "wish",
    [
        {"strategy": ["any"], "count": 40},
        {"steps": 2, "count": 20},
        {"addends": 3, "count": 12},
        {"levels_side_by_side": True, "count": 20},
        {"number_sets": [20, 100], "count": 8},
        {"missing": True, "count": 8},
        {"extra_number": True, "count": 8},
        {"vocabulary": "level-1", "count": 20},
    ],
    ids=str,
)
def test_names_of_children_stand_nowhere(wish: dict, tmp_path: Path) -> None:
    # Ana and Anabel, May, Will, April and Rose are words or parts of one another.
    problem_set = class_set(tmp_path, **wish)
    changed = 0
    for problem in problem_set.problems:
        told, notes = own_names(problem, problem_set.request)
        children = problem.story.people
        assert bool(notes) == bool(children)
        assert not any(in_json(name, told) for name in children), told.text
        assert not any(name in note for name in children for note in notes)
        assert all(person in NAMES for person in told.story.people)
        assert judge(told, problem_set.request) == (), told.text
        assert replace(told, story=problem.story).solution == problem.solution
        changed += len(children)
    assert changed


NAMES = {one.name for one in people.own_list().people}


def test_a_name_of_our_list_is_kept_only_where_no_class_list_was_used() -> None:
    problem_set = made("one step", "level-4")
    problem = next(one for one in problem_set.problems if len(one.story.people) == 2)
    assert own_names(problem, problem_set.request) == (problem, ())
    told, notes = own_names(problem, {**problem_set.request, "names": "class.txt"})
    assert notes == ("2 names from a class list became names of Storybank's own list.",)
    assert not set(told.story.people) & set(problem.story.people)


def test_only_a_name_of_no_list_is_replaced() -> None:
    problem_set = made("one step", "level-4")
    problem = next(one for one in problem_set.problems if len(one.story.people) == 2)
    _, second = problem.story.people
    child = Person("Wilhelmina Q", pronouns(problem)[0])
    told, notes = own_names(
        renamed(problem, [child, Person(second)]), {**problem_set.request, "names": None}
    )
    assert told.story.people[1] == second
    assert told.story.people[0] in NAMES
    assert len(notes) == 1
    assert "Wilhelmina" not in notes[0]


def test_names_that_are_words_or_parts_of_others() -> None:
    problem = next(one for one in made("one step", "level-4").problems if len(one.story.people) > 1)
    said = pronouns(problem)[0]
    awkward = [Person("Ana", said), Person("Anabel")]
    told = renamed(problem, awkward)
    swapped = renamed(told, [Person("Anabel", said), Person("Ana")])
    assert swapped.story.people == ("Anabel", "Ana")
    assert renamed(swapped, awkward) == told
    one, other = problem.story.people
    assert renamed(told, [Person(one, said), Person(other)]) == problem
    for name in ("Will", "I", "First", "Al", "José María", "D'Arcy-Jo"):
        there = renamed(problem, [Person(name, said), Person("Zed")])
        assert there.solution == problem.solution
        assert renamed(there, [Person(one, said), Person(other)]) == problem


def test_pronouns_are_those_of_the_text() -> None:
    seen = set()
    for problem in made("one step", "level-4").problems:
        found = pronouns(problem)
        assert len(found) == len(problem.story.people)
        if found:
            words = problem.text.lower().replace(".", " ").split()
            assert found[0] == next((one for one in words if one in ("he", "she")), None)
            assert found[1:] in ((), (None,))
            seen.add(found[0])
    assert {"he", "she"} & seen
    assert all(set(pronouns(one)) <= {None} for one in made("one step", "level-1").problems)


def test_a_pronoun_that_does_not_fit_is_refused() -> None:
    problem = next(one for one in made("one step", "level-4").problems if any(pronouns(one)))
    other = {"he": "she", "she": "he"}[pronouns(problem)[0] or ""]
    crowd = [Person("Zoe", other), Person("Ben", None)][: len(problem.story.people)]
    with pytest.raises(RequestError, match="not the pronoun of"):
        renamed(problem, crowd)
    with pytest.raises(RequestError, match="were named for it"):
        renamed(problem, [])


def test_a_class_list_with_nobody_fitting_gives_nobody() -> None:
    problem = next(one for one in made("one step", "level-4").problems if any(pronouns(one)))
    other = {"he": "she", "she": "he"}[pronouns(problem)[0] or ""]
    roster = Roster("class.txt", "Class", (Person("Zoe", other), Person("Zack")), class_list=True)
    assert choose_people(problem, roster, "1") is None
    crowd = Roster("x", "x", tuple(Person(f"Zo{c}", p) for c in "ab" for p in ("he", "she")), True)
    found = choose_people(problem, crowd, "1")
    assert found is not None
    assert found == choose_people(problem, crowd, "1")
    assert found[0].pronoun == pronouns(problem)[0]


def test_names_of_a_list_keep_to_the_letters_of_the_level_and_class_lists_need_not() -> None:
    problem = next(one for one in made("one step", "level-1").problems if one.story.people)
    long = (Person("Zwilhelmina", "she"), Person("Xwilhelmina", "she"))
    assert choose_people(problem, Roster("long", "Long", long), "1") is None
    assert choose_people(problem, Roster("c.txt", "Class", long, class_list=True), "1") is not None


def test_a_class_gets_a_problem_in_its_own_names(tmp_path: Path) -> None:
    roster = people.read_class_list("class.txt", CLASS.encode())
    problem_set = made("one step", "level-4")
    used = set()
    for at, problem in enumerate(problem_set.problems):
        chosen = choose_people(problem, roster, f"class/{at}")
        assert chosen is not None
        told = renamed(problem, chosen)
        used.update(told.story.people)
        assert judge(told, {**problem_set.request, "names": "class.txt"}) == (), told.text
    assert len(used) > 5
