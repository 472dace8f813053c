"""Puts the results of all stages together into one problem."""

import hashlib
import re
from collections.abc import Collection
from functools import cache, lru_cache

from storybank import situations
from storybank.generate._progress import Chosen
from storybank.luck import digest
from storybank.model import (
    Equations,
    Problem,
    Reading,
    SecondWay,
    Solution,
    Story,
    Triple,
    WatchFor,
)
from storybank.model.measures import kind_of
from storybank.model.words import Theme
from storybank.story.word_bank import bases_of
from storybank.vocabulary import Vocabulary
from storybank.vocabulary.measures import (
    PLAIN_NAME,
    spache_of,
    with_plain_names,
    words_of,
)

CODE_LETTERS = "BCDFGHJKLMNPQRSTVWXZ234567892346"
_BITS = (35, 30, 25, 20, 15)
"""Where the five letters stand among the 40 bits of a digest."""
_MOST_KNOWN = 40_000
_NUMERAL = re.compile(r"\d+")


def assemble(
    chosen: Chosen,
    story: Story,
    *,
    vocabulary: Vocabulary,
    equations: Equations,
    related_facts: tuple[str, ...],
    solution: Solution,
    watch_for: tuple[WatchFor, ...],
    second_way: SecondWay | None,
    taken: Collection[str],
) -> Problem:
    """The finished problem; `taken` are the codes that the set already has."""
    situation, triple = chosen.situation, chosen.triple
    answer: int | tuple[tuple[int, int], ...]
    if situation.both_parts:
        numbers = {"whole": triple.c}
        answer = tuple((part, triple.c - part) for part in range(triple.c + 1))
    else:
        numbers = dict(zip(situation.roles, (triple.a, triple.b, triple.c), strict=True))
        answer = numbers[situation.unknown]
    return Problem(
        code=code_for(story, situation.id, triple, taken),
        theme=chosen.theme.header.id,
        scene=chosen.plan.scene.split("/", 1)[1],
        situation=situation.id,
        strategy=chosen.strategy,
        vocabulary=vocabulary.id,
        standards=situations.standards(situation, triple.c, kind_of(story.unit)),
        numbers=numbers,
        unknown=situation.unknown,
        answer=answer,
        story=story,
        equations=equations,
        related_facts=related_facts,
        solution=solution,
        watch_for=watch_for,
        second_way=second_way,
        reading=reading_of(story, chosen.theme),
    )


def reading_of(story: Story, theme: Theme) -> Reading:
    """Words and Spache grade; a name counts as one word, however many it has."""
    (text,) = with_plain_names(["\n".join(story.sentences)], story.people)
    plain = _NUMERAL.sub("9", text)
    with_units = story.unit is not None
    known = _known(theme, with_units)
    key = digest(plain)
    found = known.get(key)
    if found is None:
        bases = bases_of(theme, with_units)
        spache = spache_of(plain, len(story.sentences), (PLAIN_NAME,), bases)
        if len(known) >= _MOST_KNOWN:
            known.clear()
        found = known[key] = _reading(len(words_of(plain)), spache)
    return found


@cache
def _known(theme: Theme, with_units: bool) -> dict[int, Reading]:
    """The figures of texts in which all names and all numerals are alike, by their digest."""
    return {}


@lru_cache(maxsize=1 << 12)
def _reading(words: int, spache: float) -> Reading:
    """The same object for equal figures, of which there are few."""
    return Reading(words, spache)


def code_for(
    story: Story, situation: str, triple: Triple | tuple[int, ...], taken: Collection[str]
) -> str:
    """A short code from the digest of the problem, without vowels and look-alikes."""
    numbers = (triple.a, triple.b, triple.c) if isinstance(triple, Triple) else triple
    text = f"{situation}/{'/'.join(map(str, numbers))}/{story.text}"
    for attempt in range(1000):
        drawn = hashlib.blake2b(f"{attempt}/{text}".encode(), digest_size=5).digest()
        number = int.from_bytes(drawn, "big")
        code = "".join([CODE_LETTERS[number >> bits & 31] for bits in _BITS])
        if code not in taken:
            return code
    raise AssertionError("a thousand codes in a row were taken")
