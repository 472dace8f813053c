"""Warns of words that children may not know, where they keep stories from being told."""

import re
from collections.abc import Iterator
from typing import Any

from storybank import vocabulary
from storybank.located import At, Faults, ListAt, MappingAt
from storybank.model.words import Theme
from storybank.story.word_bank import bases_of
from storybank.theme_check._places import Places, listing
from storybank.theme_check._scenes import Survey
from storybank.vocabulary.measures import unfamiliar, words_of

_LIST = "not on the list of words that children of this age know well"
_SLOT = re.compile(r"\{\w+\}")
_TOLD = (
    "one", "many", "keeps", "plain", "before", "after", "each", "frame", "rest", "reason", "first",
    "second", "span", "verb",
)  # fmt: skip


def warn(theme: Theme, found: Survey, content: Any, places: Places, warnings: Faults) -> None:
    """Warns of things not told at some levels, with the reason, and of words to be explained.

    Of words that are explained without a picture too, where some levels want one.
    """
    _things(theme, found, places, warnings)
    _pictures(theme, content, places, warnings)
    bases = bases_of(theme, measured=True)
    explained = {part for gloss in theme.words for form in gloss.forms for part in words_of(form)}
    for thing in theme.things.values():
        explained.update(words_of(thing.noun.bare), words_of(thing.noun.many))
    for scene in theme.scenes.values():
        explained.update(one.word for one in scene.measured.values() if one.word and one.meaning)
    known = {word.lower() for word in explained}
    new: dict[str, list[int]] = {}
    for text in _told(content.get("scenes"), ""):
        for word in unfamiliar([_SLOT.sub(" ", text)], (), bases):
            base = bases.get(word, word)
            if known.isdisjoint((word, base)) and text.line not in new.setdefault(base, []):
                new[base].append(text.line)
    if not new:
        return
    levels = [
        one
        for one in vocabulary.ids()
        if vocabulary.get(one).unfamiliar_need in ("picture", "word-bank")
    ]
    said = "; ".join(
        f"{word} (line{'s'[: len(lines) > 1]} {listing([str(line) for line in lines])})"
        for word, lines in new.items()
    )
    first = next(iter(new))
    with_picture, with_meaning = (
        listing([one for one in levels if vocabulary.get(one).unfamiliar_need == need])
        for need in ("picture", "word-bank")
    )
    warnings.add(
        min(line for lines in new.values() for line in lines),
        f"{_LIST} and not explained under `words`: {said}. Sentences with such a word are not "
        f"told at {listing(levels)}. Choose a plainer word, or add it under `words`: "
        f"{first}: {{forms: [{first}], picture: ..., meaning: ...}}. Without a picture it is told "
        f"at {with_meaning}, with one at {with_picture} too.",
    )


def _pictures(theme: Theme, content: Any, places: Places, warnings: Faults) -> None:
    bases = bases_of(theme, measured=True)
    told = {
        bases.get(word, word)
        for text in _told(content.get("scenes"), "", plainly=True)
        for word in unfamiliar([_SLOT.sub(" ", text)], (), bases)
    }
    bare = [
        (gloss.word, places.line("words", gloss.word))
        for gloss in theme.words
        if gloss.picture is None
        and gloss.word in told
        and places.line("words", gloss.word, "picture") is None
    ]
    if not bare:
        return
    levels = [one for one in vocabulary.ids() if vocabulary.get(one).unfamiliar_need == "picture"]
    named = listing([f"{word} (line {line})" for word, line in bare])
    warnings.add(
        bare[0][1],
        f"explained without a picture, and so told at neither {listing(levels, 'nor')}: {named}. "
        "Write `picture:` with an emoji that shows the word, `plain:` with a plainer word where "
        "it stands in a holder or an act, or `picture: none` to leave it so.",
    )


def _things(theme: Theme, found: Survey, places: Places, warnings: Faults) -> None:
    used = {name for scene in theme.scenes.values() for name in scene.things}
    bases = bases_of(theme)
    for name, thing in theme.things.items():
        untold = [
            level
            for level in vocabulary.ids()
            if level not in found.levels[name]
            and (thing.picture or not vocabulary.get(level).things_need_picture)
        ]
        if not untold or name not in used:
            continue
        hard = unfamiliar([thing.noun.many], (), bases)
        if len(hard) > min(vocabulary.get(level).unfamiliar_words for level in untold):
            words = listing([f'"{word}"' for word in hard])
            why = f"{words} {'is' if len(hard) == 1 else 'are'} {_LIST}. Choose plainer words"
        else:
            why = (
                "no telling has both room for it and sentences short enough. Give it `room` in "
                "a holder and an act, or write shorter frames"
            )
        warnings.add(
            places.line("things", name),
            f'the thing "{name}" is not told at {listing(untold)}: {why}.',
        )


def _told(node: Any, key: str, *, plainly: bool = False) -> Iterator[At]:
    """The texts of the scenes that stand in stories; `plainly` without those of a plain twin."""
    if isinstance(node, MappingAt):
        plain = node.get("plain") if plainly else None
        replaced = plain if isinstance(plain, MappingAt) else () if plain is None else ("one",)
        for name, value in node.items():
            if name not in replaced:
                yield from _told(value, str(name), plainly=plainly)
    elif isinstance(node, ListAt):
        for item in node:
            yield from _told(item, key, plainly=plainly)
    elif isinstance(node, At) and key in _TOLD:
        yield node
