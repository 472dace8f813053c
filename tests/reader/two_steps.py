"""Stories of two steps: the first two numbers make a third that is not told, and so on from it.

The first step is read as a story of its own, with a question put to it: how many are there now?
Then its answer takes the place of its numbers, and the rest of the story is read from there.
"""

from dataclasses import dataclass, replace

from . import decide, told
from .facts import Fact
from .parts import parts
from .phrases import Phrase
from .reading import Reading, match, numbered
from .words import CannotRead
from .world import change


@dataclass(frozen=True)
class TwoSteps:
    """The readings of both steps; the answer of the first is the number between them."""

    first: Reading
    then: Reading

    @property
    def hidden(self) -> int:
        """The number between the steps."""
        assert isinstance(self.first.answer, int)
        return self.first.answer


def read_two_steps(text: str) -> TwoSteps:
    """What a story of two steps tells and asks. Raises CannotRead with the reason."""
    facts, asks, _ = told(text)
    known = [fact for fact in numbered(facts) if fact.thing.digits]
    if len(known) != 3:
        raise CannotRead(f"{len(known)} numbers told, two steps need three")
    if len(asks) != 1:
        raise CannotRead("two steps end in one question")
    one, two, _ = known
    early = [fact for fact in facts if fact.order <= two.order]
    late = [fact for fact in facts if fact.order > two.order]
    noun = _noun(one, two, [*late, asks[0][1]])
    whole = replace(
        one,
        thing=noun,
        traits=(),
        places=tuple(dict.fromkeys((*one.places, *two.places)))
        if one.kind == two.kind
        else one.places,
    )
    ask = replace(
        whole,
        thing=replace(noun, vague=True, plural=True),
        flags=frozenset({"now"}) if two.event else frozenset({"§total"}),
        order=two.order + 1,
    )
    first = change(early, ask) if two.event else _whole(early, one, two, ask)
    if not first.equation.endswith("= ?"):
        raise CannotRead(f"the first step asks for no result: {first.equation}")
    assert isinstance(first.answer, int)
    between = replace(
        whole,
        thing=replace(noun, count=first.answer, digits=True, vague=False),
        flags=frozenset(),
        order=two.order,
        sentence=two.sentence,
    )
    late = [_again(fact, two) for fact in late]
    try:
        return TwoSteps(first, decide([between, *late], asks))
    except CannotRead:
        timeless = [_timeless(fact, between) for fact in late]
        if timeless == late:
            raise
        return TwoSteps(first, decide([between, *timeless], asks))


def _again(fact: Fact, before: Fact) -> Fact:
    """What happens once more, "2 more", happens to as many others, the same way as before."""
    same = before.event and fact.lemma == before.lemma and fact.kind == before.kind
    return replace(fact, thing=replace(fact.thing, more="")) if same and fact.count else fact


def _timeless(fact: Fact, between: Fact) -> Fact:
    """What another person has now stands beside what there is, and is no later state of it."""
    other = fact.kind == "have" and fact.agent and fact.agent != between.agent
    return replace(fact, flags=fact.flags - {"now"}) if other else fact


def _whole(early: list[Fact], one: Fact, two: Fact, ask: Fact) -> Reading:
    if one.agent != two.agent or not _together(one, two):
        raise CannotRead("two amounts of two holders, and nobody has put them together")
    return parts(early, ask)


def _together(one: Fact, two: Fact) -> bool:
    first, second = ([w for k, w in fact.places if k == "at"] for fact in (one, two))
    if not first or not second:
        return True
    return any(match(a, b) for a in first for b in second)


def _noun(one: Fact, two: Fact, later: list[Fact]) -> Phrase:
    """The thing counted in both: what they share, or the word that covers both later on."""
    if one.thing.head == two.thing.head or not two.thing.words:
        shared = tuple(w for w in one.thing.words if w in two.thing.words or not two.thing.words)
        return replace(one.thing, words=shared or one.thing.words, count=None, digits=False)
    for fact in later:
        if fact.thing.words and fact.thing.head not in (one.thing.head, two.thing.head):
            return replace(
                fact.thing, count=None, digits=False, more="", vague=False, part=False, rest=False
            )
    raise CannotRead(f"nothing covers {one.thing.head} and {two.thing.head}")
