"""Deals people to the problems of a set: by keyed order, so the same seed gives the same."""

from dataclasses import replace
from functools import cached_property

from storybank.errors import NamesError
from storybank.luck import digest
from storybank.people.lists import own_list
from storybank.people.roster import Person, Roster
from storybank.people.rounds import Rounds

MAX_PEOPLE = 2
_ANY_LENGTH = 10_000
_PRONOUNS = frozenset({"He", "She"})
"""Names beside which a pronoun could be taken for the child: there names are said again."""

Pair = tuple[Person, Person | None]


class Dealer:
    """Deals the persons of one roster to the problems of one set.

    From a list of names, the people of problem i depend only on seed, i, how many are asked
    for and how long a name may be, so a change in one problem moves nobody else; one person is
    the first of the two that would be dealt; the two have different initials. While all
    problems ask for equally many people, no name comes back before every short enough one is
    used; with one and two mixed, none comes back in half as many problems as there are names.

    From a class list the children follow one another in rounds, in an order drawn per round:
    each appears before one appears twice, and different initials only where that costs
    nobody a turn. Two of one name never meet.
    """

    def __init__(self, roster: Roster, seed: int | str) -> None:
        """A dealer for `roster`; the same `seed` deals the same people again."""
        self.roster = roster
        self.seed = seed
        self._passes: dict[tuple[int, int], tuple[Pair, ...]] = {}
        self._rounds = Rounds(roster.people, f"{seed}")
        self._dealt: dict[int, tuple[Person, ...]] = {}
        self._borrowed = False

    @property
    def notes(self) -> tuple[str, ...]:
        """What has to be said about the people dealt so far, beyond the roster's own notes."""
        if not self._borrowed:
            return ()
        why = "one name only" if self.roster.class_list else "names of one initial only"
        return (
            f"{self.roster.id} holds {why}: the second person of a problem is from "
            "Storybank's own list.",
        )

    def turns(self, max_letters: int | None = None) -> int:
        """How many problems pass before every name of a list was dealt to both places of a pair.

        Raises NamesError if the list has no name that is short enough.
        """
        return 2 * len(self._pass(0, _ANY_LENGTH if max_letters is None else max_letters))

    def deal(self, index: int, count: int, max_letters: int | None = None) -> tuple[Person, ...]:
        """The `count` (0 to 2) people of problem `index`, each of at most `max_letters`.

        A class list is dealt in the order of the problems, and its names may be of any length;
        asking again for a problem gives its people again, and asking for another count of them
        takes back what later problems were dealt. Raises NamesError if the list has no name
        that is short enough, ValueError for another count or a negative index.
        """
        if not 0 <= count <= MAX_PEOPLE or index < 0:
            raise ValueError(f"{count} people for problem {index}; a problem has 0 to 2.")
        if count == 0:
            return ()
        limit = _ANY_LENGTH if max_letters is None else max_letters
        if self.roster.class_list:
            people = self._children(index, count)
        else:
            people = self._named(index, count, limit)
        if len(people) < count:
            people = (*people, self._companion(index, people, limit))
        if any(one.name in _PRONOUNS for one in people):
            return tuple([replace(one, pronoun=None) for one in people])
        return people

    def _named(self, index: int, count: int, limit: int) -> tuple[Person, ...]:
        turn, place = divmod(index, len(self._pass(0, limit)))
        first, second = self._pass(turn // 2, limit)[place]
        if second is None:
            return (first,)
        pair = (second, first) if turn % 2 else (first, second)
        return pair[:count]

    def _pass(self, number: int, limit: int) -> tuple[Pair, ...]:
        """Pairs in which every short enough name stands; as many pairs in every pass.

        A pass is dealt twice, the second time with first and second person swapped.
        """
        key = (number, limit)
        if key not in self._passes:
            people = [one for one in self.roster.people if len(one.name) <= limit]
            if not people:
                shortest = min(len(one.name) for one in self.roster.people)
                raise NamesError(
                    f"{self.roster.id}: the words asked for take names of at most {limit} "
                    f"letters, and the shortest of the list has {shortest}. Add shorter names, "
                    "choose the list own, or a vocabulary of a higher level."
                )
            self._passes[key] = _pairs(people, f"{self.seed}/people/{number}")
        return self._passes[key]

    def _children(self, index: int, count: int) -> tuple[Person, ...]:
        known = self._dealt.get(index)
        if known is not None and len(known) == min(count, self._rounds.most):
            return known
        if self._dealt and index <= next(reversed(self._dealt)):
            earlier = sorted((i, len(people)) for i, people in self._dealt.items() if i < index)
            self._rounds = Rounds(self.roster.people, f"{self.seed}")
            self._dealt = {i: self._rounds.take(number) for i, number in earlier}
        self._dealt[index] = self._rounds.take(count)
        return self._dealt[index]

    def _companion(self, index: int, people: tuple[Person, ...], limit: int) -> Person:
        self._borrowed = True
        pair = self._own.deal(index, MAX_PEOPLE, limit)
        return next(one for one in pair if one.initial != people[0].initial)

    @cached_property
    def _own(self) -> "Dealer":
        return Dealer(own_list(), self.seed)


def _pairs(people: list[Person], key: str) -> tuple[Pair, ...]:
    """Pairs with different initials in which each of `people` stands.

    In an order where equal initials stand together and none fills more than half, the n-th of
    the first half and the n-th of the second half differ. Who is left over, being odd or of
    the initial that most have, comes last, with a partner who stands twice, or with none if
    all have one initial.
    """
    drawn = sorted(people, key=lambda one: digest(f"{key}/{one.name}"))
    groups: dict[str, list[Person]] = {}
    for person in drawn:
        groups.setdefault(person.initial, []).append(person)
    largest = max(groups.values(), key=len)
    others = [one for one in drawn if one.initial != largest[0].initial]
    surplus = max(0, len(largest) - len(others)) or len(people) % 2
    left_over = largest[:surplus]
    del largest[:surplus]
    rest = [one for group in groups.values() for one in group]
    half = len(rest) // 2
    pairs: list[Pair] = []
    for one, other in zip(rest[:half], rest[half:], strict=True):
        swapped = digest(f"{key}/side/{one.name}/{other.name}") % 2
        pairs.append((other, one) if swapped else (one, other))
    pairs.sort(key=lambda pair: digest(f"{key}/place/{pair[0].name}"))
    partners = [others[n % len(others)] if others else None for n in range(surplus)]
    return (*pairs, *zip(left_over, partners, strict=True))
