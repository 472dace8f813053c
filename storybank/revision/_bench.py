"""Where the stories of a set are made again: another one, other numbers, another level."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace

from storybank import families, generate, tellings, vocabulary
from storybank.errors import NoNumbersError, RequestError
from storybank.generate import Progress
from storybank.luck import Deck, digest
from storybank.model import Problem, ProblemSet
from storybank.problem_set import gathered
from storybank.request import Settled
from storybank.revision._cast import Cast, people_of, with_short_names

_TRIES = 8
_KEPT = (
    "these stories are kept as they were made. Move, remove or reword them, or make a new set to "
    "swap stories."
)
_LEANING = (
    "children could go by the word and not by the story. Swap one of these, or ask for one story "
    "more"
)


@dataclass(frozen=True)
class Slot:
    """One story of the set, and how it was made, so that it can be made again.

    `settled` and `index` are the wishes and the place that made it; `turn` counts how often the
    place has got another story; `told` are the keywords that it counts for. `words` is the number
    of the teacher's own text, or 0.
    """

    problem: Problem
    settled: Settled | None = None
    index: int = 0
    place: int = 0
    turn: int = 0
    told: Counter[tuple[str, str]] = field(default_factory=Counter)
    words: int = 0


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
        if settled is not None:
            self._progress = Progress.of(settled)
            self.slots = tuple(
                _made_at(settled, at, at, self._progress) for at in range(settled.count)
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
            numbers = {one: at for at, one in enumerate(dict.fromkeys(map(_family, slots)), 1)}
            problems = [replace(one.problem, family=numbers[_family(one)]) for one in slots]
        keywords = replace(self._progress.keywords, told=_told(slots))
        if tuple(slots) != self.slots:
            keywords.because = _LEANING
        made = gathered(self._settled, replace(self._progress, keywords=keywords), problems)
        return replace(made, notes=(*made.notes, *self._notes))

    def check_whole(self, slots: Sequence[Slot]) -> None:
        """Nothing, if all fact families stand together. Raises RequestError else."""
        groups = [_family(one) for one in slots]
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

        Of some that luck gives the first is taken that tells of as many people and after which no
        keyword leans to one operation.
        """
        settled = self._wishes(slot)
        turn, people = slot.turn + 1, len(slot.problem.story.people)
        best: tuple[tuple[bool, int], Slot, Progress] | None = None
        for wish in (_like(settled, slot.problem), settled):
            for attempt in range(_TRIES):
                seed = self._seed(slot.place, turn, attempt)
                progress = self._apart(replace(wish, seed=seed), slot, present)
                try:
                    made = _made_at(replace(wish, seed=seed), slot.index, slot.place, progress)
                except NoNumbersError:
                    break
                lost = settled.roster.class_list and len(made.problem.story.people) != people
                lacks = (lost, sum(1 for _ in progress.keywords.leaning()))
                if best is None or lacks < best[0]:
                    made = replace(made, settled=replace(settled, seed=seed), turn=turn)
                    best = lacks, made, progress
                if not any(lacks):
                    break
            if best is not None:
                self._take_over(best[2])
                return best[1]
        raise NoNumbersError(
            "no other story is left that meets all wishes with numbers that were not used yet."
        )

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
                replace(_made_at(again, first + at, first + at, progress), turn=turn)
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
            made = _made_at(again, place % settled.count, place, progress)
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
        problem, wish = slot.problem, _like(settled, slot.problem)
        people = people_of(problem, settled.roster)
        progress = replace(
            self._apart(wish, slot, ()),
            scenes=Deck([f"{problem.theme}/{problem.scene}"], f"{wish.seed}/scene"),
            only=lambda plan: generate.told_by(plan, problem, people),
        )
        progress.keywords.mixes = False
        try:
            made = _made_at(wish, slot.index, slot.place, progress)
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
            people, settled.roster, _problems(present), pack.name_letters, str(settled.seed)
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
            dealer = Cast(dealer, kept, _problems(present))
        return replace(
            fresh,
            dealer=dealer,
            keywords=replace(used.keywords, told=_told(present)),
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


def _made_at(settled: Settled, index: int, place: int, progress: Progress) -> Slot:
    """The story of a place, made; it counts for the keywords that it adds."""
    progress.dealt = place - index
    before = Counter(progress.keywords.told)
    problem = generate.make_problem(settled, index, progress)
    told = Counter(progress.keywords.told)
    told.subtract(before)
    return Slot(problem, settled, index, place, told=+told)


def _told(slots: Iterable[Slot]) -> Counter[tuple[str, str]]:
    """The keywords of stories, counted."""
    told: Counter[tuple[str, str]] = Counter()
    for one in slots:
        told.update(one.told)
    return told


def _problems(slots: Iterable[Slot]) -> list[Problem]:
    return [one.problem for one in slots]


def _family(slot: Slot) -> int | None:
    return slot.problem.family


def _like(settled: Settled, problem: Problem) -> Settled:
    """The wishes narrowed to the situation and the strategy of a problem that they gave."""
    if settled.addends > 2:
        return settled
    if problem.steps:
        pair = (problem.steps[0].situation, problem.steps[1].situation)
        return replace(settled, step_pairs=(pair,))
    name, strategy = problem.situation, problem.strategy
    wished = settled.strategies_for[name]
    narrow = (strategy,) if strategy is not None and wished else wished
    return replace(
        settled,
        situations=(name,),
        strategies_for={name: narrow},
        strategies=narrow or settled.strategies,
    )
