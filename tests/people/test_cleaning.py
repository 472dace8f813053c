"""Outside text is cleaned once, never twice differently, and every change is said."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from storybank.people import clean_text

HOSTILE = st.text(
    st.one_of(
        st.characters(),
        st.sampled_from(
            "ae\u0301\u0323\u0327\u200d\u200c\ufe0f\u202e\u200f\u00ad\u0085\t\n \u3000"
        ),
        st.sampled_from("\ufffe\ufdd0\x00\x07\u3164\u05b4\u05bc\u094d\u0e31\U000e0100\U000e0041"),
    ),
    max_size=40,
)


@given(HOSTILE, st.integers(20, 60))
def test_clean_text_is_fit_for_any_document(text: str, limit: int) -> None:
    clean, _ = clean_text(text, limit)
    assert len(clean) <= limit
    assert clean == clean.strip(" ") and "  " not in clean
    assert unicodedata.is_normalized("NFC", clean)
    for char in clean:
        assert unicodedata.category(char) not in {"Cc", "Cs", "Zl", "Zp"}
        assert char in "\u200c\u200d" or unicodedata.category(char) != "Cf"
        assert char == " " or unicodedata.category(char) != "Zs"
        assert ord(char) & 0xFFFE != 0xFFFE and not 0xFDD0 <= ord(char) <= 0xFDEF
    clean.encode("utf-8")


@given(HOSTILE, st.integers(20, 60))
def test_cleaning_twice_changes_and_says_nothing_more(text: str, limit: int) -> None:
    clean, _ = clean_text(text, limit)
    assert clean_text(clean, limit) == (clean, ())


@given(HOSTILE)
def test_a_visible_change_is_said_and_no_change_is_not(text: str) -> None:
    clean, notes = clean_text(text, 200)
    spaces = "".join(" " if unicodedata.category(c) == "Zs" or c == "\u2800" else c for c in text)
    unsaid = unicodedata.normalize("NFC", spaces).strip(" ")
    if not notes:
        assert clean == unsaid
    if clean == unicodedata.normalize("NFC", text):
        assert notes == ()


@given(st.text("aoe\u0301\u0300\u0323\u0308\u0338\u20dd", max_size=30))
def test_no_letter_carries_more_than_two_stacked_accents(text: str) -> None:
    run = 0
    for char in unicodedata.normalize("NFD", clean_text(text, 60)[0]):
        run = run + 1 if unicodedata.category(char).startswith("M") else 0
        assert run <= 2


@pytest.mark.parametrize(
    "name",
    [
        "Ana", "Ana María", "O'Neil", "Jean-Luc", "Nguyễn Thị Ngọc", "Ọlọ́runfẹ́mi", "Žofie",
        "محمد", "شَهْرَزَادّ", "علی‌رضا", "ज़ींनत", "क्‍ष", "അരുണ്‍", "น้ำฝน", "မြွှေ့", "בְּרֵאשִׁית",
        "王〇一", "葛\U000e0100城", "김서연", "\u02bbIolani", "\u01c3Xóõ", "བསྒྲུབས",
    ],
)  # fmt: skip
def test_names_of_any_script_stay_as_they_are(name: str) -> None:
    assert clean_text(name, 60) == (unicodedata.normalize("NFC", name), ())


@pytest.mark.parametrize(
    ("text", "clean", "note"),
    [
        ("An\x07a", "Ana", "removed a control character"),
        ("\u202eAna", "Ana", "removed an invisible character"),
        ("\u200dAna \u200cBo", "Ana Bo", "removed an invisible character"),
        ("A\u3164na", "Ana", "removed an invisible character"),
        ("Ana\ufffe", "Ana", "removed a character that no document may hold"),
        ("Ana\ud800", "Ana", "removed a character that no document may hold"),
        ("Ana\r\nBo", "Ana Bo", "wrote a line break or tab as a space"),
        ("Ana  Bo", "Ana Bo", "removed a doubled space"),
        ("\u0301Ana", "Ana", "removed accents without a letter or stacked too high"),
        ("A" * 70, "A" * 60, "cut to 60 characters"),
        ("A" * 59 + "e\u0323\u030a", "A" * 59, "cut to 60 characters"),
    ],
)
def test_each_change_has_its_phrase(text: str, clean: str, note: str) -> None:
    cleaned, notes = clean_text(text, 60)
    assert cleaned == clean
    assert note in notes
