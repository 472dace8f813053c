"""The figures that stand beside a story, against published constants and counts made by hand.

Spache grade, revised 1974: 0.121 x words a sentence + 0.082 x percent of different unfamiliar
words + 0.659. The formula of 1953 had 0.141, 0.086 and 0.839.
"""

import re
from dataclasses import dataclass

import pytest
from language.told import sentences
from num2words import num2words

from storybank import themes
from storybank.vocabulary.measures import spache_grade, words_of

PER_SENTENCE, PER_PERCENT, CONSTANT = 0.121, 0.082, 0.659


@dataclass(frozen=True)
class Counted:
    """A text of our own with what was counted in it by hand."""

    text: tuple[str, ...]
    names: tuple[str, ...]
    bases: tuple[tuple[str, str], ...]
    words: int
    unfamiliar: int


BY_HAND = {
    "nothing unfamiliar": Counted(
        ("Ada has 46 apples.", "Then Ada gives 28 apples to Ben.", "How many are left?"),
        ("Ada", "Ben"), (), 15, 0,
    ),
    "acorns twice, counted once": Counted(
        ("There are 46 acorns there.", "Then 28 acorns fall.", "How many acorns are there now?"),
        (), (), 15, 1,
    ),
    "pumpkins, crate; inflected forms are familiar": Counted(
        ("The farmer picked 46 pumpkins.", "Then the farmer put 19 of the pumpkins in a crate.",
         "How many pumpkins are left?"),
        (), (), 21, 2,
    ),
    "dug, an irregular form, is as familiar as dig": Counted(
        ("The farmer dug and dug.", "The farmer has 46 apples.", "How many are there now?"),
        (), (("dug", "dig"),), 15, 0,
    ),
    "dug without its base form": Counted(
        ("The farmer dug and dug.", "The farmer has 46 apples.", "How many are there now?"),
        (), (), 15, 1,
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", BY_HAND.values(), ids=list(BY_HAND))
def test_the_grade_of_texts_counted_by_hand(case: Counted) -> None:
    assert sum(len(words_of(sentence)) for sentence in case.text) == case.words
    percent = 100 * case.unfamiliar / case.words
    grade = PER_SENTENCE * case.words / len(case.text) + PER_PERCENT * percent + CONSTANT
    assert spache_grade(case.text, case.names, dict(case.bases)) == round(grade, 1)


def test_the_weight_of_words_a_sentence() -> None:
    assert spache_grade(["apple " * 1000]) == round(PER_SENTENCE * 1000 + CONSTANT, 1) == 121.7


def test_the_weight_of_unfamiliar_words() -> None:
    strange = ["".join("bcdfghjklm"[int(digit)] for digit in f"{n:03}") for n in range(200)]
    text = " ".join(strange)
    expected = PER_SENTENCE * 200 + PER_PERCENT * 100 + CONSTANT
    assert spache_grade([text]) == round(expected, 1) == 33.1


def test_the_constant() -> None:
    assert spache_grade(["46"]) == round(PER_SENTENCE + CONSTANT, 1) == 0.8


@pytest.mark.parametrize(
    ("sentence", "words"),
    [
        ("Ada has 46 apples.", ["Ada", "has", "46", "apples"]),
        ("How many are left?", ["How", "many", "are", "left"]),
        ("Then Ana-Lucía's class came.", ["Then", "Ana-Lucía's", "class", "came"]),
        ("O\u2019Neil read 3 books, and 4 were new.",
         ["O\u2019Neil", "read", "3", "books", "and", "4", "were", "new"]),
    ],
)  # fmt: skip
def test_words_of_a_sentence(sentence: str, words: list[str]) -> None:
    assert words_of(sentence) == words


NUMBER_WORDS = re.compile(rf"\b(?:{'|'.join(num2words(n) for n in range(100, -1, -1))})\b", re.I)


def test_the_number_words_are_those_of_the_united_states() -> None:
    assert NUMBER_WORDS.fullmatch("forty-six") and NUMBER_WORDS.fullmatch("one hundred")
    assert not NUMBER_WORDS.search("There are 46 apples and someone has weight.")


@pytest.mark.parametrize("theme_id", themes.ids())
def test_no_sentence_says_a_number_in_words(theme_id: str) -> None:
    told = sentences(theme_id)
    assert len(told) > 1000
    assert [sentence for sentence in told if NUMBER_WORDS.search(sentence)] == []
