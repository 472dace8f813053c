"""Makes one problem of two steps: chooses its parts and numbers, tells it, works out both steps."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from storybank import checks, facts, mistakes, number_choice, situations, solution, story
from storybank.errors import NoNumbersError, ProblemFaultError
from storybank.generate._assemble import code_for, reading_of
from storybank.generate._limits import keeps_limits
from storybank.generate._progress import Progress
from storybank.generate._shortage import no_steps_left
from storybank.luck import ordered
from storybank.model import Form, Problem, Situation, Step, Story, Triple, WatchFor
from storybank.model.words import Theme
from storybank.number_choice import TwoStepWish, Wish
from storybank.request import Settled
from storybank.situations import two_steps
from storybank.story import Plan, TwoStepDraft


@dataclass(frozen=True, slots=True)
class _Way:
    """One step with its numbers and the strategy, in a form, by which it is taught."""

    situation: Situation
    triple: Triple
    strategy: str
    form: Form


@dataclass(frozen=True, slots=True)
class _Chosen:
    theme: Theme
    plan: Plan
    first: _Way
    then: _Way


def make_two_steps(settled: Settled, index: int, progress: Progress) -> Problem:
    """Problem `index`, of two steps, of the set that `settled` describes, finished and checked.

    Raises NoNumbersError where no numbers are left, ProblemFaultError where a law is broken.
    """
    chosen = _choose(settled, index, progress)
    count = chosen.plan.skeleton.people
    people = progress.dealer.deal(progress.dealt + index, count, settled.vocabulary.name_letters)
    first, then = chosen.first, chosen.then
    numbers = story.numbers_of_steps(first.situation, first.triple, then.situation, then.triple)
    told = story.tell(chosen.plan, people, numbers)
    told = replace(told, word_bank=story.translated(told.word_bank, settled.translations))
    one, two = (_step(way, settled.within) for way in (first, then))
    whole = max(first.triple.c, then.triple.c)
    pair = f"{first.situation.id}/{then.situation.id}"
    problem = Problem(
        code=code_for(told, pair, then.triple, progress.codes),
        theme=chosen.theme.header.id,
        scene=chosen.plan.scene.split("/", 1)[1],
        situation=then.situation.id,
        strategy=two.strategy,
        vocabulary=settled.vocabulary.id,
        standards=two_steps.standards(first.situation, then.situation, whole),
        numbers=two.numbers,
        unknown=two.unknown,
        answer=two.answer,
        story=told,
        equations=two.equations,
        related_facts=two.related_facts,
        solution=two.solution,
        watch_for=_watch_for(chosen, one, two, told),
        second_way=None,
        reading=reading_of(told, chosen.theme),
        steps=(one, two),
        hidden=one.answer,
    )
    context = checks.Context(
        limit=settled.within,
        vocabulary=settled.vocabulary,
        theme=chosen.theme,
        names_are_listed=not settled.roster.class_list,
        people=people,
    )
    faults = checks.judge(problem, context)
    if faults:
        raise ProblemFaultError(
            f'The problem "{problem.text}" ({first.situation.id}, {told.telling}, '
            f"{chosen.plan.scene}) breaks a law: {' '.join(faults)} This is a fault of the theme "
            "pack or of Storybank; please report it with its seed and number."
        )
    progress.codes.add(problem.code)
    progress.step_numbers.add(number_choice.key_of(first.triple, then.triple))
    return problem


def _step(way: _Way, limit: int) -> Step:
    situation, triple = way.situation, way.triple
    numbers = dict(zip(situation.roles, (triple.a, triple.b, triple.c), strict=True))
    if situation.operation == "+":
        pair = triple.a, triple.b
    else:
        known = triple.a if situation.unknown == situation.roles[1] else triple.b
        pair = triple.c, known
    return Step(
        situation=situation.id,
        strategy=way.strategy,
        numbers=numbers,
        unknown=situation.unknown,
        answer=numbers[situation.unknown],
        equations=solution.equations(situation, triple),
        related_facts=facts.related_facts(triple),
        solution=solution.work_out(way.strategy, way.form, *pair, limit),
    )


def _watch_for(chosen: _Chosen, one: Step, two: Step, told: Story) -> tuple[WatchFor, ...]:
    """The wrong answers of the second step, and the right one of the first."""
    then = chosen.then
    first_told = {number for role, number in one.numbers.items() if role != one.unknown}
    return mistakes.watch_for(
        mistakes.Case(
            situation=then.situation,
            triple=then.triple,
            strategy=then.strategy,
            form=then.form,
            solution=two.solution,
            answer=two.answer,
            given=tuple(number for number in told.given if number not in first_told),
            keywords=chosen.plan.skeleton.then_keywords,
            hidden=one.answer,
        )
    )


def _choose(settled: Settled, index: int, progress: Progress) -> _Chosen:
    """All choices of problem `index`: pairs of situations and scenes are dealt in rounds.

    With a class list a story that names nobody is told only where no other is left.
    """
    for naming in (True, False) if settled.roster.class_list else (False,):
        search = _Search(settled, f"{settled.seed}/{index}", progress, naming)
        chosen = progress.step_pairs.deal(search.pair)
        if chosen is not None:
            return chosen
    raise NoNumbersError(no_steps_left(settled, index, tellable=progress.tellable))


@dataclass(frozen=True, slots=True)
class _Search:
    settled: Settled
    key: str
    progress: Progress
    naming: bool

    def pair(self, name: str) -> _Chosen | None:
        first, _, then = name.partition("/")
        spent = (name, self.naming)
        if spent in self.progress.spent:
            return None
        found = self.progress.scenes.deal(lambda key: self.scene(key, first, then))
        if found is None:
            self.progress.spent.add(spent)
        return found

    def scene(self, key: str, first: str, then: str) -> _Chosen | None:
        spent = (key, first, then, self.naming)
        if spent in self.progress.spent:
            return None
        theme_id, _, scene_id = key.partition("/")
        theme = self.settled.theme(theme_id)
        for draft, plan in self.plans(theme, scene_id, first, then):
            for one, two in self.strategies(first, then):
                chosen = self.numbers(theme, draft, plan, (first, one), (then, two))
                if chosen is not None:
                    return chosen
        self.progress.spent.add(spent)
        return None

    def plans(
        self, theme: Theme, scene_id: str, first: str, then: str
    ) -> Iterator[tuple[TwoStepDraft, Plan]]:
        scene, pack = theme.scenes[scene_id], self.settled.vocabulary
        for thing in ordered(scene.things, f"{self.key}/thing", str):
            drafts = story.two_step_drafts(theme, scene, thing, first, then, pack)
            by_telling: dict[str, list[TwoStepDraft]] = {}
            for draft in drafts:
                by_telling.setdefault(draft.telling, []).append(draft)
            for telling in ordered(tuple(by_telling), f"{self.key}/telling", str):
                found = by_telling[telling]
                for draft in ordered(found, f"{self.key}/detail", lambda one: one.detail):
                    plan = draft.plan
                    if plan is None or not keeps_limits(plan, f"{first}/{then}", theme, pack):
                        continue
                    self.progress.tellable = True
                    if self.may_tell(plan, then):
                        yield draft, plan

    def may_tell(self, plan: Plan, then: str) -> bool:
        if self.naming and not plan.skeleton.people:
            return False
        if self.progress.only is not None and not self.progress.only(plan):
            return False
        return self.settled.keywords != "none" or self.without_keywords(plan, then)

    def without_keywords(self, plan: Plan, then: str) -> bool:
        """Whether no keyword is told; a comparison keeps its own word, and no other stands by."""
        skeleton = plan.skeleton
        if situations.get(then).family != "compare":
            return not skeleton.keywords
        return not skeleton.opening_keywords

    def strategies(self, first: str, then: str) -> Iterator[tuple[str | None, str | None]]:
        """The strategies to try for both steps, in the order of luck; None stands for any."""
        wished = self.settled.strategies_for
        for one in ordered(wished[first] or (None,), f"{self.key}/first", str):
            for two in ordered(wished[then] or (None,), f"{self.key}/then", str):
                yield one, two

    def numbers(
        self,
        theme: Theme,
        draft: TwoStepDraft,
        plan: Plan,
        first: tuple[str, str | None],
        then: tuple[str, str | None],
    ) -> _Chosen | None:
        limit = self.settled.within
        wishes = (
            Wish(first[0], first[1], limit, room=draft.room),
            Wish(then[0], then[1], limit, room=draft.then_room),
        )
        supply = number_choice.two_step_supply(
            TwoStepWish(*wishes, draft.hidden_in_then, self.settled.small, draft.received)
        )
        found = supply.choose(f"{self.key}/numbers", self.progress.step_numbers)
        if found is None:
            return None
        ways = []
        for wish, triple, step in zip(wishes, found, ("first", "then"), strict=True):
            one = number_choice.supply(wish)
            strategy = wish.strategy or one.strategy(triple, f"{self.key}/{step}/strategy")
            assert strategy is not None
            form = one.form(triple, strategy)
            ways.append(_Way(situations.get(wish.situation), triple, strategy, form))
        return _Chosen(theme, plan, ways[0], ways[1])
