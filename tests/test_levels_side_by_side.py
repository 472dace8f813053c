"""The same story at all four levels: numbers, people, scene and events stay, only English moves."""

import re
from pathlib import Path

import jsonschema
import pytest
from reader import read

from storybank import Request, documents, make_set, situations, vocabulary
from storybank.cli import main
from storybank.documents.json import SCHEMA
from storybank.vocabulary.measures import words_of

NUMERAL = re.compile(r"\d+")


def wish(situation: str, seed: int) -> Request:
    return Request(situation=[situation], count=4, seed=seed, levels_side_by_side=True)


@pytest.mark.parametrize("situation", situations.ids())
@pytest.mark.parametrize("seed", range(5))
def test_one_problem_at_four_levels(situation: str, seed: int) -> None:
    for problem in make_set(wish(situation, seed)).problems:
        assert [one.vocabulary for one in problem.levels] == list(vocabulary.ids())
        told = [one.text for one in (problem, *problem.levels)]
        assert len({tuple(sorted(NUMERAL.findall(text))) for text in told}) == 1, told
        assert all(name in text for name in problem.story.people for text in told), told
        for one in problem.levels:
            assert (one.code, one.scene, one.numbers) == (
                problem.code, problem.scene, problem.numbers,
            )  # fmt: skip
            assert one.story.people == problem.story.people
            assert one.answer == problem.answer
            assert read(one.text).equation == problem.equations.situation
            pack = vocabulary.get(one.vocabulary)
            assert max(len(words_of(text)) for text in one.story.sentences) <= max(
                pack.statement_words, pack.question_words
            )


def test_plainer_levels_are_told_otherwise() -> None:
    """At level 1 in the present, at level 3 in the past: no level is a copy of all others."""
    made = make_set(wish("separate-result-unknown", 1))
    for problem in made.problems:
        texts = {one.text for one in problem.levels}
        assert len(texts) >= 2


def test_the_set_as_json_holds_the_levels() -> None:
    import json

    made = make_set(wish("join-change-unknown", 2))
    jsonschema.validate(made.to_json(), json.loads(SCHEMA.read_text(encoding="utf-8")))
    for problem in made.to_json()["problems"]:
        assert [one["vocabulary"] for one in problem["levels"]] == list(vocabulary.ids())
    plain = make_set(Request(count=1, seed=2)).to_json()
    assert "levels" not in plain["problems"][0]


def test_each_level_has_its_sheet_and_the_key_shows_all(tmp_path: Path) -> None:
    assert main(["make", "--levels-side-by-side", "--count", "3", "--seed", "4",
                 "--out", str(tmp_path)]) == 0  # fmt: skip
    sheets = {f"student-{level}.docx" for level in vocabulary.ids()}
    assert {one.name for one in tmp_path.iterdir()} == {
        "student.docx", "key.docx", "set.json", *sheets,
    }  # fmt: skip
    import docx

    made = make_set(Request(count=3, seed=4, levels_side_by_side=True))
    key = "\n".join(one.text for one in docx.Document(str(tmp_path / "key.docx")).paragraphs)
    for problem in made.problems:
        for one in problem.levels:
            assert one.text.replace("\n", " ") in key
    first = docx.Document(str(tmp_path / "student-level-1.docx"))
    shown = "\n".join(one.text for one in first.paragraphs)
    assert made.problems[0].levels[0].story.question in shown


def test_a_sheet_that_exists_is_found_before_the_work(tmp_path: Path) -> None:
    (tmp_path / "student-level-2.docx").write_text("mine", encoding="utf-8")
    assert main(["make", "--levels-side-by-side", "--count", "2", "--out", str(tmp_path)]) == 2
    assert [one.name for one in tmp_path.iterdir()] == ["student-level-2.docx"]
    assert "docx" in documents.formats()
