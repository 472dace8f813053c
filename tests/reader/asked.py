"""The noun phrase after "How many" and the verb that follows it."""

from .clauses import Span
from .facts import Clause
from .finding import PLACES, Tokens, skip_lead
from .lexicon import finite, verb
from .phrases import PUNCTUATION, Phrase, mark, opens, phrase
from .statements import group, lead, subject
from .tails import PATHS, tail
from .words import (
    ADVERBS,
    AUXILIARIES,
    BE,
    DO,
    HAVE,
    MODALS,
    PREPOSITIONS,
    CannotRead,
    plural,
    stem,
)


def question(span: Span) -> Clause:
    """The slots of a "How many" clause. Raises CannotRead where it cannot be followed."""
    toks, end = span.toks, len(span.toks)
    clause = Clause(link=span.link, sentence=span.sentence)
    how = next(n for n, t in enumerate(toks) if t.low == "how")
    if how + 1 >= end or toks[how + 1].low != "many":
        raise CannotRead("the question does not ask how many")
    lead(toks, 0, skip_lead(toks, 0, how), clause)
    i = how + 2
    found, i = asked(toks, i, end, clause)
    clause.asked = found
    asked_verb(toks, i, end, clause)
    return clause


def asked(toks: Tokens, i: int, end: int, clause: Clause) -> tuple[Phrase, int]:
    """The phrase asked about and the place of the verb after it."""
    more = ""
    if i < end and toks[i].low in ("more", "fewer", "less"):
        more, i = "more" if toks[i].low == "more" else "fewer", i + 1
    part = i < end and toks[i].low == "of"
    each = False
    if part:
        i += 1
        while i < end and (toks[i].low in ("the", "these", "those", "all") or opens(toks[i])):
            each = each or toks[i].low == "each"
            i += 1
    words: list[str] = []
    head = ""
    while i < end and not _verb_at(toks, i, end, bool(words) or part):
        low = toks[i].low
        if low == "than":
            i = _than_inside(toks, i, end, clause)
            continue
        if low == "of":
            head = head or (words[-1] if words else "")
            i += 1
            continue
        if low in ("them", "those", "these", "other", "the"):
            i += 1
            continue
        if low in PREPOSITIONS and words:
            found, j = phrase(toks, i + 1, end)
            if found is None:
                break
            clause.places.append((PATHS.get(low, "at"), found.words))
            clause.preps.add(low)
            i = j
            continue
        if low in PUNCTUATION or low in PREPOSITIONS or mark(toks[i]):
            break
        words.append(stem(low))
        i += 1
    head = head or (words[-1] if words else "")
    return Phrase(tuple(words), head, vague=True, more=more, part=part, plural=True, each=each), i


def _than_inside(toks: Tokens, i: int, end: int, clause: Clause) -> int:
    j = i + 1
    while j < end and toks[j].low not in AUXILIARIES:
        j += 1
    tail(toks, i, j, clause)
    return j


def _verb_at(toks: Tokens, i: int, end: int, noun: bool) -> bool:
    low = toks[i].low
    if low in AUXILIARIES:
        return True
    if not noun or toks[i].name or not finite(low) & {"base", "past"}:
        return False
    if plural(low) and "past" not in finite(low):
        return False
    later = any(t.low in AUXILIARIES - HAVE for t in toks[i + 1 : end])
    return plural(toks[i - 1].low) or not later


def ends_unit(toks: Tokens, i: int, end: int, noun: bool) -> bool:
    """True where the phrase after "How many" is over."""
    low = toks[i].low
    return (
        low in PUNCTUATION
        or low == "than"
        or mark(toks[i])
        or _verb_at(toks, i, end, noun)
        or (low in PREPOSITIONS and low != "of")
    )


def asked_verb(toks: Tokens, i: int, end: int, clause: Clause) -> None:
    """Fill the slots after the phrase asked about."""
    q = clause.asked
    assert q is not None
    if i >= end or toks[i].low in PREPOSITIONS:
        clause.copula, clause.lemma = True, "be"
        clause.subject = q
        tail(toks, i, end, clause)
        return
    low = toks[i].low
    j = i + 1
    while j < end and toks[j].low in ADVERBS and toks[j].low not in ("there", "all", "both"):
        clause.flags.add(toks[j].low)
        j += 1
    nxt = toks[j] if j < end else None
    if low in BE:
        if nxt is not None and nxt.low == "there":
            clause.there = clause.copula = True
            clause.lemma = "be"
            clause.objects.append((q, []))
            tail(toks, j + 1, end, clause)
        elif nxt is not None and nxt.low in ("that", "this", "it"):
            clause.copula, clause.lemma = True, "be"
            clause.subject = q
            tail(toks, j + 1, end, clause)
        elif nxt is not None and _subject_first(toks, j, end):
            _inverted(toks, j, end, clause, frozenset(("ing", "participle")))
        else:
            clause.subject = q
            group(toks, i, end, clause)
        return
    if low in DO or low in MODALS or low in HAVE:
        if low in MODALS:
            clause.modal = low
        if low in MODALS and nxt is not None and nxt.low == "there":
            _could_there_be(toks, j + 1, end, clause)
            return
        taken = verb(nxt.low) if nxt is not None and not nxt.name else None
        verbal = nxt is not None and (
            nxt.low in ("be", "been", "have")
            or (
                taken is not None and not opens(nxt) and bool(taken.shapes & {"base", "participle"})
            )
        )
        if low not in DO and verbal:
            clause.subject = q
            group(toks, i, end, clause)
            return
        if low in HAVE and not _participle_after(toks, j, end):
            clause.subject = q
            group(toks, i, end, clause)
            return
        shapes = frozenset(("participle",)) if low in HAVE else frozenset(("base",))
        _inverted(toks, j, end, clause, shapes)
        return
    clause.subject = q
    group(toks, i, end, clause)


def _could_there_be(toks: Tokens, i: int, end: int, clause: Clause) -> None:
    while i < end and toks[i].low in ("be", "have", "been"):
        i += 1
    if toks[i - 1].low not in ("be", "been"):
        raise CannotRead("no 'be' after 'there' in the question")
    assert clause.asked is not None
    clause.there = clause.copula = True
    clause.lemma = "be"
    clause.objects.append((clause.asked, []))
    tail(toks, i, end, clause)


def _participle_after(toks: Tokens, j: int, end: int) -> bool:
    if not _subject_first(toks, j, end):
        return False
    return any(
        (found := verb(t.low)) is not None and "participle" in found.shapes and not t.name
        for t in toks[j + 1 : end]
    )


def _subject_first(toks: Tokens, j: int, end: int) -> bool:
    found, k = phrase(toks, j, end)
    return found is not None and k > j and (found.name or found.determined or bool(found.pronoun))


def _inverted(toks: Tokens, j: int, end: int, clause: Clause, shapes: frozenset[str]) -> None:
    k = j
    seen = False
    while k < end:
        low = toks[k].low
        found = verb(low)
        closed = toks[k - 1].low not in ("the", "his", "her", "a", "and", "their")
        acts = found is not None and bool(found.shapes & shapes) and not toks[k].name
        later = toks[k + 1] if k + 1 < end else None
        said = verb(later.low) if later is not None else None
        if stem(low) in PLACES and said is not None and said.shapes & shapes:
            acts = False
        if seen and acts and closed and (low == "has" or not plural(low)):
            break
        if low not in ADVERBS and low not in ("and", "the", "a", "an") and not mark(toks[k]):
            seen = True
        if low in PUNCTUATION:
            raise CannotRead("no known verb after the subject of the question")
        k += 1
    if k >= end:
        raise CannotRead("no known verb after the subject of the question")
    subject(toks, j, k, clause)
    q = clause.asked
    assert q is not None
    clause.objects.append((q, []))
    group(toks, k, end, clause)
