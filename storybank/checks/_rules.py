"""The words and limits of one pack and level, with the verdicts on texts already read."""

from dataclasses import dataclass, field
from typing import Any

from storybank import themes
from storybank.checks._lexicon import Lexicon, lexicon
from storybank.model.words import Theme
from storybank.vocabulary import Vocabulary

MOST_VERDICTS = 40_000

Fault = tuple[int, str]
"""Which sentence (-1 for the whole story), and what is wrong; names and numbers masked."""


@dataclass(slots=True, eq=False)
class Patterns:
    """What was found out about patterns of sentences, for all packs of words at one level.

    `verbs` by the kinds of the words, and the `faultless` patterns.
    """

    vocabulary: Vocabulary
    verbs: dict[object, Any] = field(default_factory=dict)
    faultless: set[object] = field(default_factory=set)


@dataclass(slots=True, eq=False)
class Rules:
    """A theme's lexicon with a vocabulary pack; `verdicts` by the digest of the masked text.

    Most texts have no fault: of them the digest alone is kept, in `good`. `readings` by masked
    sentence keep what was found out about single sentences.
    """

    theme: Theme
    vocabulary: Vocabulary
    lexicon: Lexicon
    patterns: Patterns
    verdicts: dict[int, tuple[tuple[str, Fault], ...]] = field(default_factory=dict)
    good: set[int] = field(default_factory=set)
    readings: dict[object, Any] = field(default_factory=dict)

    def verdict(self, key: int) -> tuple[tuple[str, Fault], ...] | None:
        """The verdict on a text, or None where it is not known."""
        return () if key in self.good else self.verdicts.get(key)

    def remember(self, key: int, found: tuple[tuple[str, Fault], ...]) -> None:
        """Keeps a verdict; forgets all of them when they become too many."""
        if len(self.good) + len(self.verdicts) >= MOST_VERDICTS:
            self.good.clear()
            self.verdicts.clear()
        if found:
            self.verdicts[key] = found
        else:
            self.good.add(key)


_KNOWN: dict[tuple[int, int, bool], Rules] = {}
_LEXICONS: dict[tuple[int, bool], tuple[Theme, Lexicon]] = {}
_PATTERNS: dict[int, Patterns] = {}
_MOST_KNOWN = 400


def rules_for(theme: Theme, vocabulary: Vocabulary, measured: bool = False) -> Rules:
    """The rules of a pack and a level, made once for each pair of objects.

    Those for `measured` problems also know the words of units and measured things.
    """
    key = (id(theme), id(vocabulary), measured)
    known = _KNOWN.get(key)
    if known is not None and known.theme is theme and known.vocabulary is vocabulary:
        return known
    if len(_KNOWN) >= _MOST_KNOWN:
        _KNOWN.clear()
        _LEXICONS.clear()
        _PATTERNS.clear()
    read = _LEXICONS.get((id(theme), measured))
    if read is None or read[0] is not theme:
        name = "measured-lexicon" if measured else "lexicon"
        read = _LEXICONS[id(theme), measured] = (
            theme,
            themes.made_of(theme, name, lambda: lexicon(theme, measured)),
        )
    patterns = _PATTERNS.get(id(vocabulary))
    if patterns is None or patterns.vocabulary is not vocabulary:
        patterns = _PATTERNS[id(vocabulary)] = Patterns(vocabulary)
    made = _KNOWN[key] = Rules(theme, vocabulary, read[1], patterns)
    return made
