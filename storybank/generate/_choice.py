"""Chooses situation, strategy, scene, thing, telling and numbers of one problem, in this order."""

from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from dataclasses import replace

from storybank import number_choice, situations, story
from storybank.errors import NoNumbersError
from storybank.generate._changes import changed_plans, extra_number
from storybank.generate._limits import keeps_limits
from storybank.generate._number_sets import choose_sets, is_wide, shortage
from storybank.generate._progress import Chosen, Progress
from storybank.generate._shortage import nothing_left, nothing_told
from storybank.luck import ordered
from storybank.model import Form, Situation, Triple
from storybank.model.words import Range, Scene, Theme
from storybank.number_choice import Wish
from storybank.request import Settled
from storybank.story import (
    Draft,
    Plan,
    alongside,
    drafts_for,
)
from storybank.vocabulary import Vocabulary


def choose(settled: Settled, index: int, progress: Progress) -> Chosen:
    """All choices of problem `index`.

    Situations, strategies and scenes are dealt in rounds; thing, telling and detail are those
    of highest weight; one that no numbers are left for yields to the next. A story whose keywords
    would lean to one operation, and with a class list a story that names nobody, is told only
    where no other is left, and so are numbers that show little of a strategy asked for by name.
    Raises NoNumbersError, with the largest count possible, where nothing
    is left at all.
    """
    chosen = _searched(settled, index, progress)
    if chosen is not None:
        return chosen
    if not progress.tellable and not settled.vocabulary.shipped:
        raise NoNumbersError(nothing_told(settled))
    if settled.number_sets:
        without = tuple(_without_a_set(settled, index, progress))
        raise NoNumbersError(shortage(settled.number_sets, without, settled.count, index))
    raise NoNumbersError(nothing_left(settled, index))


def _searched(settled: Settled, index: int, progress: Progress) -> Chosen | None:
    search = Search(settled, index, progress)
    for naming in (True, False) if settled.roster.class_list else (False,):
        for balancing in (True, False):
            for wide in (True, False) if settled.number_sets else (False,):
                for showing in (True, False):
                    search.naming, search.balancing = naming, balancing
                    search.wide, search.showing = wide, showing
                    chosen = progress.situations.deal(search.situation)
                    if chosen is not None:
                        return chosen
    return None


def _without_a_set(settled: Settled, index: int, progress: Progress) -> Iterable[int]:
    """The number sets without which a story could be told; `progress` is of no more use then."""
    for limit in settled.number_sets:
        rest = tuple(one for one in settled.number_sets if one != limit)
        progress.spent.clear()
        trial = replace(settled, number_sets=rest, within=rest[0])
        if _searched(trial, index, progress) is not None:
            yield limit


class Search:
    """The search for the choices of one problem; each step asks the next for a way on."""

    def __init__(self, settled: Settled, index: int, progress: Progress) -> None:
        self.settled = settled
        self.progress = progress
        self.key = f"{settled.seed}/{index}"
        self.crossing = settled.crossings[index]
        self.naming = settled.roster.class_list
        self.balancing = True
        self.showing = True
        self.wide = False
        """Whether only stories count that have room for large numbers of the largest set."""
        self.shut: frozenset[str] = frozenset()
        self.pair = settled.pairs[index % len(settled.pairs)] if settled.pairs else None

    def situation(self, situation_id: str) -> Chosen | None:
        situation = situations.get(situation_id)
        if self.pair and situation.operation != self.pair.operation:
            return None
        self.shut = self.progress.keywords.shut(situation, balancing=self.balancing)
        wished = self.settled.strategies_for[situation_id]
        if not wished:
            return self.strategy(situation, None)
        return self.progress.strategies.deal(
            lambda name: self.strategy(situation, name) if name in wished else None
        )

    def strategy(self, situation: Situation, strategy: str | None) -> Chosen | None:
        if self.pair is None:
            return self.unless_spent(
                (situation.id, strategy, *self.wanted()),
                lambda: self.progress.scenes.deal(
                    lambda key: self.unless_spent(
                        (
                            *(key, situation.id, strategy),
                            *self.wanted(),
                        ),
                        lambda: self.scene(key, situation, strategy),
                    )
                ),
            )
        told = number_choice.for_pair(
            self.pair.a,
            self.pair.b,
            self.pair.operation,
            situation.id,
            self.settled.within,
            strategy,
        )
        if told is None or not told.ways:
            return None
        way = told.ways[0]
        return self.progress.scenes.deal(
            lambda key: self.pair_scene(key, situation, told.triple, way.strategy, way.form)
        )

    def wanted(self) -> tuple[Hashable, ...]:
        """What the search holds out for at present."""
        return self.crossing, self.naming, self.wide, self.showing, self.shut

    def unless_spent(self, what: Hashable, search: Callable[[], Chosen | None]) -> Chosen | None:
        if what in self.progress.spent:
            return None
        chosen = search()
        if chosen is None:
            self.progress.spent.add(what)
        return chosen

    def scene(self, key: str, situation: Situation, strategy: str | None) -> Chosen | None:
        spent = self.progress.spent
        for theme, plan, levels in self.plans(key, situation):
            if self.settled.number_sets:
                wish = self.wish(situation, strategy, plan, levels)
                chosen = self.with_sets(theme, situation, plan, levels, wish)
                if chosen is None:
                    continue
                return chosen
            supply = number_choice.supply(self.wish(situation, strategy, plan, levels))
            well_only = self.showing and supply.thin is not None
            if (supply, well_only) in spent:
                continue
            triple = number_choice.choose(
                supply, f"{self.key}/numbers", self.progress.triples, preferred_only=well_only
            )
            if triple is None:
                spent.add((supply, well_only))
                continue
            if situation.both_parts:
                return Chosen(theme, situation, plan, triple, None, None, levels)
            name = strategy or supply.strategy(triple, f"{self.key}/strategy")
            form = supply.form(triple, name)
            extra = self.extra(plan, triple)
            if plan.added and extra is None:
                continue
            return Chosen(theme, situation, plan, triple, name, form, levels, extra)
        return None

    def with_sets(
        self,
        theme: Theme,
        situation: Situation,
        plan: Plan,
        levels: tuple[Plan, ...],
        wish: Wish,
    ) -> Chosen | None:
        limits = self.settled.number_sets
        if self.wide and not is_wide(wish, limits):
            return None
        sets = choose_sets(wish, limits, self.key, self.progress.triples)
        if sets is None:
            return None
        one = sets[0]
        return Chosen(theme, situation, plan, one.triple, one.strategy, one.form, levels, sets=sets)

    def extra(self, plan: Plan, triple: Triple) -> int | None:
        return extra_number(plan, triple, self.settled.within, self.key)

    def pair_scene(
        self, key: str, situation: Situation, triple: Triple, strategy: str, form: Form
    ) -> Chosen | None:
        for theme, plan, levels in self.plans(key, situation):
            held = zip((triple.a, triple.b, triple.c), _room((plan, *levels)), strict=True)
            fits = all(low <= number <= high for number, (low, high) in held)
            if fits and (plan, triple) not in self.progress.stories:
                extra = self.extra(plan, triple)
                if plan.added is None or extra is not None:
                    return Chosen(theme, situation, plan, triple, strategy, form, levels, extra)
        return None

    def plans(
        self, key: str, situation: Situation
    ) -> Iterable[tuple[Theme, Plan, tuple[Plan, ...]]]:
        name, _, scene_id = key.partition("/")
        theme = self.settled.theme(name)
        scene = theme.scenes[scene_id]
        for thing in ordered(self.things(scene), f"{self.key}/thing", str):
            found = self.drafts(theme, scene, thing, situation.id, self.settled.vocabulary)
            for telling in ordered(tuple(found), f"{self.key}/telling", str):
                for draft in ordered(found[telling], f"{self.key}/detail", lambda one: one.detail):
                    plan = draft.plan
                    if plan is None:
                        continue
                    if not keeps_limits(plan, situation.id, theme, self.settled.vocabulary):
                        continue
                    self.progress.tellable = True
                    if self.naming and not plan.skeleton.people:
                        continue
                    levels = self.levels(theme, scene, thing, situation, draft, plan)
                    if len(levels) < len(self.settled.side_by_side):
                        continue
                    if all(self.shut.isdisjoint(one.skeleton.keywords) for one in (plan, *levels)):
                        for told in changed_plans(
                            self.settled, plan, theme, scene, situation, self.key
                        ):
                            if self.progress.only is None or self.progress.only(told):
                                yield theme, told, levels

    def things(self, scene: Scene) -> tuple[str, ...]:
        """What the scene can tell of: things to count, or measured ones where units are asked."""
        units = self.settled.units
        return story.measured_things(scene, units) if units else scene.things

    def drafts(
        self, theme: Theme, scene: Scene, thing: str, situation_id: str, pack: Vocabulary
    ) -> Mapping[str, tuple[Draft, ...]]:
        find = story.measured_drafts if self.settled.units else drafts_for
        return find(theme, scene, thing, situation_id, pack)

    def levels(
        self,
        theme: Theme,
        scene: Scene,
        thing: str,
        situation: Situation,
        draft: Draft,
        plan: Plan,
    ) -> tuple[Plan, ...]:
        """The plans of the same events at the levels asked for, up to one that has none."""
        found = []
        for pack in self.settled.side_by_side:
            drafts = self.drafts(theme, scene, thing, situation.id, pack)
            same = plan if pack == self.settled.vocabulary else None
            one = same or alongside(plan, draft.events, drafts, f"{self.key}/telling")
            if one is None:
                break
            found.append(one)
        return tuple(found)

    def wish(
        self, situation: Situation, strategy: str | None, plan: Plan, levels: tuple[Plan, ...]
    ) -> Wish:
        return Wish(
            situation=situation.id,
            strategy=strategy,
            limit=self.settled.within,
            crossing=self.crossing,
            room=_room((plan, *levels)),
            diagnose=self.settled.diagnose,
            keywords=plan.skeleton.keywords if self.settled.diagnose else (),
        )


def _room(plans: Sequence[Plan]) -> tuple[Range, Range, Range]:
    """The numbers that every one of the plans has room for."""
    first, *rest = (plan.room for plan in plans)
    for room in rest:
        a, b, c = ((max(x[0], y[0]), min(x[1], y[1])) for x, y in zip(first, room, strict=True))
        first = (a, b, c)
    return first
