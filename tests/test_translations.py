"""The word bank in a child's home language: from the pack, from a teacher's file, or not at all."""

from pathlib import Path

import pytest

from storybank import Request, make_set
from storybank.cli import main
from storybank.documents import Layout, kinds
from storybank.documents._page import Table
from storybank.errors import PackError
from storybank.model import ProblemSet
from storybank.translations import read

OWN = """
apple: {vi: "t\u00e1o"}
ducks: {vi: "con v\u1ecbt", ar: \u0628\u0637}
More: {vi: nhi\u1ec1u}
"""


def made(own: Path | None = None, **wish: object) -> ProblemSet:
    return make_set(
        Request(
            theme=["autumn-harvest"],
            vocabulary="level-1",
            count=40,
            seed=8,
            translations=own,
            **wish,
        )
    )


def headers(problem_set: ProblemSet) -> set[str]:
    blocks = kinds.page("student", problem_set, Layout()).flat()
    tables = [one for one in blocks if isinstance(one, Table)]
    assert tables
    return {cell for table in tables for cell in table.header}


@pytest.fixture
def own(tmp_path: Path) -> Path:
    path = tmp_path / "mine.yaml"
    path.write_text(OWN, encoding="utf-8")
    return path


def test_level_1_prints_cognates_and_an_empty_column_unless_told_otherwise() -> None:
    assert headers(made()) == {"Word", "What it means", "Espa\u00f1ol", "My word"}
    assert "Espa\u00f1ol" not in headers(made(home_language=["none"]))


def test_a_teachers_own_words_stand_beside_those_of_the_pack(own: Path) -> None:
    problem_set = made(own, home_language=["es", "vi", "ar"])
    bank = {word.word: word for one in problem_set.problems for word in one.story.word_bank}
    assert bank["ducks"].translations["vi"] == "con v\u1ecbt"
    assert bank["ducks"].translations["es"] == "pato"
    assert bank["more"].translations["vi"] == "nhi\u1ec1u"
    assert {"Ti\u1ebfng Vi\u1ec7t", "\u0627\u0644\u0639\u0631\u0628\u064a\u0629"} <= headers(
        problem_set
    )
    assert problem_set.request["translations"] == "mine.yaml"
    plain = {word.word: word for one in made().problems for word in one.story.word_bank}
    assert "vi" not in plain["ducks"].translations


def test_a_language_without_a_word_has_no_column() -> None:
    assert headers(made(home_language=["vi"])) == {"Word", "What it means", "My word"}


def test_the_key_has_every_word_of_the_set_once_with_both_forms() -> None:
    problem_set = made()
    blocks = kinds.page("key", problem_set, Layout()).flat()
    tables = [one for one in blocks if isinstance(one, Table)]
    rows = tables[-1].rows
    assert tables[-1].header == ("Word", "What it means", "Espa\u00f1ol", "My word")
    words = {word.word for one in problem_set.problems for word in one.story.word_bank}
    assert len(rows) == len(words)
    assert any("a leaf, leaves" in row[0] for row in rows)
    assert sum("ducks" in row[0] for row in rows) == 1


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("- apple", "line 1: translations are a list of words, each with its languages"),
        ("apple: t\u00e1o", 'line 1: "apple" needs its languages'),
        ("pear: {es: pera}\napple: {Viet: t\u00e1o}", 'line 2: "Viet" is no language code'),
        ("apple: {vi: [a]}", 'line 1: the translation of "apple" for vi must be text'),
        ("apple: {vi: a, vi: b}", "line 1"),
    ],
)
def test_what_is_wrong_is_said_by_line(text: str, said: str, tmp_path: Path) -> None:
    path = tmp_path / "mine.yaml"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(PackError) as error:
        read(path)
    assert said in str(error.value)


def test_bad_languages_leave_nothing(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "out"
    assert main(["make", "--home-language", "Spanish", "--out", str(out)]) == 2
    assert '--home-language is "Spanish"' in capsys.readouterr().err
    assert main(["make", "--translations", str(tmp_path / "no.yaml"), "--out", str(out)]) == 2
    assert not out.exists()
