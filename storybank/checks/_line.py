"""One sentence as tokens: words, numerals and marks, each with what it can be."""

import re
from dataclasses import dataclass

from storybank.checks._lexicon import Lexicon

_TOKEN = re.compile(r"___|[^\W\d_]+(?:['\u2019-][^\W\d_]+)*|\d+|\S")
NAMES = ("\u023a", "\u0243")
"""What stands for the first and the second person's name while a text is judged."""
BLANK = "___"
NOUN = frozenset({"n1", "n2", "n"})
VERB = frozenset({"vb", "vs", "vd", "vp", "be", "be0", "aux", "modal"})
_NAME = frozenset({"name"})
_ONE = frozenset({"num", "one"})
_MANY = frozenset({"num", "many#"})
_MARK = frozenset({"mark"})
_UNKNOWN = frozenset({"unknown"})
_NO_TAGS: frozenset[str] = frozenset()
_MOST_TOKENS = 5_000


@dataclass(frozen=True, slots=True)
class Token:
    """A word, a numeral, a mark, or a thing's name of several words (one token).

    Tags: n1 n2 n (singular, plural, either noun), adj, vb vs vd vp (base, s-form, past,
    participle), be be0 aux modal, d d1 dm (determiner, of one, of many), q (more, fewer,
    other), p (preposition), r (adverb), c (conjunction), pro, name, num with one or many#, mark,
    x (another word of the pack), m (one said before a noun), f (another function word), bad,
    rel, unknown.
    """

    text: str
    low: str
    tags: frozenset[str]
    words: int = 1

    def has(self, *tags: str) -> bool:
        """Whether the token can be any of `tags`."""
        return not self.tags.isdisjoint(tags)

    @property
    def noun(self) -> bool:
        """Whether the token can be a noun."""
        return not self.tags.isdisjoint(NOUN)

    @property
    def verb(self) -> bool:
        """Whether the token can be a verb."""
        return not self.tags.isdisjoint(VERB)


@dataclass(frozen=True, slots=True, eq=False)
class Line:
    """A sentence with names and numbers masked, as tokens; `asks` for a question.

    `lows` are the tokens in lower case.
    """

    text: str
    tokens: tuple[Token, ...]
    asks: bool
    lows: tuple[str, ...]

    def low(self, index: int) -> str:
        """The token at `index` in lower case; empty beyond either end."""
        return self.tokens[index].low if 0 <= index < len(self.tokens) else ""

    def can(self, index: int, *tags: str) -> bool:
        """Whether there is a token at `index` that can be any of `tags`."""
        return 0 <= index < len(self.tokens) and self.tokens[index].has(*tags)


def read_line(text: str, asks: bool, lexicon: Lexicon) -> Line:
    """The sentence `text` as a line."""
    words = _TOKEN.findall(text)
    lows = [word.lower() for word in words]
    tokens: list[Token] = []
    at = 0
    while at < len(words):
        length, tags = _unit(lows, at, lexicon) if lows[at] in lexicon.units else (1, _NO_TAGS)
        if length == 1:
            token = lexicon.tokens.get(words[at])
            if token is None:
                tags = _tags(words[at], lows[at], lexicon) | tags
                token = Token(words[at], lows[at], tags)
                if len(lexicon.tokens) < _MOST_TOKENS:
                    lexicon.tokens[words[at]] = token
        else:
            low = " ".join(lows[at : at + length])
            token = Token(" ".join(words[at : at + length]), low, tags, length)
        tokens.append(token)
        at += length
    return Line(text, tuple(tokens), asks, tuple([token.low for token in tokens]))


def _unit(lows: list[str], at: int, lexicon: Lexicon) -> tuple[int, frozenset[str]]:
    for unit, tags in lexicon.units.get(lows[at], ()):
        if tuple(lows[at : at + len(unit)]) == unit:
            return len(unit), tags
    return 1, frozenset()


def _tags(word: str, low: str, lexicon: Lexicon) -> frozenset[str]:
    if word in NAMES:
        return _NAME
    if word.isdigit() or word == BLANK:
        return _ONE if word == "1" else _MANY
    if not word[0].isalpha():
        return _MARK
    return lexicon.tags.get(low, _UNKNOWN)
