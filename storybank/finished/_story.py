"""Reads how a finished problem is told: its story, its words, its figures, its changes."""

import re
from collections.abc import Mapping

from storybank import strategies, vocabulary
from storybank.finished import _arithmetic
from storybank.finished._node import LARGEST, NAMED, STORY, Node
from storybank.model import BankWord, Extra, Missing, NumberSet, Reading, Situation, Story
from storybank.model.measures import UNITS
from storybank.people.class_list import NAME_LIMIT

SPACHE = 100.0
"""No grade of a text is beyond it."""
_LIMIT = 1000
PEOPLE = 2
_LANGUAGE = re.compile(r"[a-z]{2,3}")


def vocabulary_of(node: Node) -> str:
    """The id of the vocabulary, which may be a teacher's own."""
    return node.word("vocabulary", NAMED, "the name of a vocabulary")


def story(node: Node, people: tuple[str, ...], unit: str | None) -> Story:
    """The story of a problem or of one of its levels, about `people`."""
    sentences = node.texts("sentences")
    if len(sentences) < 2:
        raise node.fault("sentences", "a list of at least two")
    if node.text("question") != sentences[-1]:
        raise node.fault("question", "the last of the sentences")
    return Story(
        telling=node.text("telling"),
        people=people,
        sentences=sentences,
        text=node.text("text", STORY, lines=True),
        given=node.numbers("given"),
        answer_sentence=node.text("answer_sentence"),
        answer_frame=node.text("answer_frame"),
        word_bank=tuple([_word(one) for one in node.nodes("word_bank")]),
        talk_frames=node.texts("talk_frames"),
        support=_support(node),
        without_numbers=node.texts("without_numbers"),
        unit=unit,
    )


def people(node: Node) -> tuple[str, ...]:
    """The names of the people."""
    found = node.texts("people")
    if len(found) > PEOPLE or len(set(found)) < len(found):
        raise node.fault("people", f"a list of at most {PEOPLE} different names")
    if any(len(name) > NAME_LIMIT for name in found):
        raise node.fault("people", f"a list of names of at most {NAME_LIMIT} letters")
    return found


def unit(node: Node) -> str | None:
    """The unit of a measured story, or None."""
    if not node.has("unit"):
        return None
    return node.choice("unit", "unit", tuple(UNITS))


def _support(node: Node) -> tuple[str, ...]:
    """What is printed beside the story; sets of earlier versions leave it to their vocabulary."""
    if node.has("support"):
        return node.texts("support")
    name = vocabulary_of(node)
    if name not in vocabulary.ids():
        raise node.wrong(f'"support" is missing, and the vocabulary {name} is not one of ours.')
    return vocabulary.get(name).support


def _word(node: Node) -> BankWord:
    inner = node.node("translations")
    languages = inner.names()
    if not all(_LANGUAGE.fullmatch(one) for one in languages):
        raise node.fault("translations", "an object of languages (es, vi, ht ...)")
    return BankWord(
        word=node.text("word"),
        picture=node.text_or_none("picture"),
        meaning=node.text("meaning", empty=True),
        translations={one: inner.text(one) for one in languages},
        one=node.text_or_none("one"),
    )


def reading(node: Node) -> Reading:
    """How long and how hard the text is."""
    inner = node.node("reading")
    return Reading(inner.number("words"), inner.figure("spache", SPACHE))


def number_sets(node: Node, told: Situation) -> tuple[NumberSet, ...]:
    """The sets of numbers of a story of that situation; none where it has one only."""
    if not node.has("number_sets"):
        return ()
    return tuple([_number_set(one, told) for one in node.nodes("number_sets")])


def _number_set(node: Node, told: Situation) -> NumberSet:
    known = _arithmetic.numbers(node, told)
    found = node.number("answer")
    if found != known.get(told.unknown):
        raise node.wrong(f'"answer" is {found}, and it is not the {told.unknown}.')
    return NumberSet(
        limit=node.number("limit", 1, _LIMIT),
        numbers=known,
        given=node.numbers("given"),
        answer=found,
        answer_sentence=node.text("answer_sentence"),
        strategy=node.choice("strategy", "strategy", strategies.ids()),
        equations=_arithmetic.equations(node),
        related_facts=_arithmetic.related_facts(node),
        solution=_arithmetic.solution(node),
        watch_for=_arithmetic.watch_for(node),
    )


def extra(node: Node) -> tuple[Extra, ...]:
    """The numbers of the text that are not needed, with what they count."""
    if not node.has("extra"):
        return ()
    found, things = node.numbers("extra"), node.texts("extra_things")
    if len(found) != len(things):
        raise node.fault("extra_things", f"a list of {len(found)}")
    return tuple([Extra(number, what) for number, what in zip(found, things, strict=True)])


def missing(node: Node, known: Mapping[str, int]) -> Missing | None:
    """The number that is left out, one of those `known` by role; or None."""
    if not node.has("missing"):
        return None
    inner = node.node("missing")
    role = inner.choice("role", "number of this problem", tuple(known))
    number = inner.number("number", 0, LARGEST)
    if number != known[role]:
        raise inner.fault("number", f"the {role}, {known[role]},")
    return Missing(role, number, inner.text("ask"))
