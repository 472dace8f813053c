"""Measures of a text that packs set limits on: words, sentences, unfamiliar words, Spache grade."""

import re
from collections.abc import Iterable, Mapping, Sequence
from functools import cache, lru_cache
from pathlib import Path
from types import MappingProxyType

from storybank.vocabulary.names import marked

_WORD = re.compile(r"[^\W\d_]+(?:['\u2019-][^\W\d_]+)*|\d+")
NO_BASES: Mapping[str, str] = MappingProxyType({})
PLAIN_NAME = "Name"
_MASK = "\0"  # In no name and no sentence, so that no name is found in what replaced another.
_LETTERS = re.compile(r"[a-z]")
_ENDINGS = (("ies", "y"), ("ves", "f"), ("es", ""), ("es", "e"), ("s", ""), ("ied", "y"),
            ("ed", ""), ("ed", "e"), ("ing", ""), ("ing", "e"),
            ("ier", "y"), ("er", ""), ("er", "e"), ("est", ""), ("est", "e"))  # fmt: skip


def words_of(sentence: str) -> list[str]:
    """The words and numerals of a sentence, in order."""
    return _WORD.findall(sentence)


def with_plain_names(sentences: Iterable[str], names: Sequence[str]) -> list[str]:
    """The sentences with every name, of however many words, written as the one word `Name`."""
    plain = list(sentences)
    others = (_MASK, *names)
    for name in sorted(names, key=len, reverse=True):
        plain = [marked(sentence, name, _MASK, others) for sentence in plain]
    return [sentence.replace(_MASK, PLAIN_NAME) for sentence in plain]


@cache
def listed_words(name: str = "familiar") -> frozenset[str]:
    """The words of a list: `familiar` or `spache`, as `is_familiar` tells, or `second`."""
    path = Path(__file__).parent / f"_{name}.txt"
    return frozenset(path.read_text(encoding="utf-8").split())


@lru_cache(maxsize=20_000)
def is_familiar(word: str, listed: str | frozenset[str] = "familiar") -> bool:
    """Whether a word or its base form stands on a word list.

    `listed` is `familiar` (the Dale-Chall list without words under Zipf 3.5 in wordfreq) or
    `spache` (the revised Spache list of 1974), or the words themselves. Inflected
    forms count as their base, and so do numerals, as the revised Spache rules say.
    """
    word = word.lower()
    if not _LETTERS.search(word):
        return True
    known = listed_words(listed) if isinstance(listed, str) else listed
    if word in known:
        return True
    for ending, instead in _ENDINGS:
        if word.endswith(ending):
            base = word[: -len(ending)] + instead
            if base in known or (len(base) > 2 and base[-1] == base[-2] and base[:-1] in known):
                return True
    return False


def unfamiliar(
    sentences: Iterable[str],
    names: Sequence[str] = (),
    bases: Mapping[str, str] = NO_BASES,
    known: frozenset[str] | None = None,
) -> tuple[str, ...]:
    """The different unfamiliar words of the sentences, in order; names are left out.

    `bases` gives the base of irregular forms, such as flew -> fly; `known` the familiar words
    where they are not those of our own list.
    """
    listed = "familiar" if known is None else known
    skip = {part for name in names for part in words_of(name)}
    words = dict.fromkeys(words_of("\n".join(sentences)))
    hard = (word for word in words if word not in skip and not _familiar(word, bases, listed))
    return tuple(dict.fromkeys(word.lower() for word in hard))


def second_meanings(sentences: Iterable[str]) -> tuple[str, ...]:
    """The different words of the sentences with a second everyday meaning, such as `table`.

    Source of the list: Shaftel et al. (2006), and our own additions.
    """
    listed = listed_words("second")
    words = dict.fromkeys(words_of("\n".join(sentences).lower()))
    return tuple(word for word in words if word in listed)


def _familiar(word: str, bases: Mapping[str, str], listed: str | frozenset[str]) -> bool:
    if is_familiar(word, listed):
        return True
    base = bases.get(word.lower())
    return base is not None and is_familiar(base, listed)


def spache_grade(
    sentences: Sequence[str], names: Sequence[str] = (), bases: Mapping[str, str] = NO_BASES
) -> float:
    """The revised Spache grade (1974): 0.121 ASL + 0.082 PDW + 0.659, to one decimal.

    ASL is words a sentence, PDW the percent of different words that are unfamiliar. Inflected
    forms, names and numerals count as familiar.
    """
    return spache_of("\n".join(sentences), len(sentences), names, bases)


def spache_of(text: str, sentences: int, names: Sequence[str], bases: Mapping[str, str]) -> float:
    """The same, of a text of so many sentences."""
    words = words_of(text)
    different = set(words).difference(*map(words_of, names))
    hard = {word.lower() for word in different if not _familiar(word, bases, "spache")}
    per_sentence = len(words) / sentences
    return round(0.121 * per_sentence + 0.082 * (100 * len(hard) / len(words)) + 0.659, 1)
