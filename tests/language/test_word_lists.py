"""The two word lists of the vocabulary measures against where they come from."""

import re
from pathlib import Path

from wordfreq import zipf_frequency

from storybank.vocabulary.measures import is_familiar, listed_words

LEAST_ZIPF = 3.5
ABBREVIATIONS = {"mr.", "mrs."}
"""Words of the Dale-Chall list with a full stop: no word of a story can match them."""


def _dale_chall() -> list[str]:
    path = Path(__file__).parent / "dale_chall.txt"
    return [row for row in path.read_text("utf-8").splitlines() if not row.startswith("#")]


def test_the_dale_chall_list_is_whole() -> None:
    words = _dale_chall()
    assert len(words) == len(set(words)) == 2942
    assert {"a", "acorn", "yourself"} <= set(words)


def test_familiar_words_are_dale_chall_words_that_are_frequent() -> None:
    frequent = {word for word in _dale_chall() if zipf_frequency(word, "en") >= LEAST_ZIPF}
    assert listed_words("familiar") == frequent - ABBREVIATIONS
    assert len(listed_words("familiar")) == 2530


def test_rare_dale_chall_words_are_unfamiliar() -> None:
    rare = ("acorn", "beehive", "banjo")
    assert set(rare) <= set(_dale_chall())
    assert [word for word in rare if is_familiar(word)] == []


def test_the_spache_list_has_its_published_size_and_plain_words() -> None:
    words = listed_words("spache")
    assert len(words) == 1063
    assert [word for word in words if not re.fullmatch(r"[a-z']+", word)] == []
