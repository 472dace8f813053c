"""Makes one problem of three or four addends: parts of a scene, numbers, sentences, solution."""

from collections.abc import Iterator
from dataclasses import replace

from storybank import checks, mistakes, number_choice, situations, solution, story
from storybank.errors import NoNumbersError, ProblemFaultError
from storybank.generate._assemble import code_for, reading_of
from storybank.generate._limits import keeps_limits
from storybank.generate._progress import Progress
from storybank.generate._shortage import nothing_told
from storybank.luck import ordered
from storybank.model import Form, Problem, Solution, Triple, WatchFor
from storybank.model.words import Theme
from storybank.number_choice import SumWish
from storybank.request import Settled
from storybank.steps import OF_SUMS
from storybank.story import SumPlan

STRATEGY = "friendly-pair"
"""How a longer sum is worked out; it is no strategy for two numbers, so no catalogue lists it."""
_Chosen = tuple[Theme, SumPlan, tuple[int, ...]]


def make_sum(settled: Settled, index: int, progress: Progress) -> Problem:
    """Problem `index`, of three or four addends, of the set that `settled` describes, checked.

    Raises NoNumbersError where no numbers are left, ProblemFaultError where a law is broken.
    """
    theme, plan, parts = _choose(settled, index, progress)
    people = progress.dealer.deal(
        progress.dealt + index, plan.skeleton.people, settled.vocabulary.name_letters
    )
    whole = sum(parts)
    numbers = {f"part{at}": part for at, part in enumerate(parts, start=1)} | {"whole": whole}
    told = story.tell(plan, people, {**numbers, "answer": whole})
    told = replace(told, word_bank=story.translated(told.word_bank, settled.translations))
    (pair,) = number_choice.friendly_pairs(parts)
    worked = solution.sum_solution(parts, pair)
    problem = Problem(
        code=code_for(told, OF_SUMS[0], (*parts, whole), progress.codes),
        theme=theme.header.id,
        scene=plan.scene.split("/", 1)[1],
        situation=OF_SUMS[0],
        strategy=STRATEGY,
        vocabulary=settled.vocabulary.id,
        standards=situations.standards_of_sum(len(parts), whole),
        numbers=numbers,
        unknown="whole",
        answer=whole,
        story=told,
        equations=solution.sum_equations(parts),
        related_facts=(),
        solution=worked,
        watch_for=_watch_for(parts, plan, worked),
        second_way=None,
        reading=reading_of(told, theme),
    )
    context = checks.Context(
        limit=settled.within,
        vocabulary=settled.vocabulary,
        theme=theme,
        names_are_listed=not settled.roster.class_list,
        people=people,
    )
    faults = checks.judge(problem, context)
    if faults:
        raise ProblemFaultError(
            f'The problem "{problem.text}" ({told.telling}, {plan.scene}) breaks a law: '
            f"{' '.join(faults)} This is a fault of the theme pack or of Storybank; please report "
            "it with its seed and number."
        )
    progress.codes.add(problem.code)
    progress.sums.add(tuple(sorted(parts)))
    return problem


def _watch_for(parts: tuple[int, ...], plan: SumPlan, worked: Solution) -> tuple[WatchFor, ...]:
    whole = sum(parts)
    return mistakes.watch_for(
        mistakes.Case(
            situation=situations.get(OF_SUMS[0]),
            triple=Triple(whole - parts[-1], parts[-1], whole),
            strategy=None,
            form=Form.ADD,
            solution=worked,
            answer=whole,
            given=parts,
            keywords=plan.skeleton.keywords,
            parts=parts,
        )
    )


def _choose(settled: Settled, index: int, progress: Progress) -> _Chosen:
    """The theme, the plan and the numbers of problem `index`; scenes are dealt in rounds."""
    for naming in (True, False) if settled.roster.class_list else (False,):

        def scene(key: str, naming: bool = naming) -> _Chosen | None:
            return _in_scene(settled, f"{settled.seed}/{index}", progress, key, naming)

        chosen = progress.scenes.deal(scene)
        if chosen is not None:
            return chosen
    if not progress.tellable and not settled.vocabulary.shipped:
        raise NoNumbersError(nothing_told(settled))
    raise NoNumbersError(
        f"{settled.count} problems of {settled.addends} addends were asked for, but only {index} "
        f"different ones can be told within {settled.within} in these themes. The largest count "
        f"possible is {index}. Ask for other themes, or raise --within"
        f"{', or leave out --keywords none' if settled.keywords == 'none' else ''}."
    )


def _in_scene(
    settled: Settled, luck: str, progress: Progress, key: str, naming: bool
) -> _Chosen | None:
    theme_id, _, scene_id = key.partition("/")
    theme = settled.theme(theme_id)
    for plan in _plans(settled, theme, scene_id, luck):
        progress.tellable = True
        if settled.keywords == "none" and plan.skeleton.keywords:
            continue
        if naming and not plan.skeleton.people:
            continue
        if progress.only is not None and not progress.only(plan):
            continue
        supply = number_choice.sum_supply(SumWish(settled.addends, settled.within, plan.room))
        parts = supply.choose(f"{luck}/numbers", progress.sums)
        if parts is not None:
            return theme, plan, parts
    return None


def _plans(settled: Settled, theme: Theme, scene_id: str, luck: str) -> Iterator[SumPlan]:
    """The plans of a scene in the order of luck: the thing, the telling, then its detail."""
    scene, pack = theme.scenes[scene_id], settled.vocabulary
    situation = "/".join(OF_SUMS * (settled.addends - 1))
    for thing in ordered(scene.things, f"{luck}/thing", str):
        plans = story.sum_plans(theme, scene, thing, settled.addends, pack)
        for telling in ordered({plan.telling: None for plan in plans}, f"{luck}/telling", str):
            some = [plan for plan in plans if plan.telling == telling]
            for plan in ordered(some, f"{luck}/detail", lambda one: one.detail):
                if keeps_limits(plan, situation, theme, pack):
                    yield plan
