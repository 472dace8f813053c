"""Words of places and holders kept apart from the same words of counted things.

"7 big turtles on a big log" tells of big turtles; the log being big says nothing about them.
"""

from dataclasses import replace

from .facts import Fact, Than, Words

MOVING = ("to", "from", "at")


def keep_apart(facts: list[Fact], asks: list[Fact]) -> tuple[list[Fact], list[Fact]]:
    """The same facts; a word that describes a place and also a thing counts as two words."""
    every = [*facts, *asks]
    things = {w for f in every for w in (*f.thing.words, *f.traits)}
    spots = [*(w for f in every for w in _spots(f)), *(_said(f) for f in every)]
    shared = frozenset(w for words in spots for w in words[:-1]) & things
    if not shared:
        return facts, asks
    return [_marked(f, shared) for f in facts], [_marked(f, shared) for f in asks]


def _spots(fact: Fact) -> list[Words]:
    held = (fact.agent, fact.recipient, *fact.agents)
    return [*(w for k, w in fact.places if k in MOVING), *(w for w in held if not fact.named)]


def _said(fact: Fact) -> Words:
    than = fact.than
    return than.place if than is not None and than.slot in ("place", "subject") else ()


def _mark(words: Words, shared: frozenset[str]) -> Words:
    return (*(w + "@" if w in shared else w for w in words[:-1]), *words[-1:])


def _than(than: Than | None, shared: frozenset[str], holder: bool) -> Than | None:
    if than is None:
        return None
    words = than.words
    if than.slot == "place" or (than.slot == "subject" and holder):
        told = set(_mark(than.place, shared)) - set(than.place)
        plain = {w[:-1] for w in told} - set(than.place[-1:])
        words = frozenset((words - plain) | told)
    rest = frozenset(w + "@" if w in shared else w for w in than.shared)
    return replace(than, words=words, shared=rest)


def _marked(fact: Fact, shared: frozenset[str]) -> Fact:
    return replace(
        fact,
        agent=_mark(fact.agent, shared),
        agents=tuple(_mark(a, shared) for a in fact.agents),
        recipient=_mark(fact.recipient, shared),
        places=tuple((k, _mark(w, shared) if k in MOVING else w) for k, w in fact.places),
        scene=frozenset(_mark(w, shared) for w in fact.scene),
        than=_than(fact.than, shared, bool(fact.agent)),
    )
