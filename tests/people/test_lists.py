"""Name lists by id or file, and the files that are made from a Faker locale."""

from pathlib import Path

import pytest

from storybank.errors import NamesError, RequestError
from storybank.people import Person, named_list, new_names, own_list, rosters
from storybank.people.lists import NOT_REVIEWED
from storybank.people.new_names import _usable_locales

USABLE = _usable_locales()


def test_our_own_list_by_id() -> None:
    assert named_list("own") is own_list()


def test_a_file_by_id_and_by_path(tmp_path: Path) -> None:
    file = tmp_path / "ours.names.csv"
    file.write_text("# remark\nname,pronoun\nJosé,he\nAna,They\nMia,\n", "utf-8")
    expected = (Person("José", "he"), Person("Ana"), Person("Mia"))
    assert rosters(tmp_path) == ("ours", "own")
    for roster in (named_list("ours", tmp_path), named_list(str(file))):
        assert roster.people == expected
        assert roster.id == "ours.names.csv" and not roster.class_list and roster.notes == ()


def test_an_unreviewed_file_is_said(tmp_path: Path) -> None:
    (tmp_path / "mx.names.csv").write_text(new_names("es_MX"), "utf-8")
    (note,) = named_list("mx", tmp_path).notes
    assert "not been reviewed" in note and NOT_REVIEWED in note


def test_an_unknown_list_names_the_known_ones(tmp_path: Path) -> None:
    for name in ("owm", "x" * 300, "a\0b", "\u202eowm"):
        with pytest.raises(NamesError, match="Choose from: own"):
            named_list(name, tmp_path)
    with pytest.raises(NamesError, match="no such file"):
        named_list("gone.csv", tmp_path)


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("Mary Ann,she", 'line 3: "Mary Ann" cannot'), ("Iris,she", 'line 3: "Iris" cannot'),
        ("Jean-Luc,", "cannot stand"), ("Bo2,", "cannot stand"), ("Bo\u200b,", "cannot stand"),
        ("Ana,he", "stands in line 2 too"), ("Bo,him", 'the pronoun "him". Choose from: he'),
    ],
)  # fmt: skip
def test_a_faulty_line_is_named(line: str, words: str, tmp_path: Path) -> None:
    (tmp_path / "bad.names.csv").write_text(f"name,pronoun\nAna,she\n{line}\n", "utf-8")
    with pytest.raises(NamesError, match=words):
        named_list("bad", tmp_path)


def test_an_empty_list_is_an_error(tmp_path: Path) -> None:
    (tmp_path / "none.names.csv").write_text("# remark\nname,pronoun\n", "utf-8")
    with pytest.raises(NamesError, match="holds no name"):
        named_list("none", tmp_path)


@pytest.mark.parametrize("locale", USABLE)
def test_new_names_of_every_usable_locale_can_be_read(locale: str, tmp_path: Path) -> None:
    text = new_names(locale)
    assert text == new_names(locale.replace("_", "-").lower())
    (tmp_path / "new.names.csv").write_text(text, "utf-8")
    people = named_list("new", tmp_path).people
    assert len(people) >= 10
    for person in people:
        assert person.pronoun is None
        assert 2 <= len(person.name) <= 12 and person.name.isalpha()
        assert person.name.casefold() not in {"mark", "grace", "april", "rose", "ivy", "jack"}


def test_words_of_the_caller_are_left_out() -> None:
    assert "\nLucía," in new_names("es_MX")
    assert "\nLucía," not in new_names("es_MX", {"lucía"})


def test_there_are_usable_locales_but_none_without_names_of_its_own() -> None:
    assert {"es_MX", "tr_TR", "en_US", "sw"} <= set(USABLE)
    assert not {"vi_VN", "es", "hi_IN", "ar_AA", "ko_KR", "am_ET"} & set(USABLE)


@pytest.mark.parametrize(
    ("locale", "words"),
    [
        ("es_MZ", 'no locale "es_MZ".*mean "es_'), ("am_ET", 'no locale "am_ET"'),
        ("DE_CHH", 'mean "de_CH"'),
        ("vi_VN", "no names of its own"), ("es", "no names of its own"),
        ("hi_IN", "other scripts"), ("ar_AA", "other scripts"), ("", 'no locale ""'),
    ],
)  # fmt: skip
def test_an_unusable_locale_is_an_error_with_choices(locale: str, words: str) -> None:
    with pytest.raises(RequestError, match=words) as caught:
        new_names(locale)
    assert "Choose from: az_AZ" in str(caught.value)
