"""One clause, told or asked, read into its slots."""

from .clauses import Span
from .facts import Clause
from .finding import Tokens, find_verb
from .lexicon import verb
from .phrases import PUNCTUATION, Phrase, mark, past_like, phrase
from .tails import PATHS, tail
from .words import (
    ADVERBS,
    AUXILIARIES,
    BE,
    DO,
    HAVE,
    MODALS,
    PREPOSITIONS,
    TIME_PREPOSITIONS,
    CannotRead,
    wordset,
)

GOALS = wordset("want need hope plan try like aim wish intend expect have use")
OPENERS = wordset("start begin end finish")


def statement(span: Span) -> Clause:
    """The slots of a told clause. Raises CannotRead where no known verb stands in its place."""
    toks, end = span.toks, len(span.toks)
    clause = Clause(link=span.link, sentence=span.sentence)
    found = find_verb(toks, 0, end)
    if found is None:
        start = lead(toks, 0, _same_subject(toks, end), clause)
        at = start
        if at >= end or (verb(toks[at].low) is None and toks[at].low not in AUXILIARIES):
            raise CannotRead(f"no known verb in {_text(toks)!r}")
        if span.link not in ("and", "but", ",", "so", "main", "then"):
            raise CannotRead(f"no subject in {_text(toks)!r}")
    else:
        start, at = found
        lead(toks, 0, start, clause)
        clause.leading = list(clause.places)
        subject(toks, start, at, clause)
    group(toks, at, end, clause)
    return clause


def _same_subject(toks: Tokens, end: int) -> int:
    i = 0
    while i < end and (toks[i].low in ADVERBS or mark(toks[i]) or toks[i].low in ("then", ",")):
        i += 1
    return i


def lead(toks: Tokens, i: int, start: int, clause: Clause) -> int:
    while i < start:
        tok = toks[i]
        if mark(tok) or tok.low in ADVERBS or tok.low in ("then", "but", "and", "so"):
            clause.flags.add(tok.low)
            i += 1
        elif tok.low in PREPOSITIONS:
            found, j = phrase(toks, i + 1, start)
            if found is None:
                i += 1
                continue
            if found.each:
                clause.flags.add("each")
            if tok.low == "of":
                clause.flags.add("of-lead")
                clause.whole = found if found.count is not None else None
            elif found.timely or tok.low in TIME_PREPOSITIONS:
                when = (tok.low,) if tok.low in ("before", "after") else ()
                clause.times.append((*when, *found.words))
                if when:
                    clause.flags.add(f"{tok.low}-time")
            elif tok.low == "at":
                clause.places.append(("at", found.spot))
            else:
                clause.places.append((PATHS.get(tok.low, "at"), found.spot))
            clause.preps.add(tok.low)
            i = j
        else:
            found, j = phrase(toks, i, start)
            if found is not None and found.timely:
                clause.times.append(found.words)
                i = j
            else:
                i += 1
    return i


def subject(toks: Tokens, start: int, at: int, clause: Clause) -> None:
    if toks[start].low == "there" or start == at:
        clause.there = True
        return
    found, j = phrase(toks, start, at)
    if found is None:
        found, j = Phrase(pronoun=toks[start].low), start + 1
    if toks[start].low in ("that", "this", "which") and j == start + 1:
        found = Phrase(pronoun=toks[start].low)
    past_like(found)
    joined = [found]
    while j < at:
        tok = toks[j]
        if tok.low == "and":
            other, k = phrase(toks, j + 1, at)
            if other is None:
                break
            past_like(other)
            joined.append(other)
            j = k
        elif tok.low in PREPOSITIONS:
            inner, k = phrase(toks, j + 1, at)
            if inner is None:
                clause.flags.add(tok.low)
                j += 1
                continue
            clause.places.append((PATHS.get(tok.low, "at"), inner.spot))
            clause.preps.add(tok.low)
            j = k
        elif tok.low in ADVERBS or mark(tok) or tok.low in PUNCTUATION:
            clause.flags.add(tok.low)
            j += 1
        else:
            raise CannotRead(f"cannot place {tok.text!r} before the verb")
    if toks[start].low == "each":
        clause.flags.add("each")
    if any(p.count is not None for p in joined) and any(not p.counted for p in joined):
        raise CannotRead("somebody and a number of things as one subject")
    if len(joined) > 1 and any(p.count is not None for p in joined):
        clause.objects = [(p, []) for p in joined]
        clause.flags.add("listed")
        return
    if len(joined) > 1:
        words = tuple(w for p in joined for w in p.words)
        found = Phrase(
            words=words,
            head=joined[-1].head,
            plural=True,
            name=joined[0].name,
            joined=tuple(joined),
        )
    clause.subject = found


def group(toks: Tokens, at: int, end: int, clause: Clause) -> None:
    """Read the verb group at `at` and then the rest. Raises CannotRead for an unknown verb."""
    i = at
    be = have = False
    while i < end:
        low = toks[i].low
        if low in MODALS:
            clause.modal = low
        elif low in BE:
            be = True
        elif low in HAVE and _auxiliary_have(toks, i, end):
            have = True
        elif low in DO and i + 1 < end and toks[i + 1].low == "not":
            raise CannotRead("a clause with 'not'")
        elif low == "not" or low in ("never",):
            clause.flags.add("not")
        elif low in ADVERBS or mark(toks[i]):
            if low == "there" and be:
                break
            clause.flags.add(low)
        elif low == "going" and i + 1 < end and toks[i + 1].low == "to":
            i += 1
        else:
            break
        i += 1
    if not be and not have and i >= end and toks[at].low in HAVE:
        clause.lemma = "have"
        return
    found = verb(toks[i].low) if i < end and not toks[i].name else None
    if be and not _participle(toks, i, end, clause):
        clause.copula, clause.lemma = True, "be"
        tail(toks, i, end, clause)
        if "full" in clause.flags:
            clause.copula, clause.lemma = False, "have"
        return
    if found is None:
        word = toks[i].text if i < end else toks[at].text
        raise CannotRead(f"unknown verb {word!r}")
    clause.progressive = be and "ing" in found.shapes
    clause.passive = be and "participle" in found.shapes and not toks[i].low.endswith("ing")
    subject = clause.subject
    if clause.passive and subject is not None and (subject.rest or subject.part or subject.each):
        clause.traits.append(toks[i].low)
    if have and not be and "participle" not in found.shapes:
        raise CannotRead(f"{toks[i].text!r} after 'have'")
    _main(toks, i, end, clause, found.lemma)


def _main(toks: Tokens, i: int, end: int, clause: Clause, lemma: str) -> None:
    nxt = toks[i + 1].low if i + 1 < end else ""
    if lemma in GOALS and nxt == "to" and i + 2 < end:
        inner = verb(toks[i + 2].low)
        if inner is not None and "base" in inner.shapes:
            clause.goal = lemma
            clause.lemma = inner.lemma
            tail(toks, i + 3, end, clause)
            return
    if lemma in OPENERS and nxt == "to" and i + 2 < end and verb(toks[i + 2].low):
        inner = verb(toks[i + 2].low)
        assert inner is not None
        clause.lemma = inner.lemma
        tail(toks, i + 3, end, clause)
        return
    if lemma in OPENERS and (nxt in ("with", "out", "up", "off") or not nxt):
        j = i + 1
        while j < end and toks[j].low in ("with", "out", "up", "off", "having"):
            j += 1
        if nxt:
            clause.lemma = "have"
            clause.flags.add("§start" if lemma in ("start", "begin") else "§end")
            tail(toks, j, end, clause)
            return
    clause.lemma = lemma
    if lemma in ("need", "want", "require"):
        clause.goal = lemma
    tail(toks, i + 1, end, clause)


def _auxiliary_have(toks: Tokens, i: int, end: int) -> bool:
    j = i + 1
    while j < end and (toks[j].low in ADVERBS or mark(toks[j])):
        j += 1
    if j >= end:
        return False
    found = verb(toks[j].low)
    return toks[j].low == "been" or (
        found is not None
        and "participle" in found.shapes
        and toks[j].low != "left"
        and not toks[j].name
    )


def _participle(toks: Tokens, i: int, end: int, clause: Clause) -> bool:
    if i >= end or toks[i].low == "left":
        return False
    found = verb(toks[i].low)
    if found is None or not found.shapes & {"ing", "participle"}:
        return False
    return not (clause.there and "ing" not in found.shapes)


def _text(toks: Tokens) -> str:
    return " ".join(t.text for t in toks)
