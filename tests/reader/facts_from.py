"""Clauses into facts: who the pronouns are, what is counted, who gets it."""

from dataclasses import replace

from .facts import Clause, Fact, Than, Words, kind_of
from .lexicon import verb
from .memory import Memory
from .phrases import Phrase
from .words import CannotRead

SINGULAR = frozenset(("he", "she", "him", "her"))
LEFT = frozenset(("that", "this", "it", "which"))
GROUP = frozenset(("they", "we", "them", "us"))


def facts_of(clause: Clause, memory: Memory) -> list[Fact]:
    """The facts a clause tells (or asks), with pronouns resolved. Raises CannotRead."""
    agent, agents = _agent(clause, memory)
    subject = clause.subject
    for found in (*(p for p, _ in clause.objects), *clause.names):
        if found.name:
            memory.meet(found)
        elif found.determined and not found.counted and found.words:
            memory.meet(found)
            memory.objects.append(found.words)
    if memory.sentence == clause.sentence and clause.link in ("and", "but", ","):
        clause.places.extend(p for p in memory.leading if p not in clause.places)
    else:
        memory.leading = clause.leading
    counted = [(p, w) for p, w in clause.objects if _counts(p, clause)]
    first: list[Fact] = []
    if clause.whole is not None:
        memory.noun = clause.whole
        first = [_one(clause, memory, clause.whole, [], (), (), "be", ())]
        first = [
            replace(
                first[0],
                thing=clause.whole,
                traits=(),
                flags=frozenset(),
                places=tuple(clause.leading),
            )
        ]
        memory.facts.extend(first)
    if (
        subject is not None
        and (subject.counted or subject.each)
        and not any(p.count is not None and p.digits for p, _ in counted)
    ):
        made = [_thing_fact(clause, memory, subject)]
    elif "listed" in clause.flags:
        made = [_one(clause, memory, p, w, (), (), "", ()) for p, w in clause.objects]
    elif counted:
        made = _object_facts(clause, memory, counted, agent, agents)
    else:
        made = _them(clause, memory, agent)
    for kind, words in (*clause.places, *(pl for _, e in clause.objects for pl in e)):
        if kind != "time" and words and words not in memory.places and words[0][0] != "§":
            memory.places.append(words)
    if clause.asked is None:
        memory.facts.extend(made)
    memory.sentence = clause.sentence
    memory.subject = agent
    memory.kin = subject is not None and subject.possessed
    return first + made


def _counts(found: Phrase, clause: Clause) -> bool:
    return found.counted or (
        found.plural and not found.determined and not found.name and not found.pronoun
    )


def _agent(clause: Clause, memory: Memory) -> tuple[Words, tuple[Words, ...]]:
    subject = clause.subject
    if subject is None:
        inherits = not clause.there and "listed" not in clause.flags and clause.asked is None
        return (memory.subject if inherits else ()), ()
    low = subject.pronoun
    if subject.joined:
        parts = tuple(p.words if p.words else _one_of(p, clause, memory) for p in subject.joined)
        for p in subject.joined:
            memory.meet(p)
        memory.groups.append(parts)
        return tuple(w for p in parts for w in p), parts
    if low in SINGULAR:
        return memory.person(clause), ()
    if low in GROUP:
        parts = memory.group()
        return tuple(w for p in parts for w in p), parts
    if low == "it":
        found = memory.others or memory.places
        return (found[-1] if found else ("it",)), ()
    if low:
        return (low,), ()
    if not subject.counted and not subject.each:
        memory.meet(subject)
    return subject.words, ()


def _one_of(found: Phrase, clause: Clause, memory: Memory) -> Words:
    return memory.person(clause) if found.pronoun in SINGULAR else (found.pronoun,)


def _named(memory: Memory, clause: Clause, agent: Words, words: Words) -> Words:
    """The words of a place, its pronoun resolved."""
    if words and words[0][0] == "§":
        low = words[0][1:]
        if low in SINGULAR:
            return memory.person(clause, agent)
        if low == "it" and agent in memory.others:
            return agent
        if low == "it":
            return (memory.others or memory.places or [()])[-1]
        return ()
    return words


def _thing_fact(clause: Clause, memory: Memory, subject: Phrase) -> Fact:
    traits = [w for p, _ in clause.objects for w in p.words]
    places = [pl for _, extra in clause.objects for pl in extra]
    kind = kind_of(clause, subject, True) if not clause.passive else kind_of(clause, subject, False)
    if kind in ("arrive", "depart", "move") and clause.objects:
        first = clause.objects[0][0].words
        places.append(("to" if kind == "arrive" else "from", first))
    return _one(clause, memory, subject, places, (), (), kind, tuple(traits))


def _object_facts(
    clause: Clause,
    memory: Memory,
    counted: list[tuple[Phrase, list[tuple[str, Words]]]],
    agent: Words,
    agents: tuple[Words, ...],
) -> list[Fact]:
    recipient: Words = ()
    loose: list[tuple[str, Words]] = []
    traits: list[str] = []
    for found, extra in clause.objects:
        if any(found is c for c, _ in counted):
            continue
        loose.extend(extra)
        if found.pronoun in SINGULAR:
            recipient = memory.person(clause, agent)
        elif found.pronoun in ("them", "us"):
            recipient = tuple(w for p in memory.group() for w in p)
        elif found.name or clause.lemma in (
            "give",
            "hand",
            "lend",
            "send",
            "bring",
            "feed",
            "mail",
            "pass",
            "offer",
            "leave",
            "sell",
            "toss",
        ):
            recipient = found.words
        else:
            traits.extend(found.words)
    given = verb(clause.lemma)
    if clause.passive and given is not None and given.object_class == "give" and not recipient:
        agent, recipient = (), agent
    shared = list(counted[-1][1]) if not any(e for _, e in counted[:-1]) else []
    made = []
    for n, (found, extra) in enumerate(counted):
        kind = kind_of(clause, found, False)
        own = list(extra) if extra or n == len(counted) - 1 else shared
        subject = clause.subject
        resulting = clause.lemma in ("leave", "make", "give", "bring")
        if resulting and subject is not None and subject.pronoun in LEFT:
            kind = "have" if recipient else "be"
            clause.flags.add("§end")
            agent, recipient = recipient, ()
        made.append(
            _one(clause, memory, found, own + loose, agent, agents, kind, tuple(traits), recipient)
        )
    return made


def _one(
    clause: Clause,
    memory: Memory,
    thing: Phrase,
    extra: list[tuple[str, Words]],
    agent: Words,
    agents: tuple[Words, ...],
    kind: str,
    traits: Words,
    recipient: Words = (),
) -> Fact:
    kind = kind or kind_of(clause, thing, True)
    borrowed = False
    if "of-lead" in clause.flags:
        thing = replace(thing, part=True)
    if thing.pronoun or (not thing.words and thing.counted) or thing.words == ("one",):
        words = (memory.noun.head,) if thing.rest and memory.noun.head else memory.noun.words
        thing = replace(thing, words=words, head=memory.noun.head)
        borrowed = True
    elif thing.counted and (clause.asked is None or thing.words):
        memory.noun = thing
    that = clause.subject is not None and clause.subject.pronoun in ("that", "this", "which")
    that = that or clause.link == "which"
    spots = (*clause.places, *extra)
    places = tuple(
        ("any", ()) if w in (("§them",), ("§these",)) else (k, _named(memory, clause, agent, w))
        for k, w in spots
        if k != "time"
    )
    times = frozenset(w for t in clause.times for w in t)
    times |= frozenset(w for k, t in spots if k == "time" for w in t)
    times |= clause.flags & {"today", "yesterday", "tonight"}
    own = () if that else agent
    return Fact(
        order=len(memory.facts),
        sentence=clause.sentence,
        kind=kind,
        lemma=clause.lemma,
        thing=thing,
        agent=own,
        agents=agents,
        recipient=recipient,
        places=places,
        traits=(*clause.traits, *traits),
        times=times,
        flags=frozenset(clause.flags),
        than=_side(clause, memory, agent),
        that=that,
        particles=tuple(clause.particles),
        scene=frozenset(w for _, w in clause.leading),
        preps=frozenset(clause.preps),
        borrowed=borrowed,
        group=bool(agents) or (clause.subject is not None and clause.subject.plural),
        named=clause.subject is not None and clause.subject.name,
        modal=clause.modal,
    )


def _side(clause: Clause, memory: Memory, agent: Words) -> Than | None:
    than = clause.than
    if than is not None and any(w[0] == "§" for w in than.words):
        words = memory.person(clause, agent or ("",))
        return replace(than, words=frozenset(words))
    return than


def _them(clause: Clause, memory: Memory, agent: Words) -> list[Fact]:
    """A clause that carries on with the things of the fact before it ("drops them in the jar")."""
    carried = any(p.pronoun in ("them", "it", "these") for p, _ in clause.objects)
    if not carried or not memory.facts or clause.asked is not None:
        return []
    last = memory.facts[-1]
    extra = [pl for _, e in clause.objects for pl in e]
    try:
        kind = kind_of(clause, last.thing, False)
    except CannotRead:
        return []
    made = _one(clause, memory, last.thing, extra, agent, (), kind, ())
    return [replace(made, same_as=last.order, order=len(memory.facts))]
