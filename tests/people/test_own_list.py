"""The laws of our own list of names."""

import csv
from collections import Counter
from pathlib import Path

from lemminflect import getAllLemmas

import storybank
from storybank.people import own_list, rosters

PACKAGE = Path(storybank.__file__).parent
PEOPLE = own_list().people
NAMES = [person.name for person in PEOPLE]


def test_each_name_is_one_short_word_of_plain_letters() -> None:
    for name in NAMES:
        assert name.isascii() and name.isalpha(), name
        assert name == name.capitalize(), name
        assert 3 <= len(name) <= 8, name
        assert not name.endswith("s"), name
        assert set(name.casefold()) & set("aeiouy"), name


def test_no_name_stands_twice() -> None:
    assert [name for name, count in Counter(NAMES).items() if count > 1] == []


def test_no_name_is_a_familiar_word() -> None:
    familiar = set((PACKAGE / "vocabulary" / "_familiar.txt").read_text("utf-8").split())
    assert {"mark", "rose", "grace", "bill", "chase"} & familiar
    assert [name for name in NAMES if name.casefold() in familiar] == []


def test_no_name_is_a_word_of_a_lexicon_or_of_our_name_words() -> None:
    assert getAllLemmas("chase") and getAllLemmas("ivy")
    assert [name for name in NAMES if getAllLemmas(name.casefold())] == []
    words = (PACKAGE / "people" / "_name_words.txt").read_text("utf-8").split()
    assert {"mark", "hope", "ivy", "robin"} <= set(words)
    assert [name for name in NAMES if name.casefold() in words] == []


def test_there_are_enough_names_and_short_ones() -> None:
    assert len(NAMES) >= 140
    assert sum(len(name) <= 5 for name in NAMES) >= 100


def test_he_and_she_are_balanced_at_every_length_limit() -> None:
    for limit in (5, 6, 8):
        kinds = Counter(person.pronoun for person in PEOPLE if len(person.name) <= limit)
        assert set(kinds) == {"he", "she", None}
        assert abs(kinds["he"] - kinds["she"]) <= len(PEOPLE) * 0.05
        assert kinds[None] >= 12


def test_initials_are_spread() -> None:
    for limit in (5, 8):
        initials = Counter(person.initial for person in PEOPLE if len(person.name) <= limit)
        total = sum(initials.values())
        assert len(initials) >= 20
        assert max(initials.values()) <= total * 0.1


def test_names_come_from_many_origins_and_none_dominates() -> None:
    lines = (PACKAGE / "people" / "own.csv").read_text("utf-8").splitlines()
    rows = list(csv.DictReader(line for line in lines if not line.startswith("#")))
    origins = Counter(row["origin"] for row in rows)
    assert [row["name"] for row in rows] == NAMES
    assert "" not in origins
    assert len(origins) >= 40
    assert max(origins.values()) <= len(rows) * 0.08


def test_the_list_is_found_by_its_file_name() -> None:
    assert rosters() == tuple(sorted(path.stem for path in (PACKAGE / "people").glob("*.csv")))
    assert own_list().id == "own" and own_list().notes == ()


def _edits(one: str, other: str) -> int:
    """The letters to change, add or drop between two names (Levenshtein 1966)."""
    row = list(range(len(other) + 1))
    for at, letter in enumerate(one, 1):
        last, row = row, [at]
        for place, mate in enumerate(other, 1):
            row.append(min(last[place] + 1, row[-1] + 1, last[place - 1] + (letter != mate)))
    return row[-1]


def test_no_two_names_that_can_meet_are_one_letter_apart() -> None:
    """Evan and Ivan in one story are hard to keep apart; our own rule, after a reading."""
    names = [person.name for person in own_list().people]
    close = [
        (one, other)
        for at, one in enumerate(names)
        for other in names[at + 1 :]
        if one[0] != other[0] and _edits(one.lower(), other.lower()) <= 1
    ]
    assert not close
