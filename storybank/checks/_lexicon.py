"""The words of a theme pack with the tags that the grammar reads."""

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any

from storybank.checks import _closed
from storybank.model.measures import ADJECTIVES, COMPARING_LESS, COMPARING_MORE, UNITS
from storybank.model.words import Kinds, Noun, Scene, Side, Theme, Verb

_WORDS = re.compile(r"[^\W\d_]+(?:['\u2019-][^\W\d_]+)*")
_SLOT = re.compile(r"\{\w+\}")


@dataclass(frozen=True, slots=True, eq=False)
class Lexicon:
    """What a pack's words can be.

    `tags` by word in lower case; `units` the names of things and the adverbs of several words,
    by their first word, longest first; `plural` by singular, `singular` by plural; `base` by verb
    form; `bases` also holds plurals and forms of glossed words, `word_bases` single words of
    longer plurals; `proper` are words always written with a capital, `lowered` the same in lower
    case; `pictures` by plural; `goals` the verbs of needing and wanting. `tokens` keeps the words
    read so far, `beginnings` those of them that can also begin one of `units`.
    """

    tags: Mapping[str, frozenset[str]]
    units: Mapping[str, tuple[tuple[tuple[str, ...], frozenset[str]], ...]]
    plural: Mapping[str, str]
    singular: Mapping[str, str]
    base: Mapping[str, str]
    bases: Mapping[str, str]
    word_bases: Mapping[str, str]
    proper: frozenset[str]
    lowered: frozenset[str]
    pictures: Mapping[str, str | None]
    goals: frozenset[str]
    tokens: dict[str, Any] = field(default_factory=dict)
    beginnings: dict[str, Any] = field(default_factory=dict)


def lexicon(theme: Theme, measured: bool = False) -> Lexicon:
    """The lexicon of a pack, with the function words; `measured` with units and what has them."""
    return _Reader(theme, measured).lexicon()


class _Reader:
    """Collects the words of a pack part by part."""

    def __init__(self, theme: Theme, measured: bool) -> None:
        self.theme = theme
        self.measured = measured
        self.tags: dict[str, set[str]] = {}
        self.units: dict[tuple[str, ...], set[str]] = {}
        self.plural: dict[str, str] = {}
        self.base = dict(_closed.bases())
        self.bases: dict[str, str] = {}
        self.cased: set[str] = set()
        self.pictures: dict[str, str | None] = {}

    def lexicon(self) -> Lexicon:
        for word, kinds in _closed.tags().items():
            self.tags.setdefault(word, set()).update(kinds)
        for phrase in _closed.lists()["phrases"]:
            self.units.setdefault(tuple(phrase.split()), set()).add("r")
        for phrase in _closed.lists()["joined_prepositions"]:
            self.units.setdefault(tuple(phrase.split()), set()).add("p")
        for thing in self.theme.things.values():
            self.noun(thing.noun)
            self.pictures[thing.noun.many.lower()] = thing.picture
            self.bases[thing.noun.many.lower()] = thing.noun.bare.lower()
        for gloss in self.theme.words:
            self.bases.update(dict.fromkeys(gloss.forms, gloss.word))
        for scene in self.theme.scenes.values():
            self.scene(scene)
        if self.measured:
            self.measures()
        for gloss in self.theme.words:
            for form in gloss.forms:
                self.known(form)
        for word in self.tags:
            self.tags[word] |= _closed.readings(word) if self.tags[word] - {"r", "x"} else set()
        cased = self.cased
        proper = frozenset(w for w in cased if w != w.lower() and w.lower() not in cased)
        proper |= frozenset(map(str, _closed.lists()["days"]))
        return Lexicon(
            tags=MappingProxyType({word: frozenset(kinds) for word, kinds in self.tags.items()}),
            units=MappingProxyType(self.unit_table()),
            plural=MappingProxyType(self.plural),
            singular=MappingProxyType({many: one for one, many in self.plural.items()}),
            base=MappingProxyType(self.base),
            bases=MappingProxyType(self.bases),
            word_bases=MappingProxyType(self.word_bases()),
            proper=proper,
            lowered=frozenset(word.lower() for word in proper),
            pictures=MappingProxyType(self.pictures),
            goals=frozenset(
                scene.goal.verb.base for scene in self.theme.scenes.values() if scene.goal
            ),
        )

    def word_bases(self) -> dict[str, str]:
        found: dict[str, str] = {}
        for one, many in self.plural.items():
            found.update(zip(many.split(), one.split(), strict=False))
        return found | self.bases

    def unit_table(self) -> dict[str, tuple[tuple[tuple[str, ...], frozenset[str]], ...]]:
        table: dict[str, list[tuple[tuple[str, ...], frozenset[str]]]] = {}
        for unit in sorted(self.units, key=lambda one: (-len(one), one)):
            table.setdefault(unit[0], []).append((unit, frozenset(self.units[unit])))
        return {first: tuple(found) for first, found in table.items()}

    def tag(self, word: str, tag: str) -> None:
        self.cased.add(word)
        self.tags.setdefault(word.lower(), set()).add(tag)

    def form(self, text: str, tag: str) -> None:
        words = _WORDS.findall(text)
        if len(words) == 1:
            self.tag(words[0], tag)
        elif words:
            self.units.setdefault(tuple(word.lower() for word in words), set()).add(tag)
            for word in words:
                self.tag(word, "m")

    def noun(self, noun: Noun) -> None:
        self.form(noun.bare, "n1")
        self.form(noun.many, "n2")
        self.plural[noun.bare.lower()] = noun.many.lower()

    def verb(self, verb: Verb) -> None:
        for form, tag in zip(
            (verb.base, verb.s, verb.past, verb.participle), _closed.VERB_TAGS, strict=True
        ):
            self.tag(form, tag)
            self.base[form] = verb.base
            self.bases[form] = verb.base

    def plain(self, word: str) -> None:
        self.cased.add(word)
        if word.lower() not in _closed.tags():
            self.tags.setdefault(word.lower(), set()).add("x")

    def known(self, text: str) -> None:
        """Words that no other part of the pack says anything about."""
        for word in _WORDS.findall(text):
            if word.lower() not in self.tags:
                self.plain(word)

    def phrase(self, text: str | None) -> None:
        """Words of a phrase; behind a, an or the stands a noun, the last of its group."""
        group: list[str] = []
        article = ""
        for word in (*_WORDS.findall(_SLOT.sub(" and ", text or "")), "and"):
            kinds = _closed.tags().get(word.lower(), frozenset())
            if not kinds:
                group.append(word)
                continue
            self.group(group, article)
            group = []
            article = word.lower() if kinds & {"d", "d1"} else ""
            self.cased.add(word)

    def group(self, group: list[str], article: str) -> None:
        if not article:
            for word in group:
                self.plain(word)
        elif group:
            for word in group[:-1]:
                self.tag(word, "m")
            self.tag(group[-1], "n1" if article in ("a", "an") else "n")

    def measures(self) -> None:
        """Units, the words that say how long or how much longer, and the measured things."""
        for unit in UNITS.values():
            self.noun(unit.noun)
            self.bases[unit.id] = unit.noun.bare
            for form in (unit.noun.bare, unit.id):
                self.tags[form].add("unit")
        for word in (*ADJECTIVES, *COMPARING_MORE, *COMPARING_LESS):
            self.cased.add(word)
            if word not in ("more", "fewer"):
                self.tags.setdefault(word, set()).update(("r", "dim"))
                self.tags[word].discard("bad")
        self.tags.setdefault("whole", set()).add("adj")
        self.cased.add("whole")
        for scene in self.theme.scenes.values():
            for thing in scene.measured.values():
                for text in thing.phrases:
                    self.phrase(text)
                for verb in thing.verbs:
                    self.verb(verb)

    def side(self, side: Side) -> None:
        for text in (side.before, side.after, side.each):
            for word in _WORDS.findall(text or ""):
                if _closed.tags().get(word.lower()):
                    break
                if side.picture_of is None:
                    self.tag(word, "adj")
            self.phrase(text)

    def kinds(self, kinds: Kinds) -> None:
        self.noun(kinds.whole)
        self.side(kinds.first)
        self.side(kinds.second)
        if kinds.third is not None:
            self.side(kinds.third)

    def scene(self, scene: Scene) -> None:
        for text in _phrases(scene):
            self.phrase(text)
        for verb in _verbs(scene):
            self.verb(verb)
        for kinds in scene.kinds:
            self.kinds(kinds)


def _phrases(scene: Scene) -> Iterator[str | None]:
    yield scene.setting
    for holder in scene.holders.values():
        yield from (holder.one, holder.plain, holder.keeps, holder.prep)
    for act in scene.acts:
        yield act.wording.frame
        yield act.plain.frame if act.plain else None
    yield scene.goal.reason if scene.goal else None
    yield scene.occasion.rest if scene.occasion else None
    for times in scene.times:
        yield from (times.first, times.second, times.span)


def _verbs(scene: Scene) -> Iterator[Verb]:
    some: Iterable[Verb | None] = (
        *(act.wording.verb for act in scene.acts),
        *(act.plain.verb for act in scene.acts if act.plain),
        *(one.verb for one in scene.compare),
        scene.goal.verb if scene.goal else None,
        scene.occasion.verb if scene.occasion else None,
    )
    yield from (verb for verb in some if verb is not None)
