"""What one clause says: a fact about a counted thing, its holder, place, time and verb."""

from dataclasses import dataclass, field

from .lexicon import EFFECTS, PHRASES, verb
from .phrases import Phrase
from .words import CannotRead, wordset

Words = tuple[str, ...]
DIRECTED = {
    **dict.fromkeys(("away", "off", "out", "home", "past"), "depart"),
    **dict.fromkeys(("in", "up", "over", "by", "along", "here", "on", "aboard"), "arrive"),
    "back": "arrive",
}
FASTENING = wordset("sew stitch weave string thread braid knot")
WET = wordset("footprint puddle drop raindrop spot splash pawprint print")
SCENES = wordset(
    "bus train ferry ship boat plane porch beach bench couch sofa floor deck playground trip "
    "room kitchen house home school class park yard garden"
)
STATES = frozenset(("have", "be", "perceive", "stand", "act"))


@dataclass(frozen=True, slots=True)
class Than:
    """The second side of a comparison: which slot it replaces and its words."""

    slot: str
    words: frozenset[str]
    shared: frozenset[str] = frozenset()
    place: Words = ()


@dataclass(slots=True)
class Clause:
    """The slots of one clause as they are filled."""

    subject: Phrase | None = None
    there: bool = False
    lemma: str = ""
    use: str = ""
    copula: bool = False
    passive: bool = False
    modal: str = ""
    goal: str = ""
    objects: list[tuple[Phrase, list[tuple[str, Words]]]] = field(default_factory=list)
    places: list[tuple[str, Words]] = field(default_factory=list)
    particles: list[str] = field(default_factory=list)
    raw: list[str] = field(default_factory=list)
    preps: set[str] = field(default_factory=set)
    traits: list[str] = field(default_factory=list)
    leading: list[tuple[str, Words]] = field(default_factory=list)
    names: list[Phrase] = field(default_factory=list)
    times: list[Words] = field(default_factory=list)
    flags: set[str] = field(default_factory=set)
    than: Than | None = None
    link: str = ""
    asked: Phrase | None = None
    whole: Phrase | None = None
    progressive: bool = False
    sentence: int = 0


@dataclass(frozen=True, slots=True)
class Fact:
    """One counted thing in one clause."""

    order: int
    sentence: int
    kind: str
    lemma: str
    thing: Phrase
    agent: Words
    agents: tuple[Words, ...]
    recipient: Words
    places: tuple[tuple[str, Words], ...]
    traits: Words
    times: frozenset[str]
    flags: frozenset[str]
    than: Than | None
    that: bool = False
    particles: tuple[str, ...] = ()
    same_as: int | None = None
    group: bool = False
    named: bool = False
    borrowed: bool = False
    scene: frozenset[Words] = frozenset()
    preps: frozenset[str] = frozenset()
    modal: str = ""

    @property
    def count(self) -> int | None:
        """The number told, None where none is."""
        return self.thing.count

    @property
    def words(self) -> frozenset[str]:
        """Every content word of the fact, for telling facts apart."""
        found = set(self.thing.words) | set(self.agent) | set(self.traits) | self.times
        for one in self.agents:
            found.update(one)
        for _, place in self.places:
            found.update(place)
        found.update(self.recipient)
        return frozenset(found)

    @property
    def modal_need(self) -> bool:
        """True where the clause says what has still to be done."""
        return self.modal in ("must", "should", "will")

    @property
    def event(self) -> bool:
        """True where the clause tells of a change or of something done."""
        return self.kind not in STATES and self.kind not in ("goal", "path")


def kind_of(clause: Clause, thing: Phrase, subject_counts: bool) -> str:
    """The class of the clause's verb in this use.

    Raises CannotRead where the list has no such use of the verb.
    """
    if clause.goal:
        return "goal"
    if "with" in clause.flags:
        return "have"
    if clause.copula or clause.there:
        return "be"
    found = verb(clause.lemma)
    if found is None:
        raise CannotRead(f"unknown verb {clause.lemma!r}")
    if subject_counts and not clause.passive:
        return _thing_kind(clause, thing)
    for particle in (*clause.particles, *(r for r in clause.raw if r in ("off", "out"))):
        special = PHRASES["object"].get(f"{clause.lemma} {particle}")
        if special:
            return special
    if found.object_class is None:
        if found.thing_class in ("move", "act", "stand"):
            return "process"
        raise CannotRead(f"what does {clause.lemma!r} do to {thing.head!r}?")
    base = found.object_class
    if clause.lemma == "dry" and thing.head in WET:
        return "lose"
    if clause.lemma in FASTENING and _fastened(clause):
        return "put"
    if clause.lemma == "carry" and any(
        k in ("to", "from") for k, _ in (*clause.places, *(e for _, o in clause.objects for e in o))
    ):
        return "bring"
    if "away" in clause.particles and base not in ("put", "process", "bring"):
        return "lose"
    if "out" in clause.particles and base in ("give", "lose"):
        return "lose"
    moving = ("lose", "give", "remove", "gain", "collect", "bring")
    if clause.passive and base not in moving and not thing.more and "then" not in clause.flags:
        return "be"
    return base


def _fastened(clause: Clause) -> bool:
    """True where what is sewn or strung goes onto something that is not just the scene."""
    spots = (*clause.places, *(e for _, o in clause.objects for e in o))
    onto = any(r in ("on", "onto", "to", "into", "around") for r in clause.raw)
    return onto and not any(w and w[-1] in SCENES for _, w in spots)


def _thing_kind(clause: Clause, thing: Phrase) -> str:
    found = verb(clause.lemma)
    assert found is not None
    raw = [r for r in clause.raw if r in ("on", "off", "in", "out", "onto", "into", "upon", "to")]
    for particle in (*clause.particles, *raw):
        special = PHRASES["thing"].get(f"{clause.lemma} {particle}")
        if special:
            return special
    base = found.thing_class or ("act" if found.object_class else None)
    if base is None:
        raise CannotRead(f"what does {thing.head!r} do in {clause.lemma!r}?")
    if base in ("move", "act", "stand", "appear", "vanish") and clause.particles:
        turned = DIRECTED.get(clause.particles[0])
        if turned == "arrive" and any(p == "to" for p, _ in clause.places):
            return "move"
        if turned and base in ("move", "act"):
            return turned
        if turned and base == "stand":
            return "arrive" if turned == "arrive" else "depart"
    if base in ("appear", "vanish") and clause.progressive and not thing.more:
        return "stand"
    if base == "move":
        path = any(p in ("to", "from") for p, _ in clause.places)
        if not path and not thing.more:
            return "stand" if "then" not in clause.flags else "move"
    if base in ("stand", "act") and thing.more == "more" and clause.than is None:
        return "arrive" if not clause.flags & {"now", "§end"} else base
    return base


def effects(kind: str) -> dict[str, int]:
    """What an event of this class does to each party, from the verb list."""
    return EFFECTS.get(kind, {})
