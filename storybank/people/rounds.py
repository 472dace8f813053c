"""The rounds in which the children of a class list take their turns."""

from collections import Counter
from collections.abc import Callable

from storybank.luck import digest
from storybank.people.roster import Person


class Rounds:
    """Hands out `people`, each once a round, in an order that `key` draws for each round."""

    def __init__(self, people: tuple[Person, ...], key: str) -> None:
        """Rounds of `people`; two of them may have one name and are still two."""
        self._people = people
        self._key = key
        self._number = 0
        self._waiting: list[Person] = []
        self._next: list[Person] = []
        self.most = min(2, len({one.name for one in people}))
        """How many can meet in one problem: 1 if all have the same name."""

    def take(self, count: int) -> tuple[Person, ...]:
        """The next one or two, of different names; of different initials if the round has such.

        Only if all who still wait in a round have the first one's name does the second come
        from the round after it. `count` beyond `most` gives `most`.
        """
        if not self._waiting:
            self._waiting, self._next = self._next or self._round(), []
        first = self._waiting.pop(_most_pressing(self._waiting))
        if min(count, self.most) == 1:
            return (first,)
        place = _unlike(self._waiting, first)
        if place is not None:
            return (first, self._waiting.pop(place))
        place = _unlike(self._next, first)
        if place is None:
            self._next += self._round()
            place = _unlike(self._next, first)
        assert place is not None
        return (first, self._next.pop(place))

    def _round(self) -> list[Person]:
        order = sorted(
            range(len(self._people)),
            key=lambda place: digest(f"{self._key}/round/{self._number}/{place}"),
        )
        self._number += 1
        return [self._people[place] for place in order]


def _most_pressing(waiting: list[Person]) -> int:
    """The place of the one to take first: of a name, or else an initial, that half share.

    Otherwise those would be left over at the end of the round and meet one another.
    """
    traits: tuple[Callable[[Person], str], ...] = (_name, _initial)
    for trait in traits:
        ((value, number),) = Counter(map(trait, waiting)).most_common(1)
        if number > 1 and 2 * number >= len(waiting):
            return next(place for place, one in enumerate(waiting) if trait(one) == value)
    return 0


def _unlike(people: list[Person], first: Person) -> int | None:
    other_names = [place for place, one in enumerate(people) if one.name != first.name]
    initials = (place for place in other_names if people[place].initial != first.initial)
    return next(initials, other_names[0] if other_names else None)


def _name(person: Person) -> str:
    return person.name


def _initial(person: Person) -> str:
    return person.initial
