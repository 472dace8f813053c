"""The people, things and places a story has named so far."""

from dataclasses import dataclass, field

from .facts import Clause, Fact, Words
from .phrases import Phrase
from .words import CannotRead


@dataclass(slots=True)
class Memory:
    """The people and things met so far, for pronouns and left-out nouns."""

    names: list[Words] = field(default_factory=list)
    others: list[Words] = field(default_factory=list)
    places: list[Words] = field(default_factory=list)
    objects: list[Words] = field(default_factory=list)
    leading: list[tuple[str, Words]] = field(default_factory=list)
    groups: list[tuple[Words, ...]] = field(default_factory=list)
    facts: list[Fact] = field(default_factory=list)
    subject: Words = ()
    kin: bool = False
    sentence: int = -1
    noun: Phrase = field(default_factory=Phrase)

    def meet(self, found: Phrase) -> None:
        """Keep a person or thing as a candidate for a pronoun."""
        if not found.words or found.counted:
            return
        if found.owner:
            owners = self.names if found.name else self.others
            if found.owner not in owners:
                owners.append(found.owner)
            if not found.proper:
                self.objects.append(found.words)
        kept = self.names if found.proper else self.others
        if not found.possessed and found.words not in kept:
            kept.append(found.words)

    def person(self, clause: Clause, alone: Words = ()) -> Words:
        """Who he, she, him or her is. Raises CannotRead unless one candidate exists."""
        joined = clause.link in ("and", "but", ",", "so", "main", "before", "after", "because")
        same = self.sentence == clause.sentence and not self.kin
        if not alone and joined and same and self.subject:
            return self.subject
        here = [p.words for p in (*clause.names, *(p for p, _ in clause.objects)) if p.name]
        barred = [alone, *here]
        found = [n for n in self.names if n not in barred] or [
            n
            for n in self.others
            if n not in barred and n not in self.places and n not in self.objects
        ]
        if len(found) != 1:
            raise CannotRead(f"a pronoun has {len(found)} candidates")
        return found[0]

    def group(self) -> tuple[Words, ...]:
        """Who they are. Raises CannotRead where no two people were named."""
        if self.groups:
            return self.groups[-1]
        if len(self.names) >= 2:
            return tuple(self.names[:2])
        people = [*self.names]
        for fact in self.facts:
            if fact.agent and fact.agent not in people:
                people.append(fact.agent)
        return tuple(people[:2])
