"""Chooses people for a finished problem: of a roster, or of our own list in place of children."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

from storybank import people, vocabulary
from storybank.errors import RequestError
from storybank.finished._naming import ambiguous, pronouns, renamed, texts
from storybank.luck import ordered
from storybank.model import Problem
from storybank.people import Person, Roster
from storybank.vocabulary.names import as_word


def told_of_class(problem: Problem, roster: Roster, key: str, dealt: Counter[str]) -> Problem:
    """The problem with children of a class list in it, where that fits its pronouns.

    Who was `dealt` less often comes first; that they are dealt is noted there. With a roster that
    is no class list the problem stays as it is.
    """
    if not roster.class_list or not problem.story.people:
        return problem
    chosen = choose_people(problem, roster, key, dealt)
    if chosen is None:
        return problem
    dealt.update(one.name for one in chosen)
    return renamed(problem, chosen)


def choose_people(
    problem: Problem, roster: Roster, key: str, dealt: Mapping[str, int] | None = None
) -> tuple[Person, ...] | None:
    """People of the roster for a problem, drawn by `key`, as `renamed` wants them; or None.

    Each has the pronoun that the text uses of that person, and no name that the story has as a
    word; nor does one name stand in the other. Their initials differ, which a class list that has
    nobody else may break. Names of other rosters are not longer than the vocabulary allows. Who
    was `dealt` less often by name comes first. None where nobody fits.
    """
    order = ordered(roster.people, f"{key}/people", lambda one: one.name)
    if dealt:
        order.sort(key=lambda one: dealt.get(one.name, 0))
    wanted = _Wanted.of(problem, None if roster.class_list else _letters(problem))
    places = len(problem.story.people)
    found = next(wanted.casts([order] * places, alike=False), None)
    if found is None and roster.class_list:
        found = next(wanted.casts([order] * places, alike=True), None)
    return found


def own_names(problem: Problem, request: Mapping[str, Any]) -> tuple[Problem, tuple[str, ...]]:
    """The problem with names of Storybank's own list for those of children, and what to say of it.

    All names are children's where `request` was made with a class list; otherwise those that stand
    in no list of ours. The notes name no child. Raises RequestError where no name of the own list
    fits, which does not happen to a problem that Storybank has made.
    """
    from_class = request.get("names") is not None
    known = _listed()
    names = problem.story.people
    gone = [name for name in names if from_class or name not in known]
    if not gone:
        return problem, ()
    wanted = _Wanted.of(problem, _letters(problem), unlike=tuple(gone))
    order = ordered(people.own_list().people, f"{problem.code}/own", lambda one: one.name)
    choices = [order if name in gone else [_kept(problem, name)] for name in names]
    for alike in (False, True):
        found = next(wanted.casts(choices, alike=alike), None)
        if found is not None:
            return renamed(problem, found), (_note(len(gone), from_class),)
    raise RequestError(
        f"No names of Storybank's own list fit the problem {problem.code}, so the names of "
        "children would be stored with it. Leave it out, or make the set again without a class "
        "list."
    )


def _note(count: int, from_class: bool) -> str:
    source = "from a class list" if from_class else "that no list of Storybank's holds"
    if count == 1:
        return f"1 name {source} became a name of Storybank's own list."
    return f"{count} names {source} became names of Storybank's own list."


@cache
def _listed() -> Mapping[str, str | None]:
    """The pronoun of each name of our lists; the own list goes first."""
    listed = {
        one.name: one.pronoun for name in people.rosters() for one in people.named_list(name).people
    }
    return {**listed, **{one.name: one.pronoun for one in people.own_list().people}}


def _kept(problem: Problem, name: str) -> Person:
    """A person who stays, with the pronoun that the text uses, or else that of the list."""
    said = pronouns(problem)[problem.story.people.index(name)]
    return Person(name, said or _listed()[name])


def _letters(problem: Problem) -> int:
    """How long a name may be at each level at which the problem is told."""
    known = [vocabulary.get(name) for name in vocabulary.ids()]
    told = {one.vocabulary for one in (problem, *problem.levels)}
    ours = [pack for pack in known if pack.id in told]
    return min(pack.name_letters for pack in (ours if len(ours) == len(told) else known))


@dataclass(frozen=True, slots=True)
class _Wanted:
    """What people of a problem must be like."""

    pronouns: tuple[str | None, ...]
    ambiguous: bool
    letters: int | None
    texts: str
    unlike: tuple[str, ...]

    @classmethod
    def of(cls, problem: Problem, letters: int | None, unlike: tuple[str, ...] = ()) -> "_Wanted":
        """What the texts of a problem want, besides names that differ from those of `unlike`."""
        told = "\n".join(texts(problem))
        return cls(pronouns(problem), ambiguous(problem), letters, told, unlike)

    def casts(
        self, choices: Sequence[Sequence[Person]], *, alike: bool
    ) -> Iterator[tuple[Person, ...]]:
        """All casts of one person of each of the choices, in order.

        With `alike` their initials may be the same.
        """
        if not choices:
            yield ()
            return
        for first in choices[0]:
            if not self._fits(first, self.pronouns[0]):
                continue
            if len(choices) == 1:
                yield (first,)
                continue
            for second in choices[1]:
                if self._fits(second, self.pronouns[1]) and self._meet(first, second, alike):
                    yield (first, second)

    def _fits(self, person: Person, pronoun: str | None) -> bool:
        name = person.name
        if self.letters is not None and len(name) > self.letters:
            return False
        if any(gone in name or name in gone for gone in self.unlike):
            return False
        return pronoun in (None, person.pronoun) and not as_word(name).search(self.texts)

    def _meet(self, first: Person, second: Person, alike: bool) -> bool:
        if first.name in second.name or second.name in first.name:
            return False
        if self.ambiguous and first.pronoun == second.pronoun:
            return False
        return alike or first.initial != second.initial
