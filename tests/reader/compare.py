"""Comparison stories: two named sides, the difference, and which of the three is asked."""

from .facts import Fact, Than
from .reading import Reading, compatible, numbered, solve
from .words import CannotRead

Side = frozenset[str]


def is_comparison(facts: list[Fact], ask: Fact) -> bool:
    """True where the story or its question compares two sides."""
    if ask.than is not None or ask.thing.more == "fewer":
        return True
    if any(f.than is not None or f.thing.more == "fewer" for f in facts):
        return True
    known = numbered(facts)
    plain = len(known) == 2 and not any(f.thing.more for f in known)
    return (
        ask.thing.more == "more"
        and plain
        and ask.kind != "goal"
        and not ask.modal_need
        and not any(f.kind == "goal" for f in facts)
        and known[0].kind == known[1].kind
        and (known[0].event or (known[0].agent != known[1].agent and bool(known[1].agent)))
    )


def compare(facts: list[Fact], ask: Fact) -> Reading:
    """The reading of a comparison. Raises CannotRead where the sides cannot be told apart."""
    known = numbered(facts)
    if len(known) != 2:
        raise CannotRead(f"{len(known)} numbers told, a comparison needs two")
    told = [f for f in known if f.thing.more and (f.than is not None or f.thing.more == "fewer")]
    if told:
        if ask.than is not None or ask.thing.more:
            raise CannotRead("the difference is told and asked")
        return _side_asked(facts, told[0], next(f for f in known if f is not told[0]), ask)
    return _difference_asked(known, ask)


def _difference_asked(known: list[Fact], ask: Fact) -> Reading:
    one, two = known
    if not ask.thing.more:
        raise CannotRead("asks neither a side nor the difference")
    if ask.than is not None:
        mine, other = sides(ask, ask.than)
    else:
        mine, other = _against(ask, one, two)
    first, second = _holds(_all(one), mine, other), _holds(_all(two), mine, other)
    _same_things(ask.than, one, two, ask)
    if {first, second} != {1, -1}:
        raise CannotRead("the two sides cannot be told apart")
    a, b = (one, two) if first == 1 else (two, one)
    assert a.count is not None and b.count is not None
    more = ask.thing.more == "more"
    if (a.count > b.count) != more:
        raise CannotRead(f"asks how many {ask.thing.more}, but the numbers say otherwise")
    low, high = sorted((a.count, b.count))
    word = "more" if more else "fewer"
    return solve(f"compare-difference-unknown-{word}", str(low), "+", "?", str(high))


def _against(ask: Fact, one: Fact, two: Fact) -> tuple[Side, Side]:
    first, second = one.words - two.words, two.words - one.words
    if bool(ask.words & first) == bool(ask.words & second):
        raise CannotRead("the question names no side of the comparison")
    return (first, second) if ask.words & first else (second, first)


def _side_asked(facts: list[Fact], told: Fact, plain: Fact, ask: Fact) -> Reading:
    more = told.thing.more == "more"
    n, d = plain.count, told.count
    if told.than is None:
        if plain.order > told.order:
            raise CannotRead("a comparison without its second side")
        mine, other = told.words - plain.words, plain.words - told.words
        if not mine or not other:
            raise CannotRead("a comparison without its second side")
    elif told.that:
        mine, other = sides(plain, told.than)
    else:
        mine, other = sides(told, told.than)
    given = 1 if told.that else _holds(_all(plain), mine, other)
    asked = _holds(_all(ask), mine, other)
    _same_things(told.than, told, plain, ask)
    for fact in (plain, ask):
        words = _all(fact)
        if told.than is not None and _holds(words, mine, other) < 0 and not other <= words:
            raise CannotRead(f"which side is meant: {sorted(other - words)}")
    if told.that and asked == 0:
        raise CannotRead("the question names no side of the comparison")
    if given == asked or 0 in (given, asked):
        raise CannotRead("the known and the asked side cannot be told apart")
    if asked == (1 if more else -1):
        if more:
            return solve("compare-bigger-unknown-more", str(n), "+", str(d), "?")
        return solve("compare-bigger-unknown-fewer", "?", "-", str(d), str(n))
    if more:
        return solve("compare-smaller-unknown-more", "?", "+", str(d), str(n))
    return solve("compare-smaller-unknown-fewer", str(n), "-", str(d), "?")


def _same_things(than: Than | None, *facts: Fact) -> None:
    if than is not None and than.slot == "thing":
        return
    heads = {f.thing.head for f in facts if f.thing.head}
    one, two, ask = facts
    sorts = (one.thing.head, two.thing.head)
    if (
        than is None
        and ask.thing.more
        and sorts[0] != sorts[1]
        and one.agent == two.agent
        and ask.thing.head in sorts
    ):
        return
    if len(heads) > 1:
        raise CannotRead(f"compares different things: {sorted(heads)}")


def _all(fact: Fact) -> Side:
    return fact.words | {"~" + fact.lemma}


def sides(fact: Fact, than: Than) -> tuple[Side, Side]:
    """The words that tell the first and the second side apart.

    Raises CannotRead where one of them has none.
    """
    other = than.words
    if than.slot == "place":
        mine = frozenset(w for k, ws in fact.places for w in ws)
        if not mine:
            mine = fact.times
    elif than.slot == "time":
        mine = fact.times
    elif than.slot == "subject":
        mine = frozenset(fact.agent) or frozenset(fact.thing.words) | frozenset(
            w for k, ws in fact.places for w in ws
        )
    elif than.slot == "verb":
        mine = (
            frozenset(("~" + fact.lemma,))
            | frozenset(fact.traits)
            | frozenset(w for k, ws in fact.places for w in ws)
        )
    else:
        mine = frozenset(fact.thing.words) | frozenset(fact.traits)
        placed = frozenset(w for k, ws in fact.places for w in ws)
        if than.shared and placed and not than.shared <= placed:
            mine, other = mine | placed, other | than.shared
    mine, other = mine - other, other - mine
    if not mine or not other:
        raise CannotRead(f"the sides {sorted(mine)} and {sorted(other)} cannot be told apart")
    return mine, other


def _holds(words: frozenset[str], mine: Side, other: Side) -> int:
    """1 where the words name the first side, -1 the second, 0 where neither or both alike."""
    a, b = len(words & mine), len(words & other)
    if a == b:
        return 0
    return 1 if a > b else -1


def goal(facts: list[Fact], ask: Fact) -> Reading:
    """The reading of a story of a goal and what is there so far. Raises CannotRead."""
    known = numbered(facts)
    if len(known) != 2:
        raise CannotRead(f"{len(known)} numbers told, a goal story needs two")
    aims = [f for f in known if f.kind == "goal"]
    held = [f for f in known if f.kind != "goal"]
    if len(aims) != 1 or len(held) != 1:
        raise CannotRead("one goal and one amount so far are needed")
    aim, so_far = aims[0], held[0]
    if not (compatible(aim, so_far) and compatible(aim, ask)):
        raise CannotRead("the goal and the question are about different things")
    for fact in (so_far, ask):
        if aim.agent and fact.agent and aim.agent != fact.agent:
            raise CannotRead("the goal belongs to somebody else")
    if not (ask.thing.more == "more" or ask.kind == "goal" or ask.modal_need):
        raise CannotRead("asks for something else than what the goal still needs")
    return solve("join-change-unknown", str(so_far.count), "+", "?", str(aim.count))
