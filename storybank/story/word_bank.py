"""The word bank of a story, and the base forms that a pack knows."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from functools import cache, lru_cache

from storybank.model import BankWord
from storybank.model.measures import UNITS
from storybank.model.words import Gloss, Theme, Verb
from storybank.translations import Translations
from storybank.vocabulary import Vocabulary
from storybank.vocabulary.measures import words_of

_Entry = tuple[tuple[str, ...], BankWord]
"""The forms of a word in a text, each with a blank before and behind it, and the word."""


def word_bank(theme: Theme, sentences: Sequence[str], pack: Vocabulary) -> tuple[BankWord, ...]:
    """The words explained beside a story, each with picture and plain meaning where known.

    First the things of the pack that stand in it, then other words of the pack, then the
    mathematics words.
    """
    told = [word for sentence in sentences for word in words_of(sentence.lower())]
    text = f" {' '.join(told)} "
    words = []
    for forms, word in (*_of_theme(theme), *_of_mathematics(pack)):
        for form in forms:
            if form in text:
                words.append(word)
                break
    return tuple(words)


@cache
def _of_theme(theme: Theme) -> tuple[_Entry, ...]:
    """The entries of a pack: its things, then its other words."""
    things = [
        (
            (f" {one.noun.many.lower()} ", f" {one.noun.bare.lower()} "),
            BankWord(one.noun.many, one.picture, one.meaning, one.translations, one.noun.one),
        )
        for one in theme.things.values()
    ]
    return (*things, *_explained(theme.words))


@lru_cache(maxsize=256)
def _of_mathematics(pack: Vocabulary) -> tuple[_Entry, ...]:
    return tuple(_explained(pack.math_words))


def _explained(glosses: Sequence[Gloss]) -> list[_Entry]:
    return [
        (
            tuple([f" {form.lower()} " for form in gloss.forms]),
            BankWord(gloss.word, gloss.picture, gloss.meaning, gloss.translations),
        )
        for gloss in glosses
    ]


def translated(bank: Sequence[BankWord], own: Translations) -> tuple[BankWord, ...]:
    """The word bank with a teacher's own translations, found by plural, singular or word."""
    if not own:
        return tuple(bank)
    return tuple(
        replace(word, translations={**word.translations, **_own(word, own)}) for word in bank
    )


def _own(word: BankWord, own: Translations) -> Mapping[str, str]:
    bare = word.one.split(" ", 1)[1] if word.one else word.word
    return own.get(word.word.lower()) or own.get(bare.lower()) or {}


@cache
def bases_of(theme: Theme, measured: bool = False) -> dict[str, str]:
    """The base of every form that the pack gives: plurals, verb forms and forms of its words.

    With `measured` also the forms that only its measured things use.
    """
    known: dict[str, str] = {}
    for thing in theme.things.values():
        known[thing.noun.many.lower()] = thing.noun.bare.lower()
    for verb in _verbs(theme):
        known.update(dict.fromkeys((verb.s, verb.past, verb.participle), verb.base))
    for gloss in theme.words:
        known.update(dict.fromkeys(gloss.forms, gloss.word))
    if measured:
        known.update({unit.id: unit.noun.bare for unit in UNITS.values()})
        for scene in theme.scenes.values():
            for one in scene.measured.values():
                for verb in one.verbs:
                    known.update(dict.fromkeys((verb.s, verb.past, verb.participle), verb.base))
    return known


def _verbs(theme: Theme) -> Iterator[Verb]:
    for scene in theme.scenes.values():
        for act in scene.acts:
            yield act.wording.verb
            if act.plain:
                yield act.plain.verb
        for compare in scene.compare:
            if compare.verb:
                yield compare.verb
        if scene.goal:
            yield scene.goal.verb
        if scene.occasion:
            yield scene.occasion.verb
