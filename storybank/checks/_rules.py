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
class Rules:
    """A theme's lexicon with a vocabulary pack; `verdicts` by masked text.

    `readings` by masked sentence, `verbs` by the kinds of its words, and the `faultless` patterns
    keep what was found out about single sentences.
    """

    theme: Theme
    vocabulary: Vocabulary
    lexicon: Lexicon
    verdicts: dict[object, tuple[tuple[str, Fault], ...]] = field(default_factory=dict)
    readings: dict[object, Any] = field(default_factory=dict)
    verbs: dict[object, Any] = field(default_factory=dict)
    faultless: set[object] = field(default_factory=set)

    def remember(self, key: object, found: tuple[tuple[str, Fault], ...]) -> None:
        """Keeps a verdict; forgets all of them when they become too many."""
        if len(self.verdicts) >= MOST_VERDICTS:
            self.verdicts.clear()
        self.verdicts[key] = found


_KNOWN: dict[tuple[int, int, bool], Rules] = {}
_LEXICONS: dict[tuple[int, bool], tuple[Theme, Lexicon]] = {}
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
    read = _LEXICONS.get((id(theme), measured))
    if read is None or read[0] is not theme:
        name = "measured-lexicon" if measured else "lexicon"
        read = _LEXICONS[id(theme), measured] = (
            theme,
            themes.made_of(theme, name, lambda: lexicon(theme, measured)),
        )
    made = _KNOWN[key] = Rules(theme, vocabulary, read[1])
    return made
