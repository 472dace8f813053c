"""Chooses the four stories of a fact family: one scene, its people and thing, three numbers."""

from collections.abc import Iterator, Sequence

from storybank import families, number_choice, situations
from storybank.errors import NoNumbersError
from storybank.generate._choice import Search
from storybank.generate._progress import Chosen, Progress
from storybank.generate._shortage import no_family_left, nothing_told
from storybank.luck import ordered
from storybank.model.words import Theme
from storybank.number_choice import Wish, Wishes
from storybank.request import Settled
from storybank.story import Plan

Told = tuple[Theme, Plan, tuple[Plan, ...]]
"""A theme, a plan and the plans of the same story at the levels side by side."""
Four = tuple[Told, Told, Told, Told]


def of_family(settled: Settled, index: int, progress: Progress) -> Chosen:
    """All choices of problem `index`, a story of its fact family; the first chooses for all four.

    Shapes, strategies and scenes are dealt in rounds. Raises NoNumbersError, with the largest
    count possible, where no numbers are left.
    """
    if index % families.STORIES == 0:
        progress.family = _choose(settled, index, progress)
    return progress.family[index % families.STORIES]


def _choose(settled: Settled, index: int, progress: Progress) -> tuple[Chosen, ...]:
    search = _FamilySearch(settled, index, progress)
    for naming in (True, False) if settled.roster.class_list else (False,):
        for balancing in (True, False):
            search.naming, search.balancing = naming, balancing
            found = progress.situations.deal(search.first)
            if found is not None:
                return found
    if not progress.tellable and not settled.vocabulary.shipped:
        raise NoNumbersError(nothing_told(settled))
    raise NoNumbersError(no_family_left(settled, index))


class _FamilySearch(Search):
    """The search for four stories; each step asks the next for a way on."""

    def first(self, situation_id: str) -> tuple[Chosen, ...] | None:
        """The family whose additions are told as that situation; None for a subtraction."""
        shapes = (name for name, pair in families.SHAPES.items() if situation_id == pair[0])
        shape = next(shapes, None)
        if shape is None:
            return None
        wished = self.settled.strategies_for[situation_id]
        if not wished:
            return self.scenes(shape, None)
        return self.progress.strategies.deal(
            lambda name: self.scenes(shape, name) if name in wished else None
        )

    def scenes(self, shape: str, strategy: str | None) -> tuple[Chosen, ...] | None:
        """The family told in the first scene that can; None where no numbers fit anywhere."""
        anywhere = Wish(
            situation=families.SHAPES[shape][0],
            strategy=strategy,
            limit=self.settled.within,
            crossing=self.crossing,
            diagnose=self.settled.diagnose,
        )
        supply = number_choice.family_supply(shape, number_choice.wishes_for(shape, anywhere))
        if not (supply.preferred or supply.second_best):
            return None
        return self.progress.scenes.deal(lambda key: self.family(key, shape, strategy))

    def family(self, key: str, shape: str, strategy: str | None) -> tuple[Chosen, ...] | None:
        """Four stories of the scene with numbers that no earlier family has."""
        for told in self.four(key, shape):
            wishes = self.wishes(shape, strategy, told)
            if (shape, wishes) in self.progress.spent:
                continue
            supply = number_choice.family_supply(shape, wishes)
            used = self.progress.triples
            triple = number_choice.choose(supply, f"{self.key}/numbers", used)
            if triple is None:
                self.progress.spent.add((shape, wishes))
                continue
            stories = zip(families.triples(shape, triple.a, triple.b), told, wishes, strict=True)
            chosen = []
            for at, ((name, one), (theme, plan, levels), wish) in enumerate(stories):
                fitting = number_choice.supply(wish)
                taught = strategy or fitting.strategy(one, f"{self.key}/strategy/{at}")
                form = fitting.form(one, taught)
                chosen.append(Chosen(theme, situations.get(name), plan, one, taught, form, levels))
            return tuple(chosen)
        return None

    def four(self, key: str, shape: str) -> Iterator[Four]:
        """The plans of four stories with one thing, one holder and one tense, the best first.

        Both additions tell the same events, in other words where there are any; so do both
        subtractions. Of parts all four tell the same.
        """
        adding, taking = (self.by_events(key, name) for name in families.SHAPES[shape])
        pairs = [
            (first, second)
            for first in adding
            for second in taking
            if _bond(first, shape) == _bond(second, shape)
        ]
        for first, second in ordered(pairs, f"{self.key}/family", str):
            yield (*_two(adding[first]), *_two(taking[second]))

    def by_events(self, key: str, situation_id: str) -> dict[tuple[str, str], list[Told]]:
        """What can be told as that situation, by thing and detail."""
        situation = situations.get(situation_id)
        self.shut = self.progress.keywords.shut(situation, balancing=self.balancing, stories=2)
        found: dict[tuple[str, str], list[Told]] = {}
        for told in self.plans(key, situation):
            found.setdefault((told[1].thing, told[1].detail), []).append(told)
        return found

    def wishes(self, shape: str, strategy: str | None, told: Four) -> Wishes:
        """The wish of each story, by the room of its own plans."""
        names = [name for name, _ in families.triples(shape, 1, 2)]
        first, second, third, fourth = (
            self.wish(situations.get(name), strategy, plan, levels)
            for name, (_, plan, levels) in zip(names, told, strict=True)
        )
        return first, second, third, fourth


def _bond(events: tuple[str, str], shape: str) -> tuple[str, str, str]:
    """What both operations share: thing, tense, and the holder of changes or all about parts."""
    thing, detail = events
    parts, _, tense = detail.rpartition(":")
    return thing, tense, parts.partition("+")[0] if shape == "change" else parts


def _two(told: Sequence[Told]) -> tuple[Told, Told]:
    """The first story and another in other words; the first again where there is none."""
    first = told[0]
    other = next((one for one in told if one[1].telling != first[1].telling), first)
    return first, other
