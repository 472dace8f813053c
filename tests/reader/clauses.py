"""Where the clauses of a sentence begin."""

from dataclasses import dataclass

from .finding import Tokens, find_verb
from .lexicon import finite, verb
from .phrases import PUNCTUATION, mark, opens
from .words import (
    ADVERBS,
    AUXILIARIES,
    OBJECT_PRONOUNS,
    PREPOSITIONS,
    SUBORDINATORS,
    Token,
    plural,
)


@dataclass(frozen=True, slots=True)
class Span:
    """One clause: its tokens, the word that joins it, and its place in the sentence."""

    toks: Tokens
    link: str
    asks: bool
    sentence: int


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
