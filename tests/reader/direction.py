"""Which way an event changes what the holders hold."""

from .facts import STATES, Fact, Words, effects
from .reading import match
from .words import CannotRead, wordset

CARRYING = wordset(
    "carry haul move push drag tow wheel lug cart lead herd guide chase row walk drive fly "
    "slide shift transfer"
)
SINKING = wordset("fall drop tumble plunge plop rain")
HIGH = wordset("sky air tree treetop branch roof rooftop tower cloud wire ceiling hilltop mountain")
OVERHEAD = frozenset(("over", "above"))
FASTENED = wordset(
    "tie glue pin tape sew hook clip stick screw stitch paste nail tack fasten attach button strap "
    "hang staple snap bolt hammer knot buckle"
)
FLAT = wordset("table desk shelf floor ground counter tray ledge bench chair bed mat rug path")
OUTDOORS = wordset(
    "yard backyard garden playground street porch beach path hill lawn terrace sidewalk"
)
THROWN = wordset("throw toss kick pitch fling hurl lob chuck hit roll bounce")
REWORKED = wordset("cook color stamp braid frost fill glaze boil roast fry grill toast light trim")
PICTURES = wordset("picture painting portrait poster sign card mural banner postcard scene")
CLOTHS = wordset("napkin towel shirt blanket sheet cloth sock scarf sweater chair map letter tent")
UNDER = frozenset(("under", "behind", "beneath", "below", "past"))
BESIDE = wordset("under beneath below near beside around behind")
TRADING = wordset("trade swap exchange")
POSITIONING = wordset(
    "lean rest stand line arrange sort stack pile park display spread center align position "
    "balance prop space"
)
LEAVING = ("arrive", "move", "put", "bring", "descend")
ALONG = frozenset(("along", "across", "over", "through", "past", "around", "down"))
LOWEST = wordset("ground floor grass dirt")
PASSING = wordset("give lose")
ADDING = wordset("put gain collect bring move process")


def direction(facts: list[Fact], event: Fact, holders: list[Fact]) -> int:
    """1 where the event adds to what the holders hold, -1 where it takes away.

    Raises CannotRead where the verb and its places do not say.
    """
    if _falls_beside(event, holders):
        return 1
    if event.thing.more == "more" and event.kind in ("depart", "vanish"):
        raise CannotRead(f"more of them {event.lemma!r}: more than which?")
    low = [w for h in holders for _, w in h.places if w and w[-1] in LOWEST]
    if event.lemma in ("fall", "drop") and low and not event.places:
        raise CannotRead(f"where do things fall from that are on the {low[0][-1]}?")
    if _passes_through(event, holders):
        raise CannotRead(f"do they {event.lemma!r} to the place, from it or along it?")
    if event.lemma in TRADING and "with" in event.preps:
        raise CannotRead(f"{event.lemma!r} with somebody: what comes back?")
    if event.lemma in POSITIONING and _only_moved(event, holders):
        raise CannotRead(f"does the owner still have what he {event.lemma!r}?")
    if _came_in_where(event, holders):
        raise CannotRead(f"they {event.lemma!r} in: into the house or to the others?")
    if event.lemma in THROWN and _thrown_where(event, holders):
        raise CannotRead(f"where does {event.lemma!r} bring them?")
    if event.kind == "descend" and event.lemma not in SINKING:
        return _down(event, holders)
    if event.lemma == "open" and any(h.words & {"closed", "shut"} for h in holders):
        return -1
    chain = [event] + [f for f in facts if f.same_as is not None and f.same_as == event.order]
    ways = [direct(one, holders) for one in chain]
    passed = [w for w, one in zip(ways, chain, strict=True) if w < 0 and one.kind in PASSING]
    if ways[0] > 0 and passed:
        if event.kind == "remove":
            return -1
        raise CannotRead(f"what {event.lemma!r} brings goes again at once")
    for way in ways:
        if way:
            return way
    for one in chain:
        way = elsewhere(one, holders)
        if way:
            return way
    raise CannotRead(f"which way does {event.lemma!r} change what is counted?")


def _falls_beside(event: Fact, holders: list[Fact]) -> bool:
    """True where things fall down under or near a thing, and are counted there.

    Raises CannotRead where some are counted on that thing, or fall from the thing they are under.
    """
    where = event.preps & BESIDE
    if event.lemma not in SINKING:
        return False
    sources = [w for k, w in event.places if k == "from" and w]
    below = [s for h in holders if h is not event and h.preps & BESIDE for s in _spots([h])]
    if not where and any(match(w, s) for w in sources for s in below):
        raise CannotRead(f"do they {event.lemma!r} from the {sources[0][-1]} to where they are?")
    if not where:
        return False
    named = [w for k, w in event.places if k == "at" and w]
    there = [
        h.preps
        for h in holders
        if h is not event and any(match(w, s) for w in named for s in _spots([h]))
    ]
    if any(not where & preps for preps in there):
        raise CannotRead(f"they {event.lemma!r} {min(where)} it, and are counted elsewhere")
    return bool(there)


def _passes_through(event: Fact, holders: list[Fact]) -> bool:
    """True for a way along the very place where things are counted."""
    if event.kind not in ("move", "arrive", "pass", "depart") or event.thing.more:
        return False
    if "up" in event.particles and any(h.preps & OVERHEAD for h in holders):
        return False
    hidden = event.preps & UNDER and not any(event.preps & h.preps for h in holders)
    if not (event.preps & ALONG or hidden) or any(k == "to" for k, _ in event.places):
        return False
    return any(match(w, s) for _, w in event.places for s in _spots(holders))


def _reworked(event: Fact) -> bool:
    """True where the verb may work on things that were there before ("painted 4 pots")."""
    if event.lemma == "paint":
        return event.thing.head not in PICTURES
    return event.lemma in REWORKED or (event.lemma == "fold" and event.thing.head in CLOTHS)


def _only_moved(event: Fact, holders: list[Fact]) -> bool:
    """True where an owner sets things somewhere, and nothing says what is asked is left."""
    if event.thing.more or _spots(holders) or any(h.flags & {"left", "still"} for h in holders):
        return False
    return any(h.kind == "have" and match(event.agent, h.agent) for h in holders)


def _came_in_where(event: Fact, holders: list[Fact]) -> bool:
    """True where "in" may lead away from the open-air place where things are counted."""
    told = any(w for _, w in event.places)
    if "in" not in event.particles or told or event.thing.more or event.kind == "put":
        return False
    return any(w[-1] in OUTDOORS for w in _spots(holders))


def _thrown_where(event: Fact, holders: list[Fact]) -> bool:
    """True where something is thrown that lies at a place, and nothing says where to."""
    if event.places or event.particles or event.recipient or event.thing.more:
        return False
    return bool(_spots(holders)) and not any(match(event.agent, h.agent) for h in holders)


def _spots(holders: list[Fact]) -> list[Words]:
    return [w for h in holders for k, w in h.places if w and k in ("at", "to")]


def _down(event: Fact, holders: list[Fact]) -> int:
    """The change by what comes down: toward low places, away from high ones."""
    spots = _spots(holders)
    for kind, where in event.places:
        if any(match(where, s) for s in spots):
            return -1 if kind == "from" else 1
    low = any(w[-1] in LOWEST for w in spots)
    if any(k == "from" for k, _ in event.places):
        way = 1 if low else 0
    elif event.thing.more or low or not spots:
        way = 0
    elif any(k in ("to", "at") for k, _ in event.places):
        way = -1
    else:
        overhead = any(h.preps & OVERHEAD for h in holders)
        way = -1 if overhead or any(w[-1] in HIGH for w in spots) else 0
    if not way:
        raise CannotRead(f"where do things {event.lemma!r} down from, and where to?")
    return way


def direct(event: Fact, holders: list[Fact]) -> int:
    effect = effects(event.kind)
    own = any(match(event.agent, h.agent) for h in holders)
    for holder in holders:
        spots = [
            w
            for k, w in holder.places
            if w and (k == "at" or (k == "to" and w[0] in ("inside", "outside")))
        ]
        if holder.kind == "have" and holder.agent:
            spots.append(holder.agent)
        for kind, where in event.places:
            if kind == "any" and holder.places and holder.kind in STATES:
                return effect.get("at", 0)
            if kind == "at" and own and event.kind in ("gain", "collect", "remove"):
                continue
            here = holder is not event and any(match(where, spot) for spot in spots)
            if here and effect.get(kind):
                return effect[kind]
    for holder in holders:
        if holder.agent and match(event.recipient, holder.agent):
            return effect.get("to", 1)
        if holder.agent and match(event.agent, holder.agent):
            way = effect.get("agent", 0)
            worked = event.kind == "process" or _reworked(event)
            if worked and holder.kind == "have" and not event.thing.more:
                return 0
            if way < 0 and event.kind == "put" and event.thing.more:
                return 0 if _elsewhere_put(event, holders) else 1
            if event.kind == "put" and any(p in ("in", "on") for p in event.particles):
                if event.lemma in FASTENED and any(w[-1] in FLAT for w in _spots(holders)):
                    return 0
                return 1 if any(k == "at" for h in holders for k, _ in h.places) else 0
            if event.kind == "remove" and any(k == "to" for k, _ in event.places):
                return -1
            if event.kind == "remove" and event.thing.more == "more" and holder.kind == "have":
                return 1
            fresh = "from-a" in event.preps and holder.kind == "have" and not _spots(holders)
            if event.kind == "remove" and fresh and event.same_as is None:
                return 1
            if event.kind == "remove" and _another_place(event, holders):
                return 0
            if event.kind == "remove" and any(p in ("out", "off") for p in event.particles):
                return -1
            if way:
                return way
    return 0


def elsewhere(event: Fact, holders: list[Fact]) -> int:
    effect = effects(event.kind)
    more = event.thing.more == "more"
    if event.kind == "make" and _reworked(event) and not more:
        return 0
    if _another_place(event, holders):
        away = event.lemma in CARRYING and any(k == "to" for k, _ in event.places)
        rest = event.kind in LEAVING and any(h.flags & {"left", "still"} for h in holders)
        return -1 if (away or rest) and not more else 0
    owners: list[Words] = [h.agent for h in holders if h.agent]
    keeps = any(match(o, w) for o in owners for w in _spots(holders))
    if event.kind == "put" and "in" in event.particles and keeps and not event.places:
        return 1
    if event.agent and owners and not any(match(event.agent, o) for o in owners):
        apart = event.named and all(h.named for h in holders if h.agent)
        taking = event.kind in ("collect", "remove", "lose", "vanish") and not more
        bringing = event.kind == "bring" or (more and event.kind in ("make", "put"))
        if event.recipient or (apart and not event.thing.part):
            return 0
        if bringing:
            return 1
        if not (taking or event.thing.part):
            return 0
    if event.kind == "descend" and more:
        return 0
    if event.thing.part and event.kind in ("put", "gain", "arrive", "move", "appear"):
        return -1
    if event.kind in ADDING and more:
        return 0 if event.kind == "put" and _elsewhere_put(event, holders) else 1
    if event.kind == "move":
        placed = any(k in ("at", "to") for h in holders for k, _ in h.places)
        kinds = {k for k, _ in event.places}
        if "from" in kinds:
            return 0 if placed else -1
        return -1 if "to" in kinds and placed else 0
    if event.kind == "put" and "in" in event.particles:
        return 1
    if event.kind == "put" and "on" in event.particles:
        spots = _spots(holders)
        fastened = event.lemma in FASTENED and bool(spots) and not event.places
        flat = any(w[-1] in FLAT for w in spots) or not any("on" in h.preps for h in holders)
        return 1 if fastened and not flat else 0
    return effect.get("elsewhere", 0)


def _elsewhere_put(event: Fact, holders: list[Fact]) -> bool:
    """True where somebody who has things puts more of them on a thing told of for once."""
    told = any(k in ("to", "at") and w for k, w in event.places)
    return told and any(h.kind == "have" for h in holders) and not _spots(holders)


def _another_place(event: Fact, holders: list[Fact]) -> bool:
    """True where the event names a place, and it is not where the counted things are."""
    placed = [w for h in holders for k, w in h.places if k in ("at", "to") and w]
    placed += [h.agent for h in holders if h.kind == "have" and h.agent and not h.named]
    told = [(k, w) for k, w in event.places if w and w not in event.scene]
    boarding = event.kind in ("arrive", "depart")
    if boarding and event.preps == {"at"} and set(event.particles) & {"on", "off", "aboard"}:
        told = []
    if not placed or any(match(w, p) for _, w in told for p in placed):
        return False
    if any(k == "from" for k, _ in told):
        return event.kind in ("depart", "remove", "lose", "give", "vanish", "collect")
    into = ("arrive", "appear", "make", "bring", "put")
    return event.kind in into and any(k in ("to", "at") for k, _ in told)
