"""Where the stories of a set are made again: another one, other numbers, another level."""

from collections import Counter
from collections.abc import Hashable, Sequence
from dataclasses import replace

from storybank import families, generate, tellings, vocabulary
from storybank.errors import NoNumbersError, RequestError
from storybank.generate import Progress
from storybank.luck import Deck, digest
from storybank.model import ProblemSet
from storybank.problem_set import gathered
from storybank.request import Settled
from storybank.revision._cast import Cast, people_of, with_short_names
from storybank.revision._slots import Slot, family_of, keywords_of, like, made_at, problems_of

_TRIES = 8
_KEPT = (
    "these stories are kept as they were made. Move, remove or reword them, or make a new set to "
    "swap stories."
)
_LEANING = (
    "children could go by the word and not by the story. Swap one of these, or ask for one story "
    "more"
)


class Bench:
    """A set that was made, with all that is needed to make stories of it again.

    Another story keeps to the wishes, the situation, the strategy and the people of the one that it
    is put in for. No three numbers come back, nor those of stories that were put away. `present`
    are always the other stories that stand in the set at that time.
    """

    def __init__(self, settled: Settled | None, made: ProblemSet | None) -> None:
        """A bench for wishes, or for a finished set."""
        self._settled, self._made = settled, made
        self.slots: tuple[Slot, ...] = ()
        self._notes: dict[str, None] = {}
        self._spent: set[Hashable] = set()
        if settled is not None:
            self._progress = Progress.of(settled)
            self.slots = tuple(
                made_at(settled, at, at, self._progress) for at in range(settled.count)
            )
        self._places = len(self.slots)

    @classmethod
    def of_request(cls, settled: Settled) -> "Bench":
        """The bench with the set that the wishes ask for. Raises as `make_set`."""
        return cls(settled, None)

    @classmethod
    def of_set(cls, made: ProblemSet) -> "Bench":
        """The bench with a finished set, whose stories cannot be made again."""
        bench = cls(None, made)
        bench.slots = tuple(Slot(one) for one in made.problems)
        return bench

    @property
    def of_families(self) -> bool:
        """Whether the stories come in fact families."""
        return self._settled is not None and self._settled.fact_families

    def gathered(self, slots: Sequence[Slot]) -> ProblemSet:
        """The set of the stories in their order, with its notes."""
        problems = [one.problem for one in slots]
        if self._made is not None:
            return replace(self._made, problems=tuple(problems))
        assert self._settled is not None
        if self.of_families:
            numbers = {one: at for at, one in enumerate(dict.fromkeys(map(family_of, slots)), 1)}
            problems = [replace(one.problem, family=numbers[family_of(one)]) for one in slots]
        keywords = replace(self._progress.keywords, told=keywords_of(slots))
        if tuple(slots) != self.slots:
            keywords.because = _LEANING
        made = gathered(self._settled, replace(self._progress, keywords=keywords), problems)
        return replace(made, notes=(*made.notes, *self._notes))

    def check_whole(self, slots: Sequence[Slot]) -> None:
        """Nothing, if all fact families stand together. Raises RequestError else."""
        groups = [family_of(one) for one in slots]
        whole = len(groups) % families.STORIES == 0 and all(
            len(set(groups[at : at + families.STORIES])) == 1
            for at in range(0, len(groups), families.STORIES)
        )
        if not whole:
            raise RequestError(
                "the four stories of a fact family are swapped together, and here they do not "
                "stand together any more. Undo what was moved or removed first."
            )

    def another(self, slot: Slot, present: Sequence[Slot]) -> Slot:
        """Another story for the same wishes. Raises NoNumbersError where there is none.

        In a class list the same children are told of where that can be.
        """
        settled = self._wishes(slot)
        narrow, people = like(settled, slot.problem), len(slot.problem.story.people)
        kinds: list[tuple[Settled, int | None]] = [(narrow, None), (settled, None)]
        if settled.roster.class_list:
            kinds = [(narrow, people), (settled, people), *kinds]
        for wish, count in kinds if self._may_be_left(settled, slot.index) else ():
            best = self._best(wish, count, slot, present)
            if best is not None:
                made, progress = best
                self._take_over(progress)
                wishes = replace(settled, seed=self._wishes(made).seed)
                return replace(made, settled=wishes, turn=slot.turn + 1)
        self._spent.add(_what(settled, slot.index))
        raise NoNumbersError(
            "no other story is left that meets all wishes with numbers that were not used yet."
        )

    def _best(
        self, wish: Settled, people: int | None, slot: Slot, present: Sequence[Slot]
    ) -> tuple[Slot, Progress] | None:
        """Of some stories that luck gives, the first after which no keyword leans; None if none.

        It tells of so many `people` where that is said.
        """
        best: tuple[int, Slot, Progress] | None = None
        for attempt in range(_TRIES):
            again = replace(wish, seed=self._seed(slot.place, slot.turn + 1, attempt))
            progress = self._apart(again, slot, present)
            if people is not None:
                progress.only = lambda plan: plan.skeleton.people == people
            try:
                made = made_at(again, slot.index, slot.place, progress)
            except NoNumbersError:
                break
            leaning = sum(1 for _ in progress.keywords.leaning())
            if best is None or leaning < best[0]:
                best = leaning, made, progress
            if not leaning:
                break
        return None if best is None else best[1:]

    def another_family(self, slots: Sequence[Slot], present: Sequence[Slot]) -> list[Slot]:
        """Four other stories, for the facts of three other numbers, in the places of four.

        Raises NoNumbersError where there are none.
        """
        settled = self._wishes(slots[0])
        turn = slots[0].turn + 1
        again = replace(settled, seed=self._seed(min(one.place for one in slots), turn, 0))
        first = slots[0].index - slots[0].index % families.STORIES
        most = max(slots, key=lambda one: len(one.problem.story.people))
        progress = self._apart(again, most, present)
        try:
            made = [
                replace(made_at(again, first + at, first + at, progress), turn=turn)
                for at in range(families.STORIES)
            ]
        except NoNumbersError as error:
            raise NoNumbersError(
                "no other fact family is left that meets all wishes with numbers that were not "
                "used yet."
            ) from error
        self._take_over(progress)
        return made

    def one_more(self, present: Sequence[Slot]) -> Slot:
        """One story more, for the wishes of the place in the set that comes round next.

        Raises NoNumbersError where there is none.
        """
        settled = self._wishes(self.slots[0])
        place = self._places
        again = replace(settled, seed=self._seed(place, 0, 0))
        progress = self._apart(again, None, present)
        try:
            made = made_at(again, place % settled.count, place, progress)
        except NoNumbersError as error:
            raise NoNumbersError(
                "no story is left that meets all wishes with numbers that were not used yet."
            ) from error
        self._places += 1
        self._take_over(progress)
        return made

    def other_numbers(self, slot: Slot) -> Slot:
        """The same story with other numbers. Raises NoNumbersError where it has no others."""
        settled = self._wishes(slot)
        if self.of_families:
            raise RequestError("the four stories of a fact family share their numbers. Swap it.")
        if settled.pairs:
            raise RequestError(
                "the numbers of this set were named. Swap the story, or name others."
            )
        problem, wish = slot.problem, like(settled, slot.problem)
        people = people_of(problem, settled.roster)
        progress = replace(
            self._apart(wish, slot, ()),
            scenes=Deck([f"{problem.theme}/{problem.scene}"], f"{wish.seed}/scene"),
            only=lambda plan: generate.told_by(plan, problem, people),
        )
        progress.keywords.mixes = False
        try:
            made = made_at(wish, slot.index, slot.place, progress)
        except NoNumbersError as error:
            raise NoNumbersError(
                "no other numbers are left for this story. Swap it for another story."
            ) from error
        self._take_over(progress)
        return replace(slot, problem=made.problem, told=made.told, words=0)

    def at_level(self, slot: Slot, level: str, present: Sequence[Slot]) -> tuple[Slot, str]:
        """The same story, with the same numbers, at another level of English; and a note, or "".

        It is told of others where its names are too long for the level. Raises RequestError where
        it cannot be told so.
        """
        settled, problem = self._wishes(slot), slot.problem
        assert self._settled is not None
        if problem.vocabulary == level and not problem.levels:
            raise RequestError(f"it is told at {level} already.")
        own = self._settled.vocabulary
        pack = own if own.id == level else vocabulary.get(level)
        people = people_of(problem, settled.roster)
        others = with_short_names(
            people, settled.roster, problems_of(present), pack.name_letters, str(settled.seed)
        )
        told = generate.told_at(settled, problem, people, pack, others)
        note = ", ".join(
            f"{one.name} is {other.name} now"
            for one, other in zip(people, others, strict=True)
            if one != other
        )
        if note:
            note = f"{note}: names have at most {pack.name_letters} letters at {level}."
        keywords: Counter[tuple[str, str]] = Counter()
        operation = problem.solution.operation
        if operation is not None:
            found = tellings.keywords_in(told.text.lower())
            keywords.update((word, operation) for word in found)
        wishes = replace(settled, vocabulary=pack)
        return replace(slot, problem=told, settled=wishes, told=keywords, words=0), note

    def _wishes(self, slot: Slot) -> Settled:
        if slot.settled is None:
            raise RequestError(_KEPT)
        return slot.settled

    def _may_be_left(self, settled: Settled, index: int) -> bool:
        """Whether a story for wishes may be left; where none was once, none comes back.

        Where luck decides before the numbers which story has room for them, another may have.
        """
        lucky = settled.extra_number or settled.number_sets
        return bool(lucky) or _what(settled, index) not in self._spent

    def _seed(self, place: int, turn: int, attempt: int) -> int:
        assert self._settled is not None
        return digest(f"{self._settled.seed}/swap/{place}/{turn}/{attempt}") >> 1

    def _apart(self, settled: Settled, slot: Slot | None, present: Sequence[Slot]) -> Progress:
        """What the set has used, for one story to be made apart: with decks and people of its own.

        Nothing of the set's own progress is changed until `_take_over`.
        """
        fresh, used = Progress.of(settled), self._progress
        dealer = used.dealer
        if slot is not None:
            kept = people_of(slot.problem, settled.roster)
            dealer = Cast(dealer, kept, problems_of(present))
        return replace(
            fresh,
            dealer=dealer,
            keywords=replace(used.keywords, told=keywords_of(present)),
            triples=set(used.triples),
            step_numbers=set(used.step_numbers),
            sums=set(used.sums),
            stories=set(used.stories),
            codes=set(used.codes),
        )

    def _take_over(self, progress: Progress) -> None:
        """Goes on with what a story that was made apart has used."""
        self._notes.update(dict.fromkeys(progress.dealer.notes))
        used = self._progress
        used.triples, used.stories, used.codes = progress.triples, progress.stories, progress.codes
        used.step_numbers, used.sums = progress.step_numbers, progress.sums


def _what(settled: Settled, index: int) -> Hashable:
    """What of its wishes makes the stories at a place other than those at another."""
    pair = settled.pairs[index % len(settled.pairs)] if settled.pairs else None
    return settled.vocabulary.id, settled.crossings[index], pair
