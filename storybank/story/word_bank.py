"""The word bank of a story, and the base forms that a pack knows."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from functools import cache

from storybank.model import BankWord
from storybank.model.measures import UNITS
from storybank.model.words import Theme, Verb
from storybank.translations import Translations
from storybank.vocabulary import Vocabulary
from storybank.vocabulary.measures import words_of


def word_bank(theme: Theme, sentences: Sequence[str], pack: Vocabulary) -> tuple[BankWord, ...]:
    """The words explained beside a story, each with picture and plain meaning where known.

    First the things of the pack that stand in it, then other words of the pack, then the
    mathematics words.
    """
    told = [word for sentence in sentences for word in words_of(sentence.lower())]
    text = f" {' '.join(told)} "
    words = [
        BankWord(one.noun.many, one.picture, one.meaning, one.translations, one.noun.one)
        for one in theme.things.values()
        if f" {one.noun.many.lower()} " in text or f" {one.noun.bare.lower()} " in text
    ]
    words += [
        BankWord(gloss.word, gloss.picture, gloss.meaning, gloss.translations)
        for gloss in (*theme.words, *pack.math_words)
        if any(f" {form.lower()} " in text for form in gloss.forms)
    ]
    return tuple(words)


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
