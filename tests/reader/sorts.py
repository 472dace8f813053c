"""Stories where each thing of a whole is one of two: of two sorts, or at one of two places."""

from .facts import STATES, Fact, Words
from .reading import END, START, Reading, match, solve
from .words import CannotRead


def one_of_two(sorts: list[Fact], known: list[Fact], ask: Fact) -> Reading:
    """The reading that asks for the other of two sorts or places.

    Raises CannotRead where one of them is not told and the other asked.
    """
    if len(sorts) != 1:
        raise CannotRead("the things are sorted twice")
    if any(f.flags & (START | END) for f in (*known, ask)):
        raise CannotRead("tells of a time before or after, not of two sorts")
    sort = sorts[0]
    if _spots(sort) and not sort.traits:
        return _one_of_two_places(sort, known, ask)
    kinds = sort.words - frozenset(sort.thing.words)
    asked = frozenset((*ask.thing.words, *ask.traits)) & kinds
    whole, part = known
    told = frozenset((*part.thing.words, *part.traits)) & kinds
    if frozenset((*whole.thing.words, *whole.traits)) & kinds:
        whole, part = part, whole
        told = frozenset((*part.thing.words, *part.traits)) & kinds
    named = frozenset((*whole.thing.words, *whole.traits)) & kinds
    if named or not asked - told or not told - asked or kinds - asked - told:
        raise CannotRead(f"one of {sorted(kinds)} is told, the other has to be asked")
    if whole.agent and ask.agent and whole.agent != ask.agent:
        raise CannotRead(f"tells about {whole.agent} and asks about {ask.agent}")
    return _rest(sort, whole, part)


def _rest(sort: Fact, whole: Fact, part: Fact) -> Reading:
    assert whole.count is not None and part.count is not None
    if whole.thing.head != sort.thing.head or part.count > whole.count:
        raise CannotRead("the whole and its sorts do not fit")
    return solve("part-unknown", str(part.count), "+", "?", str(whole.count))


def _one_of_two_places(sort: Fact, known: list[Fact], ask: Fact) -> Reading:
    places = _spots(sort)
    if len(places) != 2 or not _apart(*places):
        raise CannotRead(f"two places that can be told apart are needed, not {places}")
    wholes = [f for f in known if _side(f, places) is None]
    found = [f for f in known if _side(f, places) is not None]
    if len(wholes) != 1 or len(found) != 1:
        raise CannotRead(f"a whole and what is at one of {places} are needed")
    whole, part = wholes[0], found[0]
    if _side(ask, places) is None or _side(ask, places) == _side(part, places):
        raise CannotRead(f"one of {places} is told, the other has to be asked")
    if any(_near(w, p) for w in _spots(whole) for p in places):
        raise CannotRead("the place of the whole is one of its two places")
    for fact in (part, ask):
        _plain(fact, sort, whole, places)
    if not {whole.kind, sort.kind, part.kind, ask.kind} <= STATES:
        raise CannotRead("something happens between the whole and its two places")
    return _rest(sort, whole, part)


def _plain(fact: Fact, sort: Fact, whole: Fact, places: list[Words]) -> None:
    """Refuse what says more than how many of the whole are at one of the places."""
    thing = fact.thing
    if thing.more or fact.than or thing.rest or "not" in fact.flags or fact.traits:
        raise CannotRead("says more than how many are at the place")
    if thing.words and thing.words != whole.thing.words:
        raise CannotRead(f"the whole is of {whole.thing.words}, a part of {thing.words}")
    if fact.times - whole.times or fact.agent not in ((), whole.agent):
        raise CannotRead("another time or holder than that of the whole")
    if fact.preps - whole.preps - sort.preps:
        raise CannotRead(f"{sorted(fact.preps - sort.preps)} is not where each of them is")
    for spot in _spots(fact):
        if not any(_near(spot, p) for p in (*places, *_spots(whole))):
            raise CannotRead(f"asks or tells about {spot}, which is not told")


def _spots(fact: Fact) -> list[Words]:
    return [w for k, w in fact.places if k == "at" and w]


def _apart(one: Words, two: Words) -> bool:
    return bool(set(one) - set(two)) and bool(set(two) - set(one))


def _near(spot: Words, place: Words) -> bool:
    """True where both name the same place, one of them perhaps with fewer words."""
    return match(spot, place) and spot[-1] == place[-1]


def _side(fact: Fact, places: list[Words]) -> int | None:
    """Which of the two places the fact names; None where it names neither.

    Raises CannotRead where it may be either of them.
    """
    named = [n for n, p in enumerate(places) if any(_near(s, p) for s in _spots(fact))]
    if len(named) > 1:
        raise CannotRead(f"which of {places} is meant?")
    return named[0] if named else None
