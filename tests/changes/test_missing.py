"""A story that leaves out a needed number: it says so, asks for it, and is solved once it is told.

Asking what else one needs to know is common practice, no source.
"""

import json
import re

import jsonschema
import pytest
from reader import read

from storybank import Request, make_set, situations, vocabulary
from storybank.cli import main
from storybank.documents import Layout, kinds
from storybank.documents._page import Paragraph
from storybank.documents.json import SCHEMA
from storybank.errors import RequestError
from storybank.model import Problem

NUMERAL = re.compile(r"\d+")
TOLD = [
    one.id
    for one in situations.in_grade_order()
    if one.unknown not in ("start", "change") and not one.both_parts
]


def schema() -> dict:
    return json.loads(SCHEMA.read_text(encoding="utf-8"))


def problems(count: int = 8, **wish: object) -> tuple[Problem, ...]:
    request = {"missing": True, "strategy": ["any"], "count": count, "seed": 4, **wish}
    return make_set(Request(**request)).problems  # type: ignore[arg-type]


def completed(problem: Problem) -> list[str]:
    """The story with the number in each place where one could be missing."""
    assert problem.missing is not None
    number = str(problem.missing.number)
    if problem.missing.role == "difference":
        return [
            problem.text[: at.start()] + f"{number} " + problem.text[at.start() :]
            for at in re.finditer(r"\b(?:more|fewer) ", problem.text)
        ]
    return [
        problem.text[: at.start()] + number + problem.text[at.end() :]
        for at in re.finditer(r"\bsome\b", problem.text)
    ]


@pytest.mark.parametrize("situation", TOLD)
@pytest.mark.parametrize("level", vocabulary.ids())
def test_with_the_number_told_the_reader_solves_the_story(situation: str, level: str) -> None:
    for problem in problems(4, situation=[situation], vocabulary=level):
        missing = problem.missing
        assert missing is not None
        assert missing.number == problem.numbers[missing.role] != problem.answer
        assert list(map(int, NUMERAL.findall(problem.text))) == list(problem.story.given)
        assert len(problem.story.given) == 1
        readings = []
        for text in completed(problem):
            try:
                readings.append(read(text))
            except Exception:
                continue
        told = {(one.answer, one.equation) for one in readings}
        assert (problem.answer, problem.equations.situation) in told, problem.text


@pytest.mark.parametrize("level", vocabulary.ids())
@pytest.mark.parametrize("situation", TOLD)
def test_the_question_asks_whoever_has_some(situation: str, level: str) -> None:
    for problem in problems(6, situation=[situation], vocabulary=level, seed=9):
        missing = problem.missing
        assert missing is not None
        assert missing.ask != problem.story.question
        if missing.role == "difference":
            word = situation.rpartition("-")[2]
            assert missing.ask.startswith(f"How many {word} ")
            continue
        (told,) = [one for one in problem.story.sentences if re.search(r"\bsome\b", one)]
        (clause,) = [one for one in re.split(r",? and (?=[A-Z])", told) if "some" in one]
        for name in problem.story.people:
            if clause.startswith(f"{name} "):
                assert re.search(rf"\b{name}\b", missing.ask), (problem.text, missing.ask)
        assert missing.ask.split()[2] in re.findall(r"\w+", told)


def test_the_json_has_role_number_and_question(capsys: pytest.CaptureFixture[str]) -> None:
    wish = ["make", "--missing", "--count", "6", "--seed", "3", "--vocabulary", "level-2"]
    assert main([*wish, "--format", "json", "--out", "-"]) == 0
    said = capsys.readouterr()
    told = json.loads(said.out)
    jsonschema.validate(told, schema(), cls=jsonschema.Draft202012Validator)
    assert told["request"]["missing"] is True
    assert "--missing leaves out" in said.err
    for problem in told["problems"]:
        missing = problem["missing"]
        assert problem["numbers"][missing["role"]] == missing["number"]
        assert missing["role"] != problem["unknown"]
        assert re.fullmatch(r"How many [^\d]+\?", missing["ask"])


def test_the_page_asks_and_leaves_room_and_shows_the_number_nowhere() -> None:
    for level in vocabulary.ids():
        chosen = make_set(Request(missing=True, vocabulary=level, count=4, seed=5))
        student = list(kinds.page("student", chosen, Layout()).flat())
        leads = [one.lead for one in student if isinstance(one, Paragraph)]
        assert leads.count("What else do you need to know?") == 4
        printed = " ".join(
            getattr(one, "text", "") + getattr(getattr(one, "drawing", None), "alt", "")
            for one in student
            if not getattr(one, "number", None)
        )
        numbers = sorted(map(int, NUMERAL.findall(printed)))
        assert numbers == sorted(one.story.given[0] for one in chosen.problems)
        key = [
            one.text for one in kinds.page("key", chosen, Layout()).flat()
            if isinstance(one, Paragraph)
        ]  # fmt: skip
        for problem in chosen.problems:
            assert problem.missing is not None
            assert any(problem.missing.ask in text for text in key)


@pytest.mark.parametrize(
    "situation", ["join-change-unknown", "separate-start-unknown", "both-parts-unknown"]
)
def test_situations_that_do_not_read_naturally_are_refused_with_the_reason(situation: str) -> None:
    with pytest.raises(RequestError, match=r"riddle|all pairs") as caught:
        problems(1, situation=[situation])
    assert "Choose from: " in str(caught.value) and "whole-unknown" in str(caught.value)


def test_a_strategy_without_a_situation_left_is_refused() -> None:
    with pytest.raises(RequestError, match="--levels-side-by-side"):
        problems(1, levels_side_by_side=True)
