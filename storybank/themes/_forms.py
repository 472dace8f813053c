"""Likely word forms: plurals, verb forms and the article, by rules and a table of exceptions.

The rules are common school grammar, no source. They warn and never write: the forms that a story
is told with are always those of its pack.
"""

import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from storybank import catalog

AS_WRITTEN = "as written"
_VOWELS = "aeiou"
_HEAD_ENDS = (" of ", " for ", " with ", " from ", " in ", " on ", " to ")


@dataclass(frozen=True, slots=True)
class Tables:
    """The exceptions: plurals by singular, s-form, past and participle by base, and lists."""

    plurals: dict[str, tuple[str, ...]]
    verbs: dict[str, tuple[tuple[str, ...], ...]]
    doubled: frozenset[str]
    a_before: frozenset[str]
    an_before: frozenset[str]


@cache
def tables() -> Tables:
    """The exceptions as the file `_irregular.yaml` lists them."""
    (entry,) = catalog.read_documents(Path(__file__).parent / "_irregular.yaml")
    return Tables(
        plurals={str(one): _several(many) for one, many in entry["plurals"].items()},
        verbs={
            str(base): tuple(_several(forms) for forms in row.split(";"))
            for base, row in entry["verbs"].items()
        },
        doubled=frozenset(entry["doubled"]),
        a_before=frozenset(entry["a-before"]),
        an_before=frozenset(entry["an-before"]),
    )


def _several(text: Any) -> tuple[str, ...]:
    return tuple(one.strip() for one in str(text).split(","))


def plurals(noun: str) -> tuple[str, ...]:
    """The likely plurals of a noun phrase without article, the likeliest first.

    Of "ear of corn" the word before "of" changes, of "toy car" the last one.
    """
    head, tail = noun, ""
    for end in _HEAD_ENDS:
        place = noun.find(end)
        if 0 < place < len(head):
            head, tail = noun[:place], noun[place:]
    before, space, last = head.rpartition(" ")
    return tuple(f"{before}{space}{many}{tail}" for many in _plural(last))


def _plural(word: str) -> tuple[str, ...]:
    found = tables().plurals.get(word.lower())
    if found is None:
        found = next(
            (
                tuple(word[: -len(one)] + many for many in forms)
                for one, forms in tables().plurals.items()
                if len(one) > 3 and word.lower().endswith(one)
            ),
            None,
        )
    if found is not None:
        return found
    if re.search(r"[^u]man$", word) and len(word) > 4:
        return (word[:-2] + "en", word + "s")
    return (_with_s(word),)


def _with_s(word: str) -> str:
    """The word with s, es or ies, as plurals and s-forms of verbs take it."""
    if re.search(r"(?:s|x|z|ch|sh)$", word):
        return word + "es"
    if re.search(r"[^aeiou]y$", word):
        return word[:-1] + "ies"
    return word + "s"


def s_forms(verb: str) -> tuple[str, ...]:
    """The likely forms of a verb after he or she: take -> takes."""
    if verb in tables().verbs:
        return tables().verbs[verb][0]
    return (verb + "es",) if re.search(r"[^aeiou]o$", verb) else (_with_s(verb),)


def pasts(verb: str) -> tuple[str, ...]:
    """The likely simple pasts of a verb: take -> took."""
    return tables().verbs[verb][1] if verb in tables().verbs else (_regular(verb, "ed"),)


def participles(verb: str) -> tuple[str, ...]:
    """The likely past participles of a verb: take -> taken."""
    return tables().verbs[verb][2] if verb in tables().verbs else (_regular(verb, "ed"),)


def ing_form(verb: str) -> str:
    """The likely ing-form of a verb: take -> taking."""
    return verb[:-2] + "ying" if verb.endswith("ie") else _regular(verb, "ing")


def _regular(verb: str, ending: str) -> str:
    if verb.endswith("e") and (ending == "ed" or not verb.endswith(("ee", "oe", "ye"))):
        return verb[:-1] + ending
    if ending == "ed" and re.search(r"[^aeiou]y$", verb):
        return verb[:-1] + "ied"
    if verb.endswith("ic"):
        return verb + "k" + ending
    short = re.fullmatch(r"(?:[^aeiou]*|s?qu)[aeiouy][^aeiouwxy]", verb)
    if short or verb in tables().doubled:
        return verb + verb[-1] + ending
    return verb + ending


def article(word: str) -> str:
    """The article a or an that goes before a word, by its first sound."""
    plain = word.lower()
    first = re.split(r"[-\u2019']", plain)[0]
    if plain in tables().an_before or first in tables().an_before:
        return "an"
    if plain in tables().a_before or first in tables().a_before:
        return "a"
    if len(first) == 1:
        return "an" if first in "aefhilmnorsx8" else "a"
    if first.startswith(("eu", "uni")) and not first.startswith(("unim", "unin")):
        return "a"
    return "an" if first[0] in _VOWELS or first[0] == "8" else "a"
