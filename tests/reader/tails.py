"""Everything after the verb: objects, places, times, particles, comparison."""

from dataclasses import replace

from .facts import Clause, Words
from .finding import Tokens, find_verb
from .lexicon import finite, verb
from .phrases import PUNCTUATION, Phrase, mark, opens, past_like, phrase
from .than_phrases import than
from .words import (
    ADVERBS,
    AUXILIARIES,
    OBJECT_PRONOUNS,
    PARTICLES,
    PREPOSITIONS,
    RELATIVES,
    SUBORDINATORS,
    TIME_NOUNS,
    TIME_PREPOSITIONS,
    VAGUE,
    CannotRead,
    number,
    stem,
    wordset,
)

PATHS = {
    **dict.fromkeys(("to", "into", "onto", "toward", "towards"), "to"),
    **dict.fromkeys(("from", "off"), "from"),
}
GROWING = wordset("grow rise drop shrink go climb jump fall increase decrease")
IDLE = wordset("with for about as of without like than")


def tail(toks: Tokens, i: int, end: int, clause: Clause) -> None:
    """Fill the clause from the tokens after its verb.

    Raises CannotRead at a word that fits nowhere.
    """
    while i < end:
        tok = toks[i]
        low = tok.low
        if low in PUNCTUATION or low in ("and", "but", "or", "or"):
            if low == "or":
                clause.flags.add("or")
            i += 1
        elif mark(tok):
            clause.flags.add(low)
            i += 1
        elif low == "than":
            i = than(toks, i + 1, end, clause)
        elif low == "left":
            clause.flags.add("left")
            i += 1
        elif low in ("how",):
            raise CannotRead("a second question inside a clause")
        elif low == "that" and i + 1 < end and toks[i + 1].low in TIME_NOUNS:
            _place(clause, "time", ("that", toks[i + 1].low))
            i += 2
        elif low in RELATIVES and clause.objects:
            i = _relative(toks, i + 1, end, clause)
        elif low == "there":
            clause.places.append(("any", ()))
            i += 1
        elif low == "to" and i + 1 < end and _infinitive(toks, i + 1, end):
            clause.flags.add("purpose")
            if toks[i + 1].low in ("start", "begin") and i + 3 == end:
                clause.flags.add("§start")
            return
        elif low == "free" and clause.copula:
            clause.traits.append(low)
            i += 1
        elif low in PREPOSITIONS or low in PARTICLES:
            i = _path(toks, i, end, clause)
        elif low in SUBORDINATORS:
            return
        elif low.endswith("ing") and clause.objects and verb(low) is not None:
            i += 1
        elif low in ADVERBS and not (low in ("both", "all") and i + 1 < end):
            clause.flags.add(low)
            i += 1
        elif clause.copula and low not in VAGUE and number(low) is None and not _noun(toks, i, end):
            clause.traits.append(stem(low))
            i += 1
        else:
            i = _object(toks, i, end, clause)


def _noun(toks: Tokens, i: int, end: int) -> bool:
    found, _ = phrase(toks, i, end)
    return found is not None and (found.counted or found.determined or bool(found.pronoun))


def _infinitive(toks: Tokens, i: int, end: int) -> bool:
    found = verb(toks[i].low)
    if found is None or "base" not in found.shapes or toks[i].name:
        return toks[i].low in ("be",)
    return True


def _object(toks: Tokens, i: int, end: int, clause: Clause) -> int:
    found, j = phrase(toks, i, end)
    if found is None or j <= i:
        if verb(toks[i].low) is not None:
            return i + 1
        raise CannotRead(f"cannot place the word {toks[i].text!r}")
    if found.timely:
        _place(clause, "time", found.words)
        return j
    if found.head == "left" or (found.count is None and found.words == ("left",)):
        clause.flags.add("left")
        return j
    past_like(found)
    bare = not (found.determined or found.counted or found.name or found.pronoun)
    times = j + 1 < end and toks[j + 1].low in ("time", "times")
    if (
        bare
        and not times
        and j < end
        and (opens(toks[j]) or toks[j].low in ("them", "it", "some", "him", "her"))
    ):
        raise CannotRead(f"unknown verb {toks[j - 1].text!r}")
    clause.objects.append((found, []))
    return j


def _place(clause: Clause, kind: str, words: Words) -> None:
    if clause.objects:
        clause.objects[-1][1].append((kind, words))
    else:
        clause.places.append((kind, words))


def _path(toks: Tokens, i: int, end: int, clause: Clause) -> int:
    low = toks[i].low
    raw = low
    nxt = toks[i + 1].low if i + 1 < end else ""
    if low in ("out", "off") and nxt == "of":
        low, raw, i = "from", low, i + 1
        nxt = toks[i + 1].low if i + 1 < end else ""
    if low == "from" and nxt in ("a", "an"):
        clause.preps.add("from-a")
    counted = number(nxt) is not None or nxt in VAGUE or nxt in ("more", "all")
    counted = counted or (nxt == "another" and i + 2 < end and number(toks[i + 2].low) is not None)
    if low in ("inside", "outside") and (
        not nxt
        or nxt in PUNCTUATION
        or nxt[0] == "§"
        or (nxt in PREPOSITIONS or nxt in ADVERBS or nxt in ("and", "then"))
    ):
        clause.places.append(("to", (low,)))
        return i + 1
    if low in PARTICLES and (
        not nxt
        or nxt in PUNCTUATION
        or nxt in PREPOSITIONS
        or nxt in PARTICLES
        or nxt[0] == "§"
        or nxt in ("and", "than", "to", "then", "left", "again")
        or nxt in ADVERBS
        or (counted and not clause.objects and low not in ("by", "over", "around"))
        or low in ("away", "home", "here", "together", "aside", "back", "free")
    ):
        clause.particles.append(low)
        return i + 1
    if low not in PREPOSITIONS and low != "from":
        clause.particles.append(low)
        return i + 1
    if low == "by" and nxt.endswith("ing") and verb(nxt):
        clause.flags.add("purpose")
        return end
    if low in TIME_PREPOSITIONS and find_verb(toks, i + 1, end) is not None:
        if low == "before":
            clause.flags.add("§start")
        if low == "after":
            clause.flags.add("§end")
        return end
    found, j = phrase(toks, i + 1, end)
    if found is None:
        clause.particles.append(low)
        return i + 1
    past_like(found)
    if low in TIME_PREPOSITIONS:
        loose = found.name and not found.proper and not found.owner
        if loose or (found.pronoun and found.pronoun not in OBJECT_PRONOUNS):
            raise CannotRead(f"no known verb after {low!r}")
    if found.timely or low in TIME_PREPOSITIONS:
        when = (low,) if low in ("before", "after") else ()
        _place(clause, "time", (*when, *found.words))
        if when:
            clause.flags.add(f"{low}-time")
        return j
    while j + 1 < end and toks[j].low == "and" and toks[j + 1].low not in ("how",):
        more, k = phrase(toks, j + 1, end)
        if more is None or more.counted or more.pronoun or (k < end and finite(toks[k].low)):
            break
        if k < end and toks[k].low in ("them", "it", "him", "her", "some", "a", "the"):
            raise CannotRead(f"unknown verb {toks[k - 1].text!r}")
        found, j = _merge(found, more), k
    words = ("§" + found.pronoun,) if found.pronoun else found.spot
    if found.each:
        clause.flags.add("each")
    if words == ("board",):
        return j
    if words == ("top",):
        _place(clause, "any", ())
        return j
    if low == "to" and found.count is not None and clause.lemma in GROWING:
        clause.flags.add("§end")
    if (
        low in ("with", "to")
        and found.counted
        and not found.rest
        and (low == "with" or "§end" in clause.flags)
    ):
        if clause.objects and clause.objects[-1][0].determined:
            clause.places.append(("at", clause.objects[-1][0].words))
        clause.objects.append((found, []))
        clause.flags.add("with")
        return j
    if found.name:
        clause.names.append(found)
    if low == "of" and clause.traits[-1:] == ["full"]:
        clause.flags.add("full")
        clause.objects.append((found, []))
        return j
    if low == "of" and clause.objects:
        _place(clause, "of", words)
        return j
    clause.raw.append(raw)
    clause.preps.add(raw)
    kind = "idle" if low in IDLE else PATHS.get(low, "at")
    _place(clause, kind, words)
    return j


def _merge(one: Phrase, two: Phrase) -> Phrase:
    return replace(one, words=one.words + two.words)


def _relative(toks: Tokens, i: int, end: int, clause: Clause) -> int:
    if i < end and toks[i].low in AUXILIARIES:
        i += 1
        while i < end and toks[i].low not in PREPOSITIONS and toks[i].low not in PUNCTUATION:
            if toks[i].low not in ADVERBS:
                clause.traits.append(stem(toks[i].low))
            i += 1
        return i
    raise CannotRead("a relative clause the reader does not know")
