"""Change stories: what is held, what happens, and which of start, change and end is asked."""

from .direction import direct, direction, elsewhere
from .facts import STATES, Fact
from .lexicon import verb
from .reading import END, START, Reading, compatible, match, numbered, solve
from .words import CannotRead, wordset

NAMES = {1: "join", -1: "separate"}
SIGN = {1: "+", -1: "-"}
PLAIN = wordset(
    "new whole full empty ready asleep awake here open free aboard home different there"
)


def change(facts: list[Fact], ask: Fact) -> Reading:
    """The reading of a join or separate story. Raises CannotRead where it is none."""
    known = numbered(facts)
    if len(known) != 2:
        raise CannotRead(f"{len(known)} numbers told, a change story needs two")
    for fact in known:
        if not compatible(fact, ask):
            raise CannotRead(f"asks about {ask.thing.words} but tells about {fact.thing.words}")
    _nothing_new(facts, ask)
    states = [f for f in known if f.kind in STATES]
    events = [f for f in known if f.event]
    asks_state = ask.kind in STATES or (_ends(ask) and bool(events) and len(states) < 2)
    if len(states) == 1 and len(events) == 1:
        if asks_state:
            return _state_asked(facts, states[0], events[0], ask)
        return _from_made(facts, events[0], states[0], ask)
    if len(states) == 2 and not asks_state:
        return _change_asked(facts, states, ask)
    if len(events) == 2:
        return _two_events(facts, events, ask)
    raise CannotRead("no change between states is told")


def _nothing_new(facts: list[Fact], ask: Fact) -> None:
    """Refuse traits or kinds of things that only one part of the story names."""
    said: list[str] = [w for f in (*facts, ask) for w in (*f.thing.words, *f.traits)]
    lemmas = {f.lemma for f in facts}
    for fact in (*numbered(facts), ask):
        for trait in fact.traits:
            if fact.kind == "be" and said.count(trait) < 2 and trait not in PLAIN:
                raise CannotRead(f"what does {trait!r} mean for the count?")
    for word in ask.thing.words:
        form = verb(word)
        known = said.count(word) > 1 or word in PLAIN or (form is not None and form.lemma in lemmas)
        if not known:
            raise CannotRead(f"asks about {word!r}, which is not told")
    for fact in facts:
        if (
            fact.thing.vague
            and fact.count is None
            and fact.thing.words
            and ((fact.kind in ("have", "be") or ask.event) and not compatible(fact, ask))
        ):
            raise CannotRead(f"starts with {fact.thing.words} and asks about {ask.thing.words}")


def _ends(fact: Fact) -> bool:
    return bool(fact.flags & END) or "then" in fact.flags


def _phase(state: Fact, event: Fact, ask: Fact) -> int:
    """-1 for before the event, 1 for after it."""
    if ask.flags & START and not state.flags & START:
        return 1
    if state.flags & START:
        return -1
    if state.flags & END and not ("then" in event.flags and event.order > state.order):
        return 1
    return -1 if state.order < event.order else 1


def _vague_start(facts: list[Fact], ask: Fact) -> bool:
    return any(
        f.kind in STATES and f.count is None and f.times and f.times & ask.times for f in facts
    )


def _state_asked(facts: list[Fact], state: Fact, event: Fact, ask: Fact) -> Reading:
    _same_holder(state, ask)
    _same_keeping(state, ask)
    way = direction(facts, event, [state, ask, *_owner_at_first(facts, state, ask)])
    name = NAMES[way]
    if _phase(state, event, ask) < 0:
        if ask.flags & START:
            raise CannotRead("the start is told and asked")
        return solve(f"{name}-result-unknown", str(state.count), SIGN[way], str(event.count), "?")
    if _ends(ask) and not ask.flags & START and not _vague_start(facts, ask):
        raise CannotRead("the end is told and asked")
    return solve(f"{name}-start-unknown", "?", SIGN[way], str(event.count), str(state.count))


def _owner_at_first(facts: list[Fact], state: Fact, ask: Fact) -> list[Fact]:
    """The untold start that says whose the place is ("Noa has some plums in a bag")."""
    held = [w for f in (state, ask) for k, w in f.places if k == "at" and w]
    return [
        f
        for f in facts
        if f.kind == "have" and f.count is None and f.agent and f.order < state.order
        if any(match(w, h) for k, w in f.places if k == "at" for h in held)
    ]


def _same_holder(one: Fact, two: Fact) -> None:
    held = [w for f in (one, two) for _, w in f.places if w]
    if (
        one.agent
        and two.agent
        and not match(one.agent, two.agent)
        and not any(match(one.agent, w) or match(two.agent, w) for w in held)
    ):
        raise CannotRead(f"tells about {one.agent} and asks about {two.agent}")
    a = [w for k, w in one.places if k == "at" and w]
    b = [w for k, w in two.places if k == "at" and w]
    if a and b and not any(match(x, y) for x in a for y in b):
        raise CannotRead(f"tells about {a} and asks about {b}")


def _same_keeping(state: Fact, ask: Fact) -> None:
    """Refuse to ask about a place for what another holder has, and the other way round."""
    for one, two in ((state, ask), (ask, state)):
        spots = [w for k, w in two.places if k == "at" and w]
        placed = any(k == "at" for k, _ in one.places)
        if one.kind != "have" or not one.agent or placed or two.agent or not spots:
            continue
        if not any(match(one.agent, w) for w in spots):
            raise CannotRead(f"one tells what {one.agent} holds, the other what is at {spots[0]}")


def _change_asked(facts: list[Fact], states: list[Fact], ask: Fact) -> Reading:
    first, last = states
    if (first.flags & END and not last.flags & END) or last.flags & START:
        first, last = last, first
    _same_holder(first, last)
    _same_keeping(first, last)
    if first.than or last.than:
        raise CannotRead("a comparison, not a change")
    told = [f for f in facts if f.event and f.count is None and f.same_as is None]
    way = _asked_way(facts, ask, [first, last])
    for event in told:
        if event.thing.vague and direction(facts, event, [first, last]) != way:
            raise CannotRead("what happens and what is asked go different ways")
    if not told and not (_ends(last) or first.flags & START or first.times != last.times):
        raise CannotRead("nothing says that one state comes after the other")
    name = NAMES[way]
    return solve(f"{name}-change-unknown", str(first.count), SIGN[way], "?", str(last.count))


def _from_made(facts: list[Fact], event: Fact, state: Fact, ask: Fact) -> Reading:
    """A story that opens with things made or found, and asks for a later change."""
    opened = [
        f
        for f in facts
        if f.event and f.count is None and f.lemma == ask.lemma and f.order < event.order
    ]
    if opened and event.order < state.order and direction(facts, opened[0], [state, event]) > 0:
        way = direction(facts, event, [state, opened[0]])
        name = NAMES[way]
        return solve(f"{name}-start-unknown", "?", SIGN[way], str(event.count), str(state.count))
    if event.order > state.order or direction(facts, event, [state]) < 0:
        raise CannotRead("the change is told and asked")
    way = _asked_way(facts, ask, [state])
    vague = [f for f in facts if f.event and f.count is None and f.thing.vague]
    if way > 0 and not ask.thing.more and not vague:
        raise CannotRead("the change is told and asked")
    name = NAMES[way]
    return solve(f"{name}-change-unknown", str(event.count), SIGN[way], "?", str(state.count))


def _two_events(facts: list[Fact], events: list[Fact], ask: Fact) -> Reading:
    first, second = events
    holders = [first, ask] if ask.kind in STATES else [first]
    if not compatible(first, second):
        raise CannotRead("two different kinds of things")
    apart = bool(first.agent and second.agent) and not match(first.agent, second.agent)
    if apart and first.kind == second.kind and first.places == second.places:
        raise CannotRead("two people, not a change")
    if first.kind == second.kind and not second.thing.more:
        raise CannotRead("two amounts side by side, not a change")
    begun = direct(first, holders) or elsewhere(first, holders)
    way = direction(facts, second, holders)
    if begun < 0 and first.kind not in ("put", "process"):
        raise CannotRead("the story opens with a loss from an untold number")
    if ask.flags & START:
        raise CannotRead("asks for a start before the first event")
    if way > 0 and not second.thing.more:
        raise CannotRead("two amounts side by side, not a change")
    if ask.event and ask.kind != first.kind and not _ends(ask):
        raise CannotRead("asks for another change")
    name = NAMES[way]
    return solve(f"{name}-result-unknown", str(first.count), SIGN[way], str(second.count), "?")


def _asked_way(facts: list[Fact], ask: Fact, holders: list[Fact]) -> int:
    for fact in facts:
        if fact.event and fact.count is None and fact.lemma == ask.lemma:
            return direction(facts, fact, holders)
    return direction(facts, ask, holders)
