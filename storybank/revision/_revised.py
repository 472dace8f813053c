"""A set with its changes made, one after another; the same changes give the same set again."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from storybank import families
from storybank.errors import NoNumbersError, RequestError
from storybank.model import Problem, ProblemSet
from storybank.request import Request, settle
from storybank.revision._bench import Bench
from storybank.revision._changes import Change
from storybank.revision._slots import Slot
from storybank.revision._words import Fault, Words, reworded


@dataclass(frozen=True, slots=True)
class Told:
    """A story of a changed set: the problem, as it was made, and what no longer holds of it.

    `words` are the teacher's own, if the story is told in them; `faults` are then what the checks
    say of it.
    """

    problem: Problem
    made: Problem
    words: Words | None = None
    faults: tuple[Fault, ...] = ()


@dataclass(frozen=True, slots=True)
class Revised:
    """A set with its changes made: each story, and what has to be said of the changes."""

    problem_set: ProblemSet
    stories: tuple[Told, ...]
    notes: tuple[str, ...] = ()


def revise(
    request: Request | ProblemSet,
    changes: Sequence[Change] = (),
    words: Sequence[Words] = (),
    seed: int = 0,
) -> Revised:
    """The set that `request` asks for with the changes made to it in their order.

    `request` may also be a finished set; then its stories can be moved, removed and told in other
    words, and nothing else. `words` are the texts that changes put in by number; one that is not
    there is passed over, with a note. `seed` is used where the request names none. A change that
    cannot be made is passed over with a note that says why. Raises as `make_set`.
    """
    if isinstance(request, ProblemSet):
        bench = Bench.of_set(request)
    else:
        bench = Bench.of_request(settle(request, seed))
    work = _Work(bench, list(bench.slots), tuple(words))
    for change in changes:
        work.make(change)
    made = bench.gathered(work.slots)
    asked = dict(made.request)
    if changes:
        asked["change"] = [*asked.get("change", ()), *map(str, changes)]
    stories = tuple(
        _told(slot, problem, work.words, made)
        for slot, problem in zip(work.slots, made.problems, strict=True)
    )
    problems = tuple(one.problem for one in stories)
    problem_set = replace(made, request=asked, problems=problems)
    return Revised(problem_set, stories, tuple(dict.fromkeys(work.notes)))


def _told(slot: Slot, problem: Problem, words: Sequence[Words], made: ProblemSet) -> Told:
    if not slot.words:
        return Told(problem, problem)
    own = words[slot.words - 1]
    told, faults = reworded(problem, own, made.request)
    return Told(told, problem, own, faults)


@dataclass
class _Work:
    """The stories while the changes are made."""

    bench: Bench
    slots: list[Slot]
    words: tuple[Words, ...]
    notes: list[str] = field(default_factory=list)

    def make(self, change: Change) -> None:
        """Makes one change, or notes why not."""
        beyond = [one for one in change.places if one > len(self.slots)]
        if beyond:
            self.notes.append(
                f"{change} was not done: there is no story {beyond[0]}, the last one is "
                f"{len(self.slots)}."
            )
            return
        try:
            getattr(self, f"_{change.kind}")(change)
        except (NoNumbersError, RequestError) as error:
            self.notes.append(f"{change} was not done: {error}")

    def _at(self, change: Change) -> int:
        return change.places[0] - 1

    def _swap(self, change: Change) -> None:
        self._again([self._at(change)])

    def _renew(self, change: Change) -> None:
        self._again([one - 1 for one in change.places])

    def _again(self, places: Sequence[int]) -> None:
        """Another story at each place; of a fact family all four are made again together.

        What was made stays where a later place has none; the places without are then named.
        """
        without, last = [], None
        for at in self._firsts(places):
            try:
                if self.bench.of_families:
                    some = slice(at, at + families.STORIES)
                    others = [*self.slots[:at], *self.slots[some.stop :]]
                    self.slots[some] = self.bench.another_family(self.slots[some], others)
                else:
                    self.slots[at] = self.bench.another(self.slots[at], self._others(at))
            except NoNumbersError as error:
                without.append(at + 1)
                last = error
        if last is not None:
            if len(places) > 1:
                stories = ", ".join(map(str, without))
                raise NoNumbersError(f"at {stories}, {last}")
            raise last

    def _firsts(self, places: Sequence[int]) -> Sequence[int]:
        """The places at which something is made again; for a fact family that of its first."""
        if not self.bench.of_families:
            return places
        self.bench.check_whole(self.slots)
        return list(dict.fromkeys(at - at % families.STORIES for at in places))

    def _others(self, at: int) -> list[Slot]:
        """The stories at all other places."""
        return [*self.slots[:at], *self.slots[at + 1 :]]

    def _more(self, change: Change) -> None:
        if self.bench.of_families:
            raise RequestError("fact families come in fours. Ask for a larger count instead.")
        self.slots.append(self.bench.one_more(self.slots))

    def _numbers(self, change: Change) -> None:
        at = self._at(change)
        self.slots[at] = self.bench.other_numbers(self.slots[at])

    def _level(self, change: Change) -> None:
        at = self._at(change)
        assert change.level is not None
        self.slots[at], note = self.bench.at_level(self.slots[at], change.level, self._others(at))
        if note:
            self.notes.append(f"Story {at + 1}: {note}")

    def _words(self, change: Change) -> None:
        at = self._at(change)
        if self.slots[at].problem.levels:
            raise RequestError(
                "it stands at four levels of English. Change its words in Word, or make a set at "
                "one level."
            )
        if change.words > len(self.words):
            self.notes.append(
                f"Story {at + 1} was told in words of your own. They stand in no address, so it "
                "is told in ours."
            )
            return
        self.words[change.words - 1].check()
        self.slots[at] = replace(self.slots[at], words=change.words)

    def _plain(self, change: Change) -> None:
        at = self._at(change)
        self.slots[at] = replace(self.slots[at], words=0)

    def _up(self, change: Change) -> None:
        self._move(self._at(change), -1)

    def _down(self, change: Change) -> None:
        self._move(self._at(change), 1)

    def _move(self, at: int, by: int) -> None:
        if not 0 <= at + by < len(self.slots):
            end = "first" if by < 0 else "last"
            raise RequestError(f"it is the {end} story already.")
        self.slots[at], self.slots[at + by] = self.slots[at + by], self.slots[at]

    def _remove(self, change: Change) -> None:
        if len(self.slots) == 1:
            raise RequestError("it is the only story that is left. Swap it instead.")
        del self.slots[self._at(change)]
