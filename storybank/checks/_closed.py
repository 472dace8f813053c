"""The closed word lists of `_words.yaml`, as the tags that the grammar reads."""

from collections.abc import Mapping
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Any

from storybank import catalog
from storybank.compiled import compiled

FILE = Path(__file__).parent / "_words.yaml"
VERB_TAGS = ("vb", "vs", "vd", "vp")
_READINGS = {"adverb": "r", "noun": "n2", "adjective": "adj", "verb": "vb"}
_TAGS = {
    "one_determiners": "d1",
    "many_determiners": "dm",
    "determiners": "d",
    "quantifiers": "q",
    "prepositions": "p",
    "adverbs": "r",
    "conjunctions": "c",
    "others": "f",
    "total_words": "f",
    "plural_nouns": "n2",
    "modals": "modal",
    "pronouns_he": "pro",
    "pronouns_she": "pro",
    "pronouns_it": "pro",
    "pronouns_many": "pro",
    "number_words": "bad",
    "negations": "bad",
    "if_words": "bad",
    "relatives": "rel",
}
_FORMS = (
    ("is", "be"), ("are", "be"), ("was", "be"), ("were", "be"), ("be", "be0"),
    ("do", "aux"), ("does", "aux"), ("did", "aux"),
)  # fmt: skip


@cache
def lists() -> Mapping[str, Any]:
    """The lists of the file, by name."""
    return compiled("function-words", [FILE], _read)


def _read() -> Mapping[str, Any]:
    (entry,) = catalog.read_documents(FILE)
    return MappingProxyType(dict(entry))


@cache
def words(name: str) -> frozenset[str]:
    """The words of one list, in lower case."""
    return frozenset(map(str, lists()[name]))


@cache
def tags() -> Mapping[str, frozenset[str]]:
    """The tags of every function word."""
    found: dict[str, set[str]] = {}
    for name, tag in _TAGS.items():
        for word in lists()[name]:
            found.setdefault(str(word), set()).add(tag)
    for word in lists()["days"]:
        found.setdefault(str(word).lower(), set()).add("x")
    for word in lists()["amount_words"]:
        found.setdefault(str(word), set()).add("bad")
    for word, tag in _FORMS:
        found.setdefault(word, set()).add(tag)
    for forms in lists()["verbs"]:
        for form, tag in zip(forms.split(), VERB_TAGS, strict=True):
            found.setdefault(form, set()).add(tag)
    return MappingProxyType({word: frozenset(kinds) for word, kinds in found.items()})


@cache
def bases() -> Mapping[str, str]:
    """The base of every form of the function verbs."""
    found = {"is": "be", "are": "be", "was": "be", "were": "be"}
    for forms in lists()["verbs"]:
        found.update(dict.fromkeys(forms.split()[1:], forms.split()[0]))
    return MappingProxyType(found)


@cache
def readings(word: str) -> frozenset[str]:
    """The further readings of a word with two readings, as tags."""
    return frozenset(_READINGS[str(name)] for name in lists()["two_readings"].get(word, ()))


def article_for(word: str) -> str:
    """The article that stands before `word`, by its first sound."""
    if word in words("vowel_sound"):
        return "an"
    if word in words("consonant_sound"):
        return "a"
    return "an" if word[0] in "aeiou" else "a"
