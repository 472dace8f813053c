"""Noun phrases: a quantity, the words of the thing, and what kind of mention it is."""

from dataclasses import dataclass, field, replace

from .lexicon import verb
from .words import (
    ADVERBS,
    AUXILIARIES,
    CONJUNCTIONS,
    DETERMINERS,
    MEASURES,
    OBJECT_PRONOUNS,
    PREPOSITIONS,
    RELATIVES,
    SUBJECT_PRONOUNS,
    TIME_NOUNS,
    VAGUE,
    CannotRead,
    Token,
    number,
    plural,
    stem,
    wordset,
)

PUNCTUATION = frozenset(".?!,;:—")
THEM = wordset("them these those it")
STOPS = (
    PUNCTUATION
    | AUXILIARIES
    | DETERMINERS
    | (PREPOSITIONS - {"of"})
    | ADVERBS
    | CONJUNCTIONS
    | RELATIVES
    | SUBJECT_PRONOUNS
    | OBJECT_PRONOUNS
    | VAGUE
    | wordset("than more fewer less left away how some them back")
)
PRONOUNS = SUBJECT_PRONOUNS | OBJECT_PRONOUNS | THEM
SKIPPED = wordset("all only just about exactly almost another even nearly")


@dataclass(frozen=True, slots=True)
class Phrase:
    """One noun phrase. `words` are singular and lower case, without determiner and number."""

    words: tuple[str, ...] = ()
    head: str = ""
    count: int | None = None
    digits: bool = False
    vague: bool = False
    more: str = ""
    part: bool = False
    rest: bool = False
    pronoun: str = ""
    name: bool = False
    proper: bool = False
    plural: bool = False
    determined: bool = False
    possessed: bool = False
    each: bool = False
    single: bool = False
    counted_all: bool = False
    owner: tuple[str, ...] = ()
    joined: tuple["Phrase", ...] = field(default=())

    @property
    def counted(self) -> bool:
        """True where the phrase says how many, or that there are some."""
        return self.count is not None or self.vague or self.rest

    @property
    def timely(self) -> bool:
        """True where the phrase names a time ("last week")."""
        return bool(self.words) and not self.counted and self.words[-1] in TIME_NOUNS

    @property
    def spot(self) -> tuple[str, ...]:
        """The words as the name of a place or holder, "one" and "other" kept apart."""
        return (*(("other",) if self.rest else ("one",) if self.single else ()), *self.words)


def mark(token: Token) -> bool:
    """True for a phrase that was folded into one mark ("§start")."""
    return token.low[0] == "§"


def stops(token: Token) -> bool:
    """True where a token cannot go on a noun phrase."""
    low = token.low
    return low in STOPS or low[0] == "§" or number(low) is not None


def opens(token: Token) -> bool:
    """True where a token can only begin a noun phrase with a quantity or a determiner."""
    low = token.low
    return (
        low in DETERMINERS or low in VAGUE or low in ("more", "fewer") or (number(low) is not None)
    )


def phrase(toks: list[Token], i: int, end: int) -> tuple[Phrase | None, int]:
    """The noun phrase at `i` (None where there is none) and the place after it."""
    start = i
    while i < end and toks[i].low in SKIPPED and i + 1 < end:
        i += 1
    if i >= end:
        return None, start
    again = any(t.low == "another" for t in toks[start:i])
    everyone = _group(toks, start, end)
    if everyone is not None:
        return everyone
    low = toks[i].low
    two = f"{low} {toks[i + 1].low}" if i + 1 < end else low
    if two in ("everyone else", "everybody else"):
        return Phrase(rest=True, plural=False, words=()), i + 2
    if low in ("others",):
        return Phrase(rest=True, plural=True), i + 1
    if two in ("the others", "the rest"):
        return _rest(toks, i, end)
    following = toks[i + 1] if i + 1 < end else None
    determines = following is not None and (
        (low in ("her", "these", "those") and not stops(following))
        or (low == "her" and number(following.low) is not None)
    )
    if low in PRONOUNS and not determines:
        many = low in ("they", "we", "them", "us", "these", "those")
        return Phrase(pronoun=low, plural=many), i + 1
    got, i = _quantity(toks, i, end)
    if again:
        got = replace(got, more="more")
    if i < end and toks[i].low == "of" and got.counted:
        inner, j = phrase(toks, i + 1, end)
        if inner is not None and (inner.determined or inner.pronoun or inner.name):
            return replace(got, part=True, words=inner.words, head=inner.head, plural=True), j
        if inner is not None and not inner.counted:
            return replace(got, words=inner.words, head=inner.head, plural=True), j
    return _nouns(toks, i, end, got, start)


def _group(toks: list[Token], i: int, end: int) -> tuple[Phrase, int] | None:
    """ "the two of them", "both of the girls", "all of them" as one group."""
    j = i + 1 if toks[i].low == "the" else i
    low = toks[j].low if j < end else ""
    if j + 2 >= end or toks[j + 1].low != "of":
        return None
    if low in ("both", "all", "each") or (j > i and number(low) is not None):
        inner, after = phrase(toks, j + 2, end)
        if inner is not None and low == "all":
            return replace(inner, each=True, plural=True, counted_all=True), after
        if inner is not None and low == "each" and inner.determined:
            return replace(inner, each=True, plural=False), after
        if inner is not None and inner.pronoun:
            return Phrase(pronoun="they", plural=True), after
    return None


def _rest(toks: list[Token], i: int, end: int) -> tuple[Phrase, int]:
    got, i = Phrase(rest=True, plural=True, determined=True), i + 2
    if i + 1 < end and toks[i].low == "of":
        inner, j = phrase(toks, i + 1, end)
        if inner is not None:
            return replace(got, words=inner.words, head=inner.head), j
    return got, i


def _quantity(toks: list[Token], i: int, end: int) -> tuple[Phrase, int]:
    got = Phrase()
    low = toks[i].low
    if low in DETERMINERS and not (low == "one" and i + 1 < end and stops(toks[i + 1])):
        got = Phrase(
            determined=True,
            each=low in ("each", "every"),
            single=low == "one",
            possessed=low in ("his", "her", "their", "its", "my", "our", "your"),
        )
        i += 1
        if low in ("a", "an") and i + 1 < end and toks[i].low in MEASURES | {"few", "lot"}:
            if toks[i].low == "few" or toks[i + 1].low == "of":
                i += 1 if toks[i].low == "few" else 2
                got = replace(got, vague=True, determined=False)
                if toks[i - 1].low == "of" and i < end and toks[i].low in DETERMINERS:
                    i += 1
        elif i < end and toks[i].low in ("other", "others"):
            got, i = replace(got, rest=True), i + 1
    if i < end:
        value = number(toks[i].low)
        if value is not None:
            got = replace(got, count=value, digits=toks[i].low.isdecimal())
            i += 1
        elif toks[i].low in VAGUE and not got.vague:
            got, i = replace(got, vague=True), i + 1
            if i + 1 < end and toks[i - 1].low in ("lots", "plenty") and toks[i].low == "of":
                i += 1
    if i < end and toks[i].low in ("more", "fewer", "less"):
        word = "more" if toks[i].low == "more" else "fewer"
        got = replace(got, more=word, vague=got.vague or got.count is None)
        i += 1
    if i < end and got.counted and toks[i].low in ("other", "extra", "additional"):
        if toks[i].low != "other" or not got.rest:
            got = replace(got, more=got.more or "more")
        i += 1
    return got, i


def _nouns(
    toks: list[Token], i: int, end: int, got: Phrase, start: int
) -> tuple[Phrase | None, int]:
    words: list[str] = []
    head, name, many = "", False, False
    owner: tuple[str, ...] = ()
    while i < end:
        tok = toks[i]
        if tok.low == "of":
            if not words or i + 1 >= end or toks[i + 1].low in PUNCTUATION:
                break
            head = head or words[-1]
            i += 1
            while i < end and toks[i].low in DETERMINERS:
                i += 1
            continue
        following = toks[i + 1] if i + 1 < end else None
        joins = tok.low == "and" and got.count and words and not many
        if joins and following is not None and not stops(following):
            i += 1
            continue
        dated = words and tok.low in ("last", "this", "next") and following is not None
        if dated and following is not None and following.low in TIME_NOUNS:
            break
        fresh = not words and got.determined and tok.low not in PUNCTUATION and i + 1 < end
        if stops(tok) and not (fresh and _can_follow(tok)):
            break
        if tok.name and words and not toks[i - 1].name and toks[i - 1].low != "of":
            break
        if words and many and tok.low.endswith("ing") and verb(tok.low) is not None:
            break
        name = name or (tok.name and not words)
        if not head:
            many = plural(tok.low)
        words.append(stem(tok.low))
        i += 1
        if tok.low.endswith("'s") and not owner:
            owner = tuple(words)
    if not words and got.determined and toks[i - 1].low == "any":
        return Phrase(pronoun="any"), i
    if not words and not got.counted:
        return None, start
    if got.count is not None:
        many = got.count != 1
    many = many or got.vague
    if words and words[-1] in TIME_NOUNS and toks[start].low == "this":
        words.insert(0, "this")
    got = replace(
        got,
        words=tuple(words),
        head=head or (words[-1] if words else ""),
        name=name and not got.determined,
        proper=name and not got.determined and toks[i - 1].name,
        plural=many,
        owner=owner if owner != tuple(words) else (),
    )
    return got, i


def past_like(found: Phrase) -> None:
    """Raise CannotRead where a noun phrase ends in what looks like an unknown past verb."""
    word = found.words[-1] if found.words else ""
    if found.determined and len(found.words) == 1:
        return
    if len(word) > 4 and word.endswith("ed") and word[-3] not in "aeioulhr" and not verb(word):
        raise CannotRead(f"unknown verb {word!r}")


def _can_follow(tok: Token) -> bool:
    low = tok.low
    return not (
        low in DETERMINERS
        or low in AUXILIARIES
        or low in ("more", "fewer", "than")
        or low[0] == "§"
        or number(low) is not None
        or low in SUBJECT_PRONOUNS
    )
