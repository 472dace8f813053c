"""Where the stories of a set are made again: another one, other numbers, another level."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from storybank import families, finished, generate, vocabulary
from storybank.errors import NoNumbersError, RequestError
from storybank.generate import Progress
from storybank.luck import Deck, digest
from storybank.model import Problem, ProblemSet
from storybank.people import Person
from storybank.problem_set import gathered
from storybank.request import Settled

_TRIES = 8
_KEPT = (
    "These stories are kept ones, which are told as they were made. Move, remove or reword them, "
    "or make a new set to swap stories."
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
    is put in for. No three numbers come back, nor those of stories that were put away.
    """

    def __init__(self, settled: Settled | None, made: ProblemSet | None) -> None:
        """A bench for wishes, or for a finished set."""
        self._settled, self._made = settled, made
        self.slots: tuple[Slot, ...] = ()
        if settled is not None:
            self._progress = Progress.of(settled)
            self.slots = tuple(self._fresh(settled, at, at) for at in range(settled.count))
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
            problems = [
                replace(one, family=at // families.STORIES + 1) for at, one in enumerate(problems)
            ]
        return gathered(self._settled, self._progress, problems)

    def check_whole(self, slots: Sequence[Slot]) -> None:
        """Nothing, if all fact families stand together. Raises RequestError else."""
        groups = [one.problem.family for one in slots]
        whole = len(groups) % families.STORIES == 0 and all(
            len(set(groups[at : at + families.STORIES])) == 1
            for at in range(0, len(groups), families.STORIES)
        )
        if not whole:
            raise RequestError(
                "The four stories of a fact family are swapped together, and here they do not "
                "stand together any more. Undo what was moved or removed first."
            )

    def another(self, slot: Slot) -> Slot:
        """Another story for the same wishes. Raises NoNumbersError where there is none."""
        settled = self._wishes(slot)
        turn = slot.turn + 1
        self._progress.keywords.told.subtract(slot.told)
        narrow = _like(settled, slot.problem)
        for wish in (narrow, settled):
            again = replace(wish, seed=_seed(self._settled, slot.place, turn))
            try:
                return replace(
                    self._fresh(again, slot.index, slot.place, fresh_decks=True), turn=turn
                )
            except NoNumbersError:
                continue
        self._progress.keywords.told.update(slot.told)
        raise NoNumbersError(
            "no other story is left that meets all wishes with numbers that were not used yet."
        )

    def another_family(self, slots: Sequence[Slot]) -> list[Slot]:
        """Four other stories, for the facts of three other numbers, in the places of four."""
        settled = self._wishes(slots[0])
        turn = slots[0].turn + 1
        for one in slots:
            self._progress.keywords.told.subtract(one.told)
        again = replace(settled, seed=_seed(self._settled, slots[0].place, turn))
        first = slots[0].index - slots[0].index % families.STORIES
        decks = self._decks(again, first)
        made = []
        for at, one in enumerate(slots):
            made.append(
                replace(self._made_at(again, first + at, one.place, decks, at=first), turn=turn)
            )
        return made

    def one_more(self) -> Slot:
        """One story more, for the wishes of the place in the set that comes round next."""
        settled = self._wishes(self.slots[0])
        place = self._places
        self._places += 1
        index = place % settled.count
        again = replace(settled, seed=_seed(self._settled, place, 0))
        return self._fresh(again, index, place, fresh_decks=True)

    def other_numbers(self, slot: Slot) -> Slot:
        """The same story with other numbers. Raises NoNumbersError where it has no others."""
        settled = self._wishes(slot)
        if self.of_families:
            raise RequestError("the four stories of a fact family share their numbers. Swap it.")
        if settled.pairs:
            raise RequestError(
                "the numbers of this set were named. Swap the story, or name others."
            )
        wish, problem = _like(settled, slot.problem), slot.problem
        scene = f"{problem.theme}/{problem.scene}"
        progress = replace(
            self._decks(wish, slot.index),
            scenes=Deck([scene], f"{wish.seed}/scene"),
            keywords=replace(self._progress.keywords, mixes=False),
            dealt=slot.place - slot.index,
        )
        for _ in range(_TRIES):
            found = generate.make_problem(wish, slot.index, progress)
            if _same_story(found, problem):
                return replace(slot, problem=found, words=0)
        raise NoNumbersError("no other numbers fit this story. Swap it for another story.")

    def at_level(self, slot: Slot, level: str) -> Slot:
        """The same story, with the same numbers, at another level of English.

        Raises RequestError where it cannot be told so.
        """
        settled = self._wishes(slot)
        if slot.problem.vocabulary == level:
            raise RequestError(f"it is told at {level} already.")
        told = generate.told_at(settled, slot.problem, self._people(slot), vocabulary.get(level))
        return replace(slot, problem=told, words=0)

    def _people(self, slot: Slot) -> tuple[Person, ...]:
        """The people of a story with the pronouns that they have."""
        assert self._settled is not None
        known = {one.name: one.pronoun for one in self._settled.roster.people}
        names = zip(slot.problem.story.people, finished.pronouns(slot.problem), strict=True)
        return tuple(Person(name, known.get(name, said)) for name, said in names)

    def _wishes(self, slot: Slot) -> Settled:
        if slot.settled is None:
            raise RequestError(_KEPT)
        return slot.settled

    def _fresh(
        self, settled: Settled, index: int, place: int, *, fresh_decks: bool = False
    ) -> Slot:
        """The story of a place, made; it goes on with the decks of the set, or with new ones."""
        progress = self._decks(settled, index) if fresh_decks else self._progress
        return self._made_at(settled, index, place, progress, at=index if fresh_decks else None)

    def _made_at(
        self, settled: Settled, index: int, place: int, progress: Progress, at: int | None
    ) -> Slot:
        if at is not None:
            progress.dealt = place - index
        before = Counter(self._progress.keywords.told)
        problem = generate.make_problem(settled, index, progress)
        told = Counter(self._progress.keywords.told)
        told.subtract(before)
        return Slot(problem, settled, index, place, told=told)

    def _decks(self, settled: Settled, index: int) -> Progress:
        """What the set has used, with decks of its own for a story that is made again."""
        fresh = Progress.of(settled)
        return replace(
            self._progress,
            situations=fresh.situations,
            strategies=fresh.strategies,
            scenes=fresh.scenes,
            step_pairs=fresh.step_pairs,
            spent=set(),
            family=(),
        )


def _seed(settled: Settled | None, place: int, turn: int) -> int:
    assert settled is not None
    return digest(f"{settled.seed}/swap/{place}/{turn}") >> 1


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


def _same_story(one: Problem, other: Problem) -> bool:
    """Whether two problems tell the same but for their numbers."""
    return (
        one.story.without_numbers == other.story.without_numbers
        and one.story.telling == other.story.telling
        and one.story.people == other.story.people
        and one.story.answer_frame == other.story.answer_frame
    )
