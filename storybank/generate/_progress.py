"""What one problem is made of, and what the problems of a set made so far have used up."""

from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from storybank.generate._keywords import Keywords
from storybank.generate._number_sets import Numbers
from storybank.luck import Deck
from storybank.model import Form, Problem, Situation, Triple
from storybank.model.words import Theme
from storybank.people import Dealer
from storybank.request import Settled
from storybank.story import Plan

if TYPE_CHECKING:
    from storybank.number_choice import StepKey
    from storybank.story import SumPlan


@dataclass(frozen=True, slots=True)
class Chosen:
    """What one problem is made of; `strategy` and `form` are None for both-parts-unknown."""

    theme: Theme
    situation: Situation
    plan: Plan
    triple: Triple
    strategy: str | None
    form: Form | None
    levels: tuple[Plan, ...] = ()
    """The plans of the same story at every level that stands side by side with it."""
    extra: int | None = None
    """A number of the story that is not needed."""
    sets: tuple[Numbers, ...] = ()
    """Several sets of numbers for the story, its own first."""


@dataclass
class Progress:
    """What the problems of a set made so far have used up."""

    situations: Deck
    strategies: Deck
    scenes: Deck
    dealer: Dealer
    keywords: Keywords
    step_pairs: Deck
    triples: set[tuple[int, int]] = field(default_factory=set)
    step_numbers: "set[StepKey]" = field(default_factory=set)
    sums: set[tuple[int, ...]] = field(default_factory=set)
    stories: set[tuple[Plan, Triple]] = field(default_factory=set)
    codes: set[str] = field(default_factory=set)
    dealt: int = 0
    """How many problems of earlier sets the dealer has dealt people to."""
    tellable: bool = False
    """Whether any story was found within the limits of the vocabulary pack."""
    family: tuple[Chosen, ...] = ()
    """The four stories of the fact family that is being told."""
    spent: set[Hashable] = field(default_factory=set)
    """Where no numbers are left; none can come back, for what is used stays used."""
    only: "Callable[[Plan | SumPlan], bool] | None" = None
    """Whether a plan tells the story that is to be told again; None where any story will do."""

    @classmethod
    def of(cls, settled: Settled) -> "Progress":
        """The progress of a set of which nothing is made yet."""
        return cls(
            situations=Deck(settled.situations, f"{settled.seed}/situation"),
            strategies=Deck(settled.strategies, f"{settled.seed}/strategy"),
            scenes=Deck(settled.scene_keys(), f"{settled.seed}/scene"),
            dealer=Dealer(settled.roster, settled.seed),
            keywords=Keywords.of(settled.keywords, settled.situations),
            step_pairs=Deck(["/".join(one) for one in settled.step_pairs], f"{settled.seed}/pair"),
        )

    def follow(self, earlier: "Progress", made: int) -> None:
        """Takes over what an earlier set of `made` problems has used, and who deals the people."""
        self.triples, self.stories, self.codes = earlier.triples, earlier.stories, earlier.codes
        self.step_numbers, self.sums = earlier.step_numbers, earlier.sums
        self.keywords.told = earlier.keywords.told
        self.dealer, self.dealt = earlier.dealer, earlier.dealt + made

    def use(self, problem: Problem) -> None:
        """Takes the numbers and the code of a finished problem from elsewhere as used."""
        self.codes.add(problem.code)
        steps = [tuple(one.numbers.values()) for one in problem.steps]
        if steps:
            first, then = (_key(numbers) for numbers in steps)
            self.step_numbers.add((first, then))
        elif "part3" in problem.numbers:
            parts = (number for role, number in problem.numbers.items() if role != "whole")
            self.sums.add(tuple(sorted(parts)))
        else:
            self.triples.add(_key(tuple(problem.numbers.values())))
            self.triples.update(_key(tuple(one.numbers.values())) for one in problem.number_sets)

    def note(self, problem: Problem, chosen: Chosen) -> None:
        """Remembers what a finished problem has used."""
        self.triples.add(chosen.triple.key)
        self.triples.update(one.triple.key for one in chosen.sets)
        self.stories.add((chosen.plan, chosen.triple))
        self.codes.add(problem.code)
        self.keywords.note(chosen.plan.skeleton.keywords, chosen.situation)


def _key(numbers: tuple[int, ...]) -> tuple[int, int]:
    """As `Triple.key`: the smaller part and the whole; both-parts-unknown has no part."""
    whole = max(numbers)
    return (min(numbers) if len(numbers) > 1 else 0, whole)
