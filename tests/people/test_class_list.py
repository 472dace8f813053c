"""A class list loses no child, whatever its encoding, columns and names."""

import codecs
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from storybank.errors import NamesError
from storybank.people import Person, read_class_list
from storybank.people.class_list import MAX_CHILDREN, clean_name
from storybank.people.tables import MAX_BYTES

NAMES = ("Ana María", "O'Neil", "Zoë", "Žofie", "Jürgen-Émile", "Iris")
LINE = st.text(st.characters(codec="utf-8", exclude_characters="\0"), max_size=30)


def people(text: str) -> tuple[Person, ...]:
    return read_class_list("list.csv", text.encode()).people


@pytest.mark.parametrize(
    ("encoding", "mark"),
    [
        ("utf-8", b""), ("utf-8", codecs.BOM_UTF8), ("cp1252", b""),
        ("utf-16-le", codecs.BOM_UTF16_LE), ("utf-16-be", codecs.BOM_UTF16_BE),
    ],
)  # fmt: skip
@pytest.mark.parametrize("line_end", ["\n", "\r\n", "\r"])
def test_every_encoding_and_line_end_gives_the_same_names(
    encoding: str, mark: bytes, line_end: str, tmp_path: Path
) -> None:
    file = tmp_path / "class 2b.csv"
    file.write_bytes(mark + line_end.join(NAMES).encode(encoding))
    roster = read_class_list(file)
    assert tuple(person.name for person in roster.people) == NAMES
    assert roster.id == "class 2b.csv" and roster.class_list
    assert bool(roster.notes) == (encoding == "cp1252")
    assert str(tmp_path) not in "".join(roster.notes)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Ana,she\nBo;he/him\nCy\tThey", [("Ana", "she"), ("Bo", "he"), ("Cy", None)]),
        ("Ana, He/They\nBo (she/her)\nCy (he), they", [("Ana", None), ("Bo", "she"), ("Cy", None)]),
        ("Name,Pronouns\nAna,she", [("Ana", "she")]),
        ("First name;Last name;Pronoun\nAna;Lopez;she", [("Ana Lopez", "she")]),
        ("Surname,Given name\nLopez,Ana", [("Ana Lopez", None)]),
        ("Student\tGroup\nAna\tBlue", [("Ana", None)]),
        ("Students\nLopez, Ana", [("Ana Lopez", None)]),
        ("Name,Pronoun\nLopez, Ana, she", [("Ana Lopez", "she")]),
        ("Lopez, Ana\nLopez, Bo, he", [("Ana Lopez", None), ("Bo Lopez", "he")]),
        ('"Lopez, Ana",she\n"Lopez, Bo";he', [("Ana Lopez", "she"), ("Bo Lopez", "he")]),
        (
            "1. Ana\n2) Bo\n#3 Cy\n- Dee\n• Eve",
            [(n, None) for n in ("Ana", "Bo", "Cy", "Dee", "Eve")],
        ),
        ("Ana\nAna", [("Ana", None), ("Ana", None)]),
        ("ana B.\n王一", [("ana B", None), ("王一", None)]),
        ('"Ana\nBo "Bobby" Lee', [("Ana", None), ('Bo "Bobby" Lee', None)]),
    ],
)
def test_columns_headers_and_last_name_first(
    text: str, expected: list[tuple[str, str | None]]
) -> None:
    assert [(person.name, person.pronoun) for person in people(text)] == expected


@pytest.mark.parametrize("written", ["F", "girl", "xe/xem", "any", "n/a"])
def test_no_pronoun_is_inferred(written: str) -> None:
    roster = read_class_list("a", f"Ana,{written}".encode())
    assert roster.people == (Person("Ana", None),)
    assert "said again" in roster.notes[0]


def test_every_kind_of_change_is_one_note_with_few_names() -> None:
    lines = [f"{letter}\u200bxy{number}" for number, letter in enumerate("ABCDEF")]
    roster = read_class_list("a", "\n".join([*lines, "# remark", "42", ""]).encode())
    assert roster.notes == (
        "6 names: removed digits (Axy, Bxy, Cxy and 3 more).",
        "6 names: removed an invisible character (Axy, Bxy, Cxy and 3 more).",
        "a: left out 1 line beginning with #.",
        "a: left out 1 line without a letter.",
    )


def test_swapped_and_cut_names_are_said() -> None:
    notes = " ".join(read_class_list("a", b"Lopez, Ana\n" + b"x" * 61).notes)
    assert "1 name: read as last name, first name (Ana Lopez)." in notes
    assert "cut to 60 characters" in notes


@given(st.lists(LINE, max_size=8), st.sampled_from(["utf-8", "utf-8-sig", "utf-16"]))
def test_any_text_gives_clean_names_or_a_names_error(lines: list[str], encoding: str) -> None:
    try:
        roster = read_class_list("a", "\n".join(lines).encode(encoding))
    except NamesError:
        return
    for person in roster.people:
        assert 0 < len(person.name) <= 60
        assert not any(char.isdigit() or char in ".!?\n" for char in person.name)
        assert clean_name(person.name) == (person.name, ())
        assert person.pronoun in {"he", "she", None}


@given(st.binary(max_size=200))
def test_any_bytes_give_names_or_a_names_error(data: bytes) -> None:
    try:
        assert read_class_list("a", data).people
    except NamesError as error:
        assert str(error).startswith("a: ")


@given(st.lists(st.text("abcdeéñ'-", min_size=1).filter(lambda t: t[0].isalpha()), min_size=1))
def test_no_child_is_left_out(names: list[str]) -> None:
    assert len(people("\n".join(f"{name}," for name in names))) == len(names)


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "holds no name"), (b"12\n34", "holds no name"), (b"Name\n", "holds no name"),
        (b"A\0n\0a\0", "zero bytes"), (b"PK\x03\x04abc", "not a text file"),
        (b"\x89PNG\r\n", "not a text file"), (b"\xff\xfeA", "breaks its UTF-16"),
        (b"Ana\n" * (MAX_BYTES // 4 + 1), "more than 1,000,000 bytes"),
        (b"Ana\n" * (MAX_CHILDREN + 1), "at most 2,000"),
    ],
)  # fmt: skip
def test_what_gives_no_names_is_an_error_that_names_the_file(data: bytes, words: str) -> None:
    with pytest.raises(NamesError, match=words) as caught:
        read_class_list("C:\\secret\\names.txt", data)
    assert str(caught.value).startswith("names.txt: ")
    assert "secret" not in str(caught.value)


def test_missing_file_folder_and_impossible_path(tmp_path: Path) -> None:
    for path, words in [
        (tmp_path / "no.csv", "no such file"), (tmp_path, "is a folder"),
        (tmp_path / "a\0b", "cannot be read"), (tmp_path / ("x" * 300), "cannot be read"),
    ]:  # fmt: skip
        with pytest.raises(NamesError, match=words) as caught:
            read_class_list(path)
        assert str(tmp_path.parent) not in str(caught.value)
