"""Chooses situation, strategy, scene, thing, telling and numbers of one problem, in this order."""

from collections.abc import Callable, Hashable, Iterable
from dataclasses import dataclass, field

from storybank import number_choice, situations, strategies, themes
from storybank.errors import NoNumbersError
from storybank.luck import Deck, ordered
from storybank.model import Form, Problem, Situation, Triple
from storybank.model.words import Theme
from storybank.number_choice import Wish
from storybank.people import Dealer
from storybank.request import Pair, Settled
from storybank.story import Plan, drafts_for


@dataclass(frozen=True, slots=True)
class Chosen:
    """What one problem is made of; `strategy` and `form` are None for both-parts-unknown."""

    theme: Theme
    situation: Situation
    plan: Plan
    triple: Triple
    strategy: str | None
    form: Form | None


@dataclass
class Progress:
    """What the problems of a set made so far have used up."""

    situations: Deck
    strategies: Deck
    scenes: Deck
    dealer: Dealer
    triples: set[tuple[int, int]] = field(default_factory=set)
    stories: set[tuple[Plan, Triple]] = field(default_factory=set)
    codes: set[str] = field(default_factory=set)
    spent: set[Hashable] = field(default_factory=set)
    """Where no numbers are left; none can come back, for what is used stays used."""

    @classmethod
    def of(cls, settled: Settled) -> "Progress":
        """The progress of a set of which nothing is made yet."""
        scenes = [
            scene.key for name in settled.themes for scene in themes.get(name).scenes.values()
        ]
        return cls(
            situations=Deck(settled.situations, f"{settled.seed}/situation"),
            strategies=Deck(settled.strategies, f"{settled.seed}/strategy"),
            scenes=Deck(scenes, f"{settled.seed}/scene"),
            dealer=Dealer(settled.roster, settled.seed),
        )

    def note(self, problem: Problem, chosen: Chosen) -> None:
        """Remembers what a finished problem has used."""
        self.triples.add(chosen.triple.key)
        self.stories.add((chosen.plan, chosen.triple))
        self.codes.add(problem.code)


def choose(settled: Settled, index: int, progress: Progress) -> Chosen:
    """All choices of problem `index`.

    Situations, strategies and scenes are dealt in rounds; thing, telling and detail are those
    of highest weight; one that no numbers are left for yields to the next. With a class list a
    story that names nobody is told only where none that names a child is left. Raises
    NoNumbersError, with the largest count possible, where nothing is left at all.
    """
    search = _Search(settled, index, progress)
    chosen = progress.situations.deal(search.situation)
    if chosen is None and search.naming:
        search.naming = False
        chosen = progress.situations.deal(search.situation)
    if chosen is None:
        raise NoNumbersError(_nothing_left(settled, index))
    return chosen


class _Search:
    """The search for the choices of one problem; each step asks the next for a way on."""

    def __init__(self, settled: Settled, index: int, progress: Progress) -> None:
        self.settled = settled
        self.progress = progress
        self.key = f"{settled.seed}/{index}"
        self.crossing = settled.crossings[index]
        self.naming = settled.roster.class_list
        self.pair = settled.pairs[index % len(settled.pairs)] if settled.pairs else None

    def situation(self, situation_id: str) -> Chosen | None:
        situation = situations.get(situation_id)
        if self.pair and situation.operation != self.pair.operation:
            return None
        wished = self.settled.strategies_for[situation_id]
        if not wished:
            return self.strategy(situation, None)
        return self.progress.strategies.deal(
            lambda name: self.strategy(situation, name) if name in wished else None
        )

    def strategy(self, situation: Situation, strategy: str | None) -> Chosen | None:
        if self.pair is None:
            return self.unless_spent(
                (situation.id, strategy, self.crossing, self.naming),
                lambda: self.progress.scenes.deal(
                    lambda key: self.unless_spent(
                        (key, situation.id, strategy, self.crossing, self.naming),
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

    def unless_spent(self, what: Hashable, search: Callable[[], Chosen | None]) -> Chosen | None:
        if what in self.progress.spent:
            return None
        chosen = search()
        if chosen is None:
            self.progress.spent.add(what)
        return chosen

    def scene(self, key: str, situation: Situation, strategy: str | None) -> Chosen | None:
        spent = self.progress.spent
        for theme, plan in self.plans(key, situation):
            supply = number_choice.supply(self.wish(situation, strategy, plan))
            if supply in spent:
                continue
            triple = number_choice.choose(supply, f"{self.key}/numbers", self.progress.triples)
            if triple is None:
                spent.add(supply)
                continue
            if situation.both_parts:
                return Chosen(theme, situation, plan, triple, None, None)
            name = strategy or supply.strategy(triple, f"{self.key}/strategy")
            form = supply.form(triple, name)
            return Chosen(theme, situation, plan, triple, name, form)
        return None

    def pair_scene(
        self, key: str, situation: Situation, triple: Triple, strategy: str, form: Form
    ) -> Chosen | None:
        for theme, plan in self.plans(key, situation):
            held = zip((triple.a, triple.b, triple.c), plan.room, strict=True)
            fits = all(low <= number <= high for number, (low, high) in held)
            if fits and (plan, triple) not in self.progress.stories:
                return Chosen(theme, situation, plan, triple, strategy, form)
        return None

    def plans(self, key: str, situation: Situation) -> Iterable[tuple[Theme, Plan]]:
        name, _, scene_id = key.partition("/")
        theme = themes.get(name)
        scene = theme.scenes[scene_id]
        for thing in ordered(scene.things, f"{self.key}/thing", str):
            found = drafts_for(theme, scene, thing, situation.id, self.settled.vocabulary)
            for telling in ordered(tuple(found), f"{self.key}/telling", str):
                for draft in ordered(found[telling], f"{self.key}/detail", lambda one: one.detail):
                    plan = draft.plan
                    if plan is not None and (plan.skeleton.people or not self.naming):
                        yield theme, plan

    def wish(self, situation: Situation, strategy: str | None, plan: Plan) -> Wish:
        return Wish(
            situation=situation.id,
            strategy=strategy,
            limit=self.settled.within,
            crossing=self.crossing,
            room=plan.room,
            diagnose=self.settled.diagnose,
            keywords=plan.skeleton.keywords if self.settled.diagnose else (),
        )


def _nothing_left(settled: Settled, made: int) -> str:
    if settled.pairs:
        return _no_pair_left(settled.pairs, settled, made)
    asked = f"{settled.count} problems were asked for"
    reasons = []
    for situation_id in settled.situations:
        for strategy in settled.strategies_for[situation_id] or (None,):
            wish = Wish(
                situation=situation_id,
                strategy=strategy,
                limit=settled.within,
                crossing=settled.crossings[made],
                diagnose=settled.diagnose,
            )
            reasons.append(number_choice.explain_shortage(wish, settled.count))
    said = " ".join(dict.fromkeys(reasons[:3]))
    if made == 0:
        return f"{asked}, and no numbers meet all wishes. {said}"
    return (
        f"{asked}, but only {made} different sets of three numbers meet all wishes in these "
        f"scenes. The largest count possible is {made}. {said}"
    )


def _no_pair_left(pairs: tuple[Pair, ...], settled: Settled, made: int) -> str:
    pair = pairs[made % len(pairs)]
    named = [name for name in settled.strategies if name != "any"]
    for name in named:
        strategies.get(name)
    by = f" by {', '.join(named)}" if named else ""
    if made < len(pairs):
        return (
            f'No story can be told for the pair "{pair}"{by}: no scene of the themes '
            f"{', '.join(settled.themes)} has room for these numbers in the situations "
            f"{', '.join(settled.situations)}. Choose other numbers, or leave out --strategy, "
            "--situation or --theme."
        )
    return (
        f"{settled.count} problems were asked for, but only {made} different stories can be told "
        f"for these pairs{by}. The largest count possible is {made}; add pairs or themes."
    )
