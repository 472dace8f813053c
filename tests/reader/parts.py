"""Part-part-whole stories: which words tell two parts apart, and which fact is the whole."""

from .facts import STATES, Fact, Words
from .reading import Reading, match, numbered, solve
from .sorts import one_of_two
from .words import CannotRead

COVERING = frozenset(("day", "days", "week", "weekend"))
ANY_TIME = COVERING | frozenset(("month", "year", "season", "time", "now", "then", "today"))
TOTAL = frozenset(("§total", "together", "both", "all"))


def parts(facts: list[Fact], ask: Fact) -> Reading:
    """The reading of a story of two parts and a whole. Raises CannotRead where it is none."""
    known = numbered(facts)
    if len(known) != 2:
        raise CannotRead(f"{len(known)} numbers told, parts and whole need two")
    sorts = [f for f in facts if f.thing.each and "or" in f.flags]
    if sorts:
        return one_of_two(sorts, known, ask)
    if any(f.event and f.count is None and f.thing.vague and not f.thing.rest for f in facts):
        raise CannotRead("something happens to an untold number")
    if any(f.than or f.thing.more for f in known):
        raise CannotRead("a comparison or a change, not two parts")
    rests = [f for f in facts if f.thing.rest and f.count is None]
    found = [(w, p) for w, p in (known, known[::-1]) if _is_part(w, p, ask, rests)]
    for whole, part in found:
        assert whole.count is not None and part.count is not None
        if whole.count >= part.count:
            return solve("part-unknown", str(part.count), "+", "?", str(whole.count))
    if found:
        raise CannotRead("the part is larger than the whole")
    if rests:
        raise CannotRead("tells of a rest that is neither part nor whole")
    _two_parts(known[0], known[1], ask)
    return solve("whole-unknown", str(known[0].count), "+", str(known[1].count), "?")


def both_or_neither(words: frozenset[str], one: frozenset[str], two: frozenset[str]) -> bool:
    """True where the words name both sides or neither of them."""
    return bool(words & one) == bool(words & two)


def _is_part(whole: Fact, part: Fact, ask: Fact, rests: list[Fact]) -> bool:
    if whole.thing.part or (whole.event != part.event and not (part.thing.part or rests)):
        return False
    other = ask.words
    for rest in rests:
        other = other | rest.words
    if "left" in ask.flags and part.event:
        return False
    if part.event and part.lemma != whole.lemma and not rests:
        return False
    told = frozenset(w for r in rests for w in r.words)
    new = ask.words - part.words - whole.words
    if new and not new & told and (rests or new & frozenset(ask.thing.words)):
        return False
    only, also = part.words - other, other - part.words
    only, also = only - whole_noun(whole), also - whole_noun(whole)
    if not only & whole.words:
        also = also - whole.words
    if not also & whole.words:
        only = only - whole.words
    if not also or not only:
        return False
    if not both_or_neither(whole.words, only, also):
        return False
    allowed = whole.words | part.words | frozenset(w for r in rests for w in r.words)
    if ask.thing.head and ask.thing.head not in allowed:
        return False
    if part.thing.part or rests or ask.thing.rest:
        return True
    if whole.agents and part.agent and ask.agent and part.agent != ask.agent:
        return part.agent in whole.agents and ask.agent in whole.agents
    named = frozenset((*whole.thing.words, *whole.traits))
    if named & only and named & also:
        return True
    if (
        whole.agent
        and part.agent
        and whole.agent != part.agent
        and not (whole.group and ask.agent and ask.agent != part.agent)
    ):
        return False
    wide, narrow = spots(whole), spots(part)
    if wide and narrow and not any(match(a, b) for a in wide for b in narrow):
        return False
    covers = whole.times & COVERING and not (part.times | ask.times) & COVERING
    if whole.times and part.times and whole.times != part.times and not covers:
        return False
    return (
        whole.order < part.order
        and whole.thing.head == part.thing.head
        and whole.thing.head == ask.thing.head
        and not (ask.flags & {"§total"})
    )


def whole_noun(whole: Fact) -> frozenset[str]:
    """The thing counted in the whole, which never tells parts apart."""
    return frozenset((whole.thing.head,))


def spots(fact: Fact) -> list[Words]:
    """The places of a fact."""
    return [w for k, w in fact.places if k == "at" and w]


def _two_parts(one: Fact, two: Fact, ask: Fact) -> None:
    if one.event != two.event and one.lemma != two.lemma:
        raise CannotRead("one amount is held and one happens")
    if one.event and one.kind != two.kind:
        raise CannotRead("two different things happen")
    if one.flags & {"§start"} or two.flags & {"now", "left", "still"}:
        raise CannotRead("two states in time, not two parts")
    first, second = one.words - two.words, two.words - one.words
    if not first and not second:
        raise CannotRead("nothing tells the two amounts apart")
    if not first or not second:
        raise CannotRead("one amount may lie inside the other")
    if not both_or_neither(ask.words, first, second):
        raise CannotRead("the question asks about one amount that is told")
    sorts = (one.thing.head, two.thing.head)
    shared = ask.thing.head in one.thing.words and ask.thing.head in two.thing.words
    if sorts[0] != sorts[1] and ask.thing.head in sorts and not shared:
        raise CannotRead("asks about one of two sorts as if it were both")
    if two.borrowed and two.kind == "be" and not (one.kind == "be" and one.traits):
        raise CannotRead("the second amount seems to be some of the first")
    _covers(one, two, ask)
    alike = one.thing.head == two.thing.head
    if alike and ask.thing.head and ask.thing.head != one.thing.head:
        raise CannotRead(f"asks about {ask.thing.head!r}, tells about {one.thing.head!r}")
    seen = one.kind == "perceive" and (ask.flags & TOTAL or ask.times & COVERING)
    if first <= one.times and second <= two.times and one.kind in STATES and not seen:
        raise CannotRead("two states in time, not two parts")
    if ask.flags & {"left", "still"} or ask.thing.more:
        raise CannotRead("asks what is left, but nothing went")


def _covers(one: Fact, two: Fact, ask: Fact) -> None:
    """Refuse a question about another person, sort or place than the two that are told."""
    owners = set(one.agent) | set(two.agent)
    if ask.agent and owners and not owners & set(ask.agent):
        raise CannotRead(f"asks about {ask.agent}, who is not told of")
    when = ask.times - one.times - two.times
    if when and one.times and two.times and not ask.times & ANY_TIME:
        raise CannotRead(f"asks about {sorted(when)}, which is not told")
    if (
        one.agent
        and two.agent
        and one.agent != two.agent
        and ask.agent
        and not (set(one.agent) <= set(ask.agent) and set(two.agent) <= set(ask.agent))
        and not ask.group
    ):
        raise CannotRead(f"asks about {ask.agent} only")
    told = one.words | two.words
    if one.thing.head == two.thing.head:
        for word in (*ask.thing.words, *ask.traits):
            if word not in told and not (word == ask.thing.head):
                raise CannotRead(f"asks about {word!r}, which is not told")
    wide, narrow = spots(ask), [*spots(one), *spots(two)]
    if (
        wide
        and spots(one)
        and spots(two)
        and not ask.flags & TOTAL
        and not any(match(a, b) for a in wide for b in narrow)
    ):
        raise CannotRead(f"asks about {wide[0]}, which is not told")


def both(facts: list[Fact], asks: list[Fact]) -> Reading:
    """The reading of a story that asks for both parts of a known whole. Raises CannotRead."""
    wholes = [f for f in numbered(facts) if f.thing.digits]
    if len(wholes) != 1:
        raise CannotRead(f"{len(wholes)} numbers told, one whole is needed")
    whole = wholes[0]
    if whole.thing.more or whole.than:
        raise CannotRead("the one number is no whole")
    several = len(asks) >= 2 or any(a.thing.each or a.flags & {"pair", "each"} for a in asks)
    if not several:
        raise CannotRead("asks for one part, and no part is told")
    if len(asks) == 2:
        one, two = asks[0].words - asks[1].words, asks[1].words - asks[0].words
        if not one or not two:
            raise CannotRead("the two questions ask for the same part")
    kinds = {w for f in facts if f.thing.each for w in f.words}
    told = kinds | whole.words if kinds else frozenset()
    for word in (w for a in asks for w in a.thing.words if told and w not in told):
        raise CannotRead(f"asks about {word!r}, which is not told")
    heads = [a.thing.head for a in asks if a.thing.head]
    alone = [h for h in heads if h != whole.thing.head]
    if alone and (len(set(alone)) < 2 or len(alone) < len(heads)):
        raise CannotRead(f"asks about {alone[0]!r}, tells about {whole.thing.head!r}")
    n = whole.count or 0
    pairs = [(a, n - a) for a in range(n + 1)]
    return Reading(f"{n} = ? + ?", "both-parts-unknown", pairs, "")
