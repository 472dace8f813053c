"""The people of a story that is made again: those it has, and others where it wants more."""

from collections import Counter
from collections.abc import Iterable, Sequence

from storybank import finished
from storybank.errors import RequestError
from storybank.luck import ordered
from storybank.model import Problem
from storybank.people import Dealer, Person, Roster


class Cast(Dealer):
    """Deals the people of a story to the one that takes its place.

    Where that wants one more it is somebody of the roster who is told of least in the `present`
    stories, with another initial if there is such. The rounds of the set's own dealer are not
    touched, so no other story changes its people.
    """

    def __init__(self, dealer: Dealer, kept: Sequence[Person], present: Iterable[Problem]) -> None:
        """The people `kept` are dealt first."""
        super().__init__(dealer.roster, dealer.seed)
        self._kept = tuple(kept)
        self._present = Counter(name for one in present for name in one.story.people)

    def _children(self, index: int, count: int) -> tuple[Person, ...]:
        return self._cast(index, count, None)

    def _named(self, index: int, count: int, limit: int) -> tuple[Person, ...]:
        return self._cast(index, count, limit)

    def _cast(self, index: int, count: int, limit: int | None) -> tuple[Person, ...]:
        while len(self._kept) < count:
            found = somebody(self.roster, self._kept, self._present, limit, f"{self.seed}/{index}")
            if found is None:
                break
            self._kept = (*self._kept, found)
        return self._kept[:count]


def somebody(
    roster: Roster,
    beside: Sequence[Person],
    present: Counter[str],
    letters: int | None,
    key: str,
) -> Person | None:
    """Somebody of the roster to stand beside others, who is told of least; None without such.

    Names are of at most `letters`. Initials differ, in a class list only where that costs nobody a
    turn.
    """
    names = {one.name for one in beside}
    initials = {one.initial for one in beside}
    found = [
        one
        for one in roster.people
        if one.name not in names
        and (letters is None or len(one.name) <= letters)
        and (roster.class_list or one.initial not in initials)
    ]
    drawn = ordered(found, f"{key}/somebody", lambda one: one.name)
    return min(drawn, key=lambda one: (present[one.name], one.initial in initials), default=None)


def people_of(problem: Problem, roster: Roster) -> tuple[Person, ...]:
    """The people of a story with the pronouns that they have by the roster, or by its text."""
    found = []
    for name, said in zip(problem.story.people, finished.pronouns(problem), strict=True):
        listed = {one.pronoun for one in roster.people if one.name == name}
        (pronoun,) = listed if len(listed) == 1 else (said,)
        found.append(Person(name, pronoun))
    return tuple(found)


def with_short_names(
    people: Sequence[Person], roster: Roster, present: Iterable[Problem], letters: int, key: str
) -> tuple[Person, ...]:
    """The people, with others in place of those whose names are longer than a level takes.

    The children of a class list stay. Raises RequestError where the list has no such name.
    """
    if roster.class_list:
        return tuple(people)
    told = Counter(name for one in present for name in one.story.people)
    found = list(people)
    for at, one in enumerate(people):
        if len(one.name) <= letters:
            continue
        alike = [other for other in roster.people if other.pronoun == one.pronoun]
        beside = [other for place, other in enumerate(found) if place != at]
        some = Roster(roster.id, roster.title, tuple(alike))
        other = somebody(some, beside, told, letters, f"{key}/{one.name}")
        if other is None:
            raise RequestError(
                f"the name {one.name} has {len(one.name)} letters, that level takes at most "
                f"{letters}, and {roster.id} has no other that is short enough. Choose another "
                "level."
            )
        found[at] = other
    return tuple(found)
