"""One sentence as tokens: words, numerals and marks, each with what it can be."""

import re
from dataclasses import dataclass

from storybank.checks import _closed
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

    `kind` is the text, or for a word of the pack all that the grammar can see of it.
    """

    text: str
    low: str
    tags: frozenset[str]
    kind: object

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

    `lows` are the tokens in lower case, `kinds` their kinds.
    """

    text: str
    tokens: tuple[Token, ...]
    asks: bool
    lows: tuple[str, ...]
    kinds: tuple[object, ...]

    def low(self, index: int) -> str:
        """The token at `index` in lower case; empty beyond either end."""
        return self.tokens[index].low if 0 <= index < len(self.tokens) else ""

    def can(self, index: int, *tags: str) -> bool:
        """Whether there is a token at `index` that can be any of `tags`."""
        return 0 <= index < len(self.tokens) and self.tokens[index].has(*tags)


def read_line(text: str, asks: bool, lexicon: Lexicon) -> Line:
    """The sentence `text` as a line."""
    words = _TOKEN.findall(text)
    known = lexicon.tokens
    tokens: list[Token] = [known[word] for word in words if word in known]
    if len(tokens) < len(words):
        tokens = _tokens(words, lexicon)
    return Line(
        text,
        tuple(tokens),
        asks,
        tuple([token.low for token in tokens]),
        tuple([token.kind for token in tokens]),
    )


def _tokens(words: list[str], lexicon: Lexicon) -> list[Token]:
    """The words as tokens; remembers those words that cannot begin a name of several words."""
    lows = [word.lower() for word in words]
    tokens: list[Token] = []
    at = 0
    while at < len(words):
        begins = lows[at] in lexicon.units
        length, tags = _unit(lows, at, lexicon) if begins else (1, _NO_TAGS)
        if length == 1:
            word = words[at]
            token = lexicon.tokens.get(word) or lexicon.beginnings.get(word)
            if token is None:
                tags = _tags(word, lows[at], lexicon) | tags
                token = Token(word, lows[at], tags, _kind(word, lows[at], tags, lexicon))
                known = lexicon.beginnings if begins else lexicon.tokens
                if len(known) < _MOST_TOKENS:
                    known[word] = token
        else:
            low = " ".join(lows[at : at + length])
            text = " ".join(words[at : at + length])
            token = Token(text, low, tags, (text, tags, _listed(text, lexicon)))
        tokens.append(token)
        at += length
    return tokens


def _kind(word: str, low: str, tags: frozenset[str], lexicon: Lexicon) -> object:
    if low in _closed.tags() or word in NAMES or not word[0].isalpha():
        return word
    capitals = (word == low, word[0].isupper(), word[1:] == word[1:].lower())
    return tags, capitals, _listed(word, lexicon), _closed.article_for(low)


def _listed(text: str, lexicon: Lexicon) -> tuple[tuple[bool, bool], ...]:
    """Which of the words are always written with a capital, and which only here without."""
    return tuple([(word in lexicon.proper, word in lexicon.lowered) for word in text.split()])


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
