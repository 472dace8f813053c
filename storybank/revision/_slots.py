"""One story of a set that is gone on with, and how it was made."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from storybank import generate
from storybank.generate import Progress
from storybank.model import Problem
from storybank.request import Settled


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


def made_at(settled: Settled, index: int, place: int, progress: Progress) -> Slot:
    """The story of a place, made; it counts for the keywords that it adds."""
    progress.dealt = place - index
    before = Counter(progress.keywords.told)
    problem = generate.make_problem(settled, index, progress)
    told = Counter(progress.keywords.told)
    told.subtract(before)
    return Slot(problem, settled, index, place, told=+told)


def keywords_of(slots: Iterable[Slot]) -> Counter[tuple[str, str]]:
    """The keywords of stories, counted."""
    told: Counter[tuple[str, str]] = Counter()
    for one in slots:
        told.update(one.told)
    return told


def problems_of(slots: Iterable[Slot]) -> list[Problem]:
    return [one.problem for one in slots]


def family_of(slot: Slot) -> int | None:
    return slot.problem.family


def like(settled: Settled, problem: Problem) -> Settled:
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
