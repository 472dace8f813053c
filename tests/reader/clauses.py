"""Where the clauses of a sentence begin and where each has its verb."""

from dataclasses import dataclass
from itertools import pairwise

from .lexicon import finite, verb
from .phrases import PUNCTUATION, Phrase, mark, opens, phrase, stops
from .words import (
    ADVERBS,
    AUXILIARIES,
    BE,
    OBJECT_PRONOUNS,
    PREPOSITIONS,
    RELATIVES,
    SUBJECT_PRONOUNS,
    SUBORDINATORS,
    TIME_NOUNS,
    VAGUE,
    Token,
    number,
    plural,
    wordset,
)

Tokens = list[Token]
RESULTING = BE | wordset("leaves left gives gave makes made brings brought")
ADJECTIVES = wordset("open empty clean dry warm cool light free close ripe clear smooth")
LINKING = (
    PREPOSITIONS | VAGUE | wordset("and of all only just the his her their some another other")
)


@dataclass(frozen=True, slots=True)
class Span:
    """One clause: its tokens, the word that joins it, and its place in the sentence."""

    toks: Tokens
    link: str
    asks: bool
    sentence: int


def skip_lead(toks: Tokens, i: int, end: int) -> int:
    """The place after leading adverbs, joining words and time or place phrases."""
    while i < end:
        tok = toks[i]
        if (
            mark(tok)
            or tok.low in ("and", "but", "so", "then", ",")
            or (tok.low in ADVERBS and tok.low not in ("both", "all", "only", "just", "there"))
        ):
            i += 1
            continue
        if tok.low in ("only", "just", "all") and i + 1 < end:
            return i
        if tok.low in PREPOSITIONS and (tok.low != "of" or i == 0):
            found, j = phrase(toks, i + 1, end)
            if found is None or j <= i + 1 or j >= end:
                return i
            i = j
            continue
        found, j = phrase(toks, i, end)
        if found is not None and found.timely and j < end and not found.name:
            if _noun_and_verb(toks, j):
                return i
            i = j
            continue
        return i
    return i


def _noun_and_verb(toks: Tokens, j: int) -> bool:
    """True where a time noun is the verb of the noun before it ("a squirrel starts")."""
    before, last = toks[j - 2] if j > 1 else None, finite(toks[j - 1].low)
    if before is None or opens(before) or before.low in ("last", "next", "this"):
        return False
    return "base" in last if plural(before.low) else "third" in last


def _agrees(shapes: frozenset[str], many: bool) -> bool:
    return "past" in shapes or ("base" in shapes if many else "third" in shapes)


def _after_adverbs(toks: Tokens, i: int, end: int) -> int:
    while i < end and (toks[i].low in ADVERBS or mark(toks[i])) and toks[i].low != "there":
        i += 1
    return i


def find_verb(toks: Tokens, i: int, end: int) -> tuple[int, int] | None:
    """Where the subject and the finite verb of the clause at `i` stand; None without a verb."""
    i = skip_lead(toks, i, end)
    if i >= end:
        return None
    tok = toks[i]
    low = tok.low
    if low == "there":
        j = _after_adverbs(toks, i + 1, end)
        return (i, j) if j < end and (toks[j].low in AUXILIARIES or finite(toks[j].low)) else None
    if (
        low in BE
        and i > 0
        and toks[i - 1].low not in ADVERBS
        and i + 1 < end
        and (number(toks[i + 1].low) is not None or toks[i + 1].low in VAGUE)
    ):
        return i, i
    pointing = low in ("that", "this", "these", "which") and i + 1 < end
    pronoun = low in SUBJECT_PRONOUNS or (pointing and toks[i + 1].low in RESULTING)
    if low in ("everyone", "everybody") and i + 1 < end and toks[i + 1].low == "else":
        pronoun, i = True, i + 1
    if pronoun:
        j = _after_adverbs(toks, i + 1, end)
        start = i - 1 if low.startswith("every") else i
        good = j < end and (toks[j].low in AUXILIARIES or finite(toks[j].low))
        return (start, j) if good else None
    return _scan(toks, i, end)


def _scan(toks: Tokens, start: int, end: int) -> tuple[int, int] | None:
    first, _ = phrase(toks, start, end)
    if first is None:
        return None
    quantity = first.count is not None or first.vague
    many = first.plural and not first.name
    seen = nested = False
    i = start
    while i < end:
        tok = toks[i]
        low = tok.low
        if low in AUXILIARIES and (seen or quantity):
            return start, i
        shapes = finite(low) if (seen or (quantity and i > start)) and not tok.name else None
        if shapes and quantity and _attributive(toks, start, i, end):
            shapes = None
        if shapes and _verb_here(toks, i, end, shapes, many, nested, seen, start, first):
            return start, i
        if low == "and" and seen and i + 1 < end:
            many, nested = True, False
        elif low in PREPOSITIONS or mark(tok):
            nested = nested or (low != "of" and seen)
        elif low in PUNCTUATION or low in RELATIVES:
            return None
        elif opens(tok):
            if i > start and toks[i - 1].low not in LINKING and number(toks[i - 1].low) is None:
                return None
        elif low in SUBJECT_PRONOUNS or low in OBJECT_PRONOUNS:
            if i > start and toks[i - 1].low != "of":
                return None
            seen = seen or toks[i - 1].low == "of"
        elif low in ADVERBS or low in ("other", "others", "rest"):
            seen = seen or low in ("others", "rest")
        else:
            seen = True
            if not nested and toks[i - 1].low != "of" and not quantity and not first.joined:
                many = many if first.name else plural(low) or _and_before(toks, start, i)
        i += 1
    return None


def _attributive(toks: Tokens, start: int, i: int, end: int) -> bool:
    """True for an adjective between a number and its plural noun ("30 closed boxes")."""
    low, found = toks[i].low, verb(toks[i].low)
    if found is None or not ("participle" in found.shapes or low in ADJECTIVES) or i + 1 >= end:
        return False
    noun = toks[i + 1]
    if (
        not plural(noun.low)
        or noun.name
        or stops(noun)
        or any(plural(t.low) for t in toks[start:i])
    ):
        return False
    if start == 0:
        return any(finite(t.low) or t.low in AUXILIARIES for t in toks[i + 2 : end])
    return not any(t.low == low and number(b.low) is None for b, t in pairwise(toks[:start]))


def _and_before(toks: Tokens, start: int, i: int) -> bool:
    return any(t.low == "and" for t in toks[start:i])


def _verb_here(
    toks: Tokens,
    i: int,
    end: int,
    shapes: frozenset[str],
    many: bool,
    nested: bool,
    seen: bool,
    start: int,
    first: Phrase,
) -> bool:
    last = toks[i - 1]
    if last.low in PREPOSITIONS and not (first.counted and not seen):
        return False
    if last.low in ("the", "a", "an", "his", "her", "their", "its", "and"):
        return False
    if i - 1 > start and (last.low in VAGUE or number(last.low) is not None):
        return False
    following = toks[i + 1] if i + 1 < end else None
    if first.name and not nested and not many:
        return _agrees(shapes, False)
    if "past" in shapes and "base" not in shapes:
        return not (following is not None and following.low in AUXILIARIES)
    if not _agrees(shapes, many):
        return False
    if many and not nested and seen and "past" not in shapes and not plural(last.low):
        return _and_before(toks, start, i) or last.low in ("them", "others", "rest", "more")
    if ("third" in shapes or nested) and following is not None:
        taken = finite(following.low)
        if following.low in AUXILIARIES or ("base" in taken and not plural(following.low)):
            return False
    return True


def starts_clause(toks: Tokens, i: int, end: int) -> bool:
    """True where a clause begins after a joining word: a verb at once, or a subject and a verb."""
    j = i
    while j < end and (
        toks[j].low in ("and", "but", "so", "then")
        or mark(toks[j])
        or (toks[j].low in ADVERBS and toks[j].low != "there")
    ):
        j += 1
    if j < end:
        shapes = finite(toks[j].low)
        if toks[j].low in AUXILIARIES and j > i:
            return True
        if shapes & {"third", "past"} and not toks[j].name and j + 1 <= end:
            following = toks[j + 1] if j + 1 < end else None
            if following is None or following.low in PUNCTUATION:
                return "past" in shapes
            if (
                opens(following)
                or following.name
                or following.low in PREPOSITIONS
                or (
                    following.low in OBJECT_PRONOUNS
                    or following.low in ("some", "them", "it")
                    or following.low in ADVERBS
                )
            ):
                return True
            return "third" not in shapes or not plural(toks[j].low)
        if "base" in shapes and j > i and not toks[j].name:
            following = toks[j + 1] if j + 1 < end else None
            if following is not None and (
                opens(following) or following.low in ("them", "it", "away", "off", "some")
            ):
                return True
    return find_verb(toks, i, end) is not None


def split(toks: Tokens, sentence: int) -> list[Span]:
    """The clauses of one sentence (closing mark left off), in the order told."""
    asks = toks[-1].low == "?"
    toks = [t for t in toks if t.low != "."]
    if len(toks) > 1 and toks[0].name and plural(toks[0].low):
        following = finite(toks[1].low)
        if "base" in following and "past" not in following:
            toks[0] = Token(toks[0].text, toks[0].low, False)
    end = len(toks)
    cuts: list[tuple[int, int, str]] = [(0, 0, "")]
    k = 0
    if toks and toks[0].low in SUBORDINATORS and toks[0].low != "that":
        comma = next((n for n, t in enumerate(toks) if t.low == ","), end)
        if find_verb(toks, 1, comma) is not None and comma < end:
            cuts = [(0, 1, toks[0].low), (comma, comma + 1, "main")]
            k = comma + 1
    while k < end:
        low = toks[k].low
        begun = cuts[-1][1]
        if low == "how" and k + 1 < end and toks[k + 1].low == "many" and k > begun:
            if _whole(toks, begun, k):
                cuts.append((k, k, "how"))
        elif low in (",", "and", "but", "so", ";", "—", ":") and k > begun:
            if low == "," and k + 2 < end and toks[k + 1].low == "which":
                cuts.append((k, k + 1, "which"))
            elif any(t.low == "how" for t in toks[begun:k]):
                pass
            elif _whole(toks, begun, k) and starts_clause(toks, k + 1, _next_cut(toks, k + 1, end)):
                cuts.append((k, k + 1, low))
        elif (
            low in SUBORDINATORS
            and low != "that"
            and k > begun
            and _whole(toks, begun, k)
            and find_verb(toks, k + 1, _next_cut(toks, k + 1, end)) is not None
        ):
            cuts.append((k, k + 1, low))
        k += 1
    spans = []
    for n, (_, start, link) in enumerate(cuts):
        stop = cuts[n + 1][0] if n + 1 < len(cuts) else end
        part = toks[start:stop]
        while part and part[-1].low in (",", "and", "but", "?", "!"):
            part = part[:-1]
        if part and any(t.low not in PUNCTUATION for t in part):
            asking = any(t.low == "how" for t in part)
            spans.append(Span(part, link, asks and asking, sentence))
    return spans


def _next_cut(toks: Tokens, i: int, end: int) -> int:
    return next((n for n in range(i + 1, end) if toks[n].low in (",", "how") and n > i + 3), end)


def _whole(toks: Tokens, i: int, k: int) -> bool:
    if any(t.low == "how" for t in toks[i:k]):
        return True
    if find_verb(toks, i, k) is not None:
        return True
    j = i
    while j < k and (toks[j].low in ADVERBS or toks[j].low == "then"):
        j += 1
    return j < k and bool(finite(toks[j].low)) and verb(toks[j].low) is not None


def time_head(words: tuple[str, ...]) -> bool:
    """True where the last word names a time."""
    return bool(words) and words[-1] in TIME_NOUNS
