"""A number that is not needed: of another thing, unlike every other number, easy to leave out.

CCSS-M 2.OA.1 (published) asks to solve word problems by representing them, and standard for
mathematical practice 1 to make sense of a problem before solving it. That an extra number is asked
for and marked is our own design.
"""

import re
from dataclasses import replace

import pytest
from reader import CannotRead, read

from storybank import Request, checks, make_set, situations, themes, vocabulary
from storybank.checks import Context, _spoiling
from storybank.documents import Layout, kinds
from storybank.documents._page import Paragraph
from storybank.errors import RequestError
from storybank.model import Extra, Problem
from storybank.vocabulary import with_one_more_sentence
from storybank.vocabulary.measures import words_of

NUMERAL = re.compile(r"\d+")


def problems(count: int = 10, **wish: object) -> tuple[Problem, ...]:
    request = {"extra_number": True, "strategy": ["any"], "count": count, "seed": 4, **wish}
    return make_set(Request(**request)).problems  # type: ignore[arg-type]


def context_of(problem: Problem) -> Context:
    return Context(
        limit=100,
        vocabulary=with_one_more_sentence(vocabulary.get(problem.vocabulary)),
        theme=themes.get(problem.theme),
    )


@pytest.mark.parametrize("theme", themes.ids())
def test_the_reader_solves_the_story_and_nothing_else_answers_it(theme: str) -> None:
    for level in vocabulary.ids():
        for problem in problems(theme=[theme], vocabulary=level):
            (extra,) = problem.extra
            reading = read(problem.text, extra=True)
            assert reading.answer == problem.answer, problem.text
            assert reading.equation == problem.equations.situation
            told = sorted(map(int, NUMERAL.findall(problem.text)))
            assert told == sorted((*problem.story.given, extra.number))
            assert extra.number not in (*problem.numbers.values(), 1)
            assert extra.things not in problem.story.question
            assert extra.told in problem.text


@pytest.mark.parametrize("level", vocabulary.ids())
def test_nothing_is_told_with_also_twice(level: str) -> None:
    for problem in problems(60, vocabulary=level, seed=21):
        assert problem.text.count(" also ") <= 1, problem.text


@pytest.mark.parametrize("level", vocabulary.ids())
def test_a_story_is_a_sentence_longer_at_most(level: str) -> None:
    pack = vocabulary.get(level)
    longest = 0
    for problem in problems(40, vocabulary=level):
        sentences = problem.story.sentences
        assert len(sentences) <= pack.sentences + 1
        assert sum(len(words_of(one)) for one in sentences) <= pack.words + 8
        assert all(len(words_of(one)) <= pack.statement_words for one in sentences[:-1])
        longest = max(longest, len(sentences))
    assert longest > 3


def test_the_number_stands_in_every_place_of_the_story() -> None:
    places = set()
    for problem in problems(60):
        (extra,) = problem.extra
        numbers = list(map(int, NUMERAL.findall(problem.text)))
        places.add((numbers.index(extra.number), len(numbers)))
    assert {(0, 3), (1, 3), (2, 3)} <= places


def test_the_json_says_which_number_it_is_and_without_the_wish_there_is_none() -> None:
    (problem, *_) = problems()
    assert problem.to_json()["extra"] == [problem.extra[0].number]
    plain = make_set(Request(count=3, seed=4)).problems
    assert all("extra" not in one.to_json() and not one.extra for one in plain)


def test_the_key_marks_what_is_not_needed_and_the_student_page_does_not() -> None:
    chosen = make_set(Request(extra_number=True, count=4, seed=6))
    for kind, marked in (("key", True), ("student", False)):
        leads = [
            (one.lead, one.text)
            for one in kinds.page(kind, chosen, Layout()).flat()
            if isinstance(one, Paragraph)
        ]
        for problem in chosen.problems:
            assert (("Not needed:", f"{problem.extra[0].told}.") in leads) is marked


def test_spoiled_stories_are_caught() -> None:
    caught = 0
    for problem in problems(12, vocabulary="level-3"):
        context = context_of(problem)
        for name in ("extra", "given"):
            check = checks.get(name)
            assert check.judge(problem, context) == []
            for spoiled in check.spoil(problem):
                assert check.judge(spoiled, context), (name, spoiled.story.text)
                caught += 1
        unmarked = replace(problem, extra=())
        assert checks.get("given").judge(unmarked, context)
        (extra,) = problem.extra
        asked = problem.story.question.split()[2]
        same = [
            *_spoiling.retold(
                problem, rf"\b{extra.number} {extra.things}", f"{extra.number} {asked}"
            )
        ]
        for one in same:
            wrong = replace(one, extra=(Extra(extra.number, asked),))
            assert checks.get("extra").judge(wrong, context), wrong.text
    assert caught > 60


def test_the_reader_refuses_a_third_number_of_the_same_thing() -> None:
    story = (
        "There were 46 apples in a crate. There were also 7 {} in a basket. Then Ana put 12 more "
        "apples in the crate. How many apples were in the crate after that?"
    )
    assert read(story.format("pears"), extra=True).answer == 58
    with pytest.raises(CannotRead):
        read(story.format("apples"), extra=True)
    with pytest.raises(CannotRead):
        read(story.format("pears"))


@pytest.mark.parametrize(
    ("other", "said"),
    [
        ({"missing": True}, "one change at a time"),
        ({"levels_side_by_side": True}, "--levels-side-by-side"),
        ({"situation": ["both-parts-unknown"]}, "all pairs of parts"),
    ],
)
def test_what_cannot_be_met_is_said(other: dict, said: str) -> None:
    with pytest.raises(RequestError, match=re.escape(said)):
        make_set(Request(extra_number=True, count=1, seed=1, **other))


@pytest.mark.parametrize("situation", [one for one in situations.ids() if "both" not in one])
def test_every_situation_can_be_told_with_one(situation: str) -> None:
    assert len(problems(3, situation=[situation])) == 3


def test_numbers_a_teacher_names_stay_and_the_extra_is_another() -> None:
    for problem in problems(4, pair=["46 + 38", "82 - 47"]):
        assert sorted(problem.story.given) in ([38, 46], [47, 82])
        assert problem.extra[0].number not in (46, 38, 84, 82, 47, 35)
