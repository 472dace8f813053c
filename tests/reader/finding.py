"""Where a clause has its subject and its finite verb."""

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
    VAGUE,
    Token,
    number,
    plural,
    stem,
    wordset,
)

Tokens = list[Token]
RESULTING = BE | wordset("leaves left gives gave makes made brings brought")
ADJECTIVES = wordset("open empty clean dry warm cool light free close ripe clear smooth")
PLACES = wordset(
    "box log bag crate dock park bed swing slide net line row ring rope ramp hook pile stack heap "
    "pot tank truck cart wheel train ferry ship boat mat stand store shop drum plant ride path "
    "show race field pan dish basket bus bike sled ski skate saddle string chain tape board book "
    "post sign tag pin clip button patch stamp label band tray shell nest perch camp tent case "
    "rack hedge fence gate bridge deck seat bench shelter cage trap pen pool pond stream well "
    "spring fountain bucket barrel jar can cup bowl plate pitcher mug glass bottle vase trunk "
    "water dust sand snow ice mud soil dirt wind rain light fire smoke cloud storm"
)
LINKING = (
    PREPOSITIONS | VAGUE | wordset("and of all only just the his her their some another other")
)


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
    """True for what stands between a number and its plural noun ("30 closed boxes", "jump")."""
    low, found = toks[i].low, verb(toks[i].low)
    compound = i + 2 < end and toks[i + 2].low in BE
    if (
        found is None
        or not ("participle" in found.shapes or low in ADJECTIVES | PLACES or compound)
        or i + 1 >= end
    ):
        return False
    noun = toks[i + 1]
    if low in ADJECTIVES and i + 2 < end and not (stops(noun) or plural(noun.low)):
        noun = toks[i + 2]
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


def _noun_place(toks: Tokens, i: int, end: int, shapes: frozenset[str]) -> bool:
    """True where a word ends a place phrase and can name the place ("in the red box")."""
    following = toks[i + 1] if i + 1 < end else None
    closes = (
        following is None
        or mark(following)
        or following.low in PUNCTUATION
        or following.low in PREPOSITIONS
        or following.low in ("and", "left", "now", "then", "too")
    )
    return closes and "past" not in shapes and stem(toks[i].low) in PLACES


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
    if nested and last.low not in ADVERBS and _noun_place(toks, i, end, shapes):
        return False
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
