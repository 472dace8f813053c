"""What follows "than": the second side of a comparison and the slot it stands for."""

from .facts import Clause, Than
from .finding import Tokens, find_verb
from .lexicon import finite, verb
from .phrases import PUNCTUATION, mark, phrase, stops
from .words import (
    ADVERBS,
    AUXILIARIES,
    DETERMINERS,
    PARTICLES,
    PREPOSITIONS,
    CannotRead,
    stem,
)

IDLE = ADVERBS | PREPOSITIONS | PUNCTUATION | DETERMINERS


def than(toks: Tokens, i: int, end: int, clause: Clause) -> int:
    """The place after a comparison's second side, which is kept in the clause.

    Raises CannotRead where the second side cannot be followed.
    """
    if i >= end:
        raise CannotRead("nothing after 'than'")
    low = toks[i].low
    if low in PREPOSITIONS:
        found, j = phrase(toks, i + 1, end)
        if found is None:
            raise CannotRead("nothing after 'than' and its preposition")
        when = (low,) if low in ("before", "after") else ()
        slot = "time" if found.timely or when else "place"
        side = frozenset((*when, *found.words))
        clause.than = Than(slot, side, frozenset(_rest(toks, j, end, clause)), found.words)
        return end
    alike = _same_noun(toks, i, end)
    if not alike and finite(low) and end < len(toks) and toks[end].low in AUXILIARIES:
        alike = end
    if finite(low) and not alike and not toks[i].name and not _plain_noun(toks, i, end):
        clause.than = Than("verb", frozenset(_content(toks, i, end)))
        return end
    cut = None if alike else find_verb(toks, i, end)
    found, j = phrase(toks, i, alike or (cut[1] if cut else end))
    if found is None and low in ("yesterday", "today"):
        clause.than = Than("time", frozenset((low,)))
        return end
    if found is None:
        raise CannotRead(f"cannot read what follows 'than': {low!r}")
    if found.timely and not alike:
        clause.than = Than("time", frozenset(found.words))
        return end
    said = j < end and (toks[j].low in AUXILIARIES or bool(finite(toks[j].low)))
    if said and toks[j].low not in ("do", "does", "did", "has", "have", "had", "is", "are"):
        if verb(toks[j].low) is None:
            raise CannotRead(f"unknown verb {toks[j].text!r}")
    elif (
        j < end
        and not said
        and not (
            toks[j].low in PREPOSITIONS
            or toks[j].low in PUNCTUATION
            or mark(toks[j])
            or toks[j].low in ADVERBS
            or toks[j].low in PARTICLES
        )
    ):
        raise CannotRead(f"cannot place {toks[j].text!r} after 'than'")
    if found.pronoun:
        time = _time_after(toks, j, end)
        words = frozenset(("§" + found.pronoun,))
        clause.than = Than("time", time) if time else Than("subject", words)
        return end
    if found.name and not found.proper and not found.owner and not said:
        raise CannotRead(f"unknown verb {toks[j - 1].text!r}")
    bare = not (found.name or found.determined or said)
    bare = bare or (clause.there and not said)
    rest = frozenset(_rest(toks, j, end, clause))
    words = frozenset(found.words)
    clause.than = Than("thing" if bare else "subject", words, rest, found.words)
    return end


def _same_noun(toks: Tokens, i: int, end: int) -> int:
    """The place after the compared noun where it is said again ("big shells than small shells")."""
    start = max((n for n in range(i) if toks[n].low in ("more", "fewer", "less")), default=i) + 1
    stop = start
    while stop < i and not stops(toks[stop]):
        stop += 1
    if stop == start:
        return 0
    for k in range(i, end):
        if stops(toks[k]) or toks[k].name:
            return 0
        if toks[k].low == toks[stop - 1].low:
            return k + 1 if k > i else 0
    return 0


def _time_after(toks: Tokens, i: int, end: int) -> frozenset[str]:
    while i < end:
        found, j = phrase(toks, i, end)
        if found is not None and found.timely:
            return frozenset(found.words)
        i = max(i + 1, j)
    return frozenset()


def _plain_noun(toks: Tokens, i: int, end: int) -> bool:
    return i + 1 >= end or toks[i + 1].low in PREPOSITIONS or toks[i + 1].low in AUXILIARIES


def _rest(toks: Tokens, i: int, end: int, clause: Clause) -> list[str]:
    out: list[str] = []
    while i < end:
        tok = toks[i]
        if mark(tok):
            clause.flags.add(tok.low)
        elif tok.low in PREPOSITIONS:
            found, j = phrase(toks, i + 1, end)
            if found is not None:
                out.extend(found.words)
                i = j
                continue
        i += 1
    return out


def _content(toks: Tokens, i: int, end: int) -> list[str]:
    out = []
    for tok in toks[i:end]:
        found = verb(tok.low)
        if found is not None and tok is toks[i]:
            out.append("~" + found.lemma)
        elif not (mark(tok) or tok.low in IDLE):
            out.append(stem(tok.low))
    return out
