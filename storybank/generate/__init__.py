"""One problem, stage by stage: this is the table of contents of the whole making."""

from collections.abc import Collection
from dataclasses import replace
from typing import TYPE_CHECKING

from storybank import checks, facts, families, mistakes, solution, story
from storybank.errors import ProblemFaultError
from storybank.generate._assemble import assemble, reading_of
from storybank.generate._changes import applied, number_set, roomy
from storybank.generate._choice import choose
from storybank.generate._progress import Chosen, Progress
from storybank.later import later
from storybank.model import Problem, SecondWay, Solution, Story, WatchFor
from storybank.people import Person
from storybank.request import Settled
from storybank.vocabulary import Vocabulary

if TYPE_CHECKING:
    from storybank.generate._space import Choice, Choices
    from storybank.story import Plan, SumPlan

__all__ = [
    "Choice",
    "Choices",
    "Progress",
    "make_chosen",
    "make_problem",
    "reading_of",
    "told_at",
    "told_by",
]

__getattr__ = later(__name__, {"Choice": "_space", "Choices": "_space"})


def make_problem(settled: Settled, index: int, progress: Progress) -> Problem:
    """Problem `index` of the set that `settled` describes, finished and checked.

    `progress` knows what earlier problems of the set have used and notes what this one uses.
    Raises NoNumbersError where no numbers are left, ProblemFaultError where a law is broken.
    """
    # Kinds of their own are loaded only when asked for: a command starts sooner without them.
    if settled.addends > 2:
        from storybank.generate._addends import make_sum

        return make_sum(settled, index, progress)
    if settled.step_pairs:
        from storybank.generate._two_steps import make_two_steps

        return make_two_steps(settled, index, progress)
    chosen = _chosen(settled, index, progress)
    people = _people(settled, index, chosen, progress)
    taken = progress.codes
    problem = _told_in_sets(settled, chosen, chosen.plan, settled.vocabulary, people, taken)
    levels = tuple(
        replace(_told_in_sets(settled, chosen, plan, pack, people, taken), code=problem.code)
        for pack, plan in zip(settled.side_by_side, chosen.levels, strict=True)
    )
    progress.note(problem, chosen)
    family = index // families.STORIES + 1 if settled.fact_families else None
    return replace(problem, levels=levels, family=family) if levels or family else problem


def make_chosen(settled: Settled, chosen: Chosen, people: tuple[Person, ...]) -> Problem:
    """The problem of choices already made, finished and checked; another may have its code.

    Raises ProblemFaultError where a law is broken.
    """
    return _told(settled, chosen, chosen.plan, settled.vocabulary, people, ())


def told_at(
    settled: Settled,
    problem: Problem,
    people: tuple[Person, ...],
    pack: Vocabulary,
    others: tuple[Person, ...] = (),
) -> Problem:
    """A finished problem told at another level of English: same events, people and numbers.

    `settled` are the wishes that made it, `people` those that it tells of; it is told of `others`
    where these are given. Raises RequestError where it cannot be told so.
    """
    from storybank.generate._told_at import at_level

    chosen, plan = at_level(settled, problem, people, pack)
    told = _told(settled, chosen, plan, pack, others or people, ())
    return replace(told, code=problem.code)


def told_by(plan: "Plan | SumPlan", problem: Problem, people: tuple[Person, ...]) -> bool:
    """Whether a plan, told of these people with the numbers of a problem, gives its text."""
    from storybank.generate._told_at import tells

    return tells(plan, people, problem)


def _chosen(settled: Settled, index: int, progress: Progress) -> Chosen:
    """What the problem is made of; a story of a fact family is chosen with the three others."""
    if not settled.fact_families:
        return choose(settled, index, progress)
    from storybank.generate._family import of_family

    return of_family(settled, index, progress)


def _people(settled: Settled, index: int, chosen: Chosen, progress: Progress) -> tuple[Person, ...]:
    """The people of a problem; all stories of a fact family are about the same ones."""
    count, letters = chosen.plan.skeleton.people, _letters(settled)
    if not settled.fact_families:
        return progress.dealer.deal(progress.dealt + index, count, letters)
    most = max(one.plan.skeleton.people for one in progress.family)
    at = progress.dealt + index // families.STORIES
    return progress.dealer.deal(at, most, letters)[:count]


def _told_in_sets(
    settled: Settled,
    chosen: Chosen,
    plan: story.Plan,
    vocabulary: Vocabulary,
    people: tuple[Person, ...],
    taken: Collection[str],
) -> Problem:
    """The problem told with its numbers; with several sets of them, with each in turn."""
    if not chosen.sets:
        return _told(settled, chosen, plan, vocabulary, people, taken)
    told = []
    for one in chosen.sets:
        numbers = replace(chosen, triple=one.triple, strategy=one.strategy, form=one.form)
        within = replace(settled, within=one.limit)
        told.append(_told(within, numbers, plan, vocabulary, people, taken))
    limits = (one.limit for one in chosen.sets)
    sets = tuple(number_set(one, limit) for one, limit in zip(told, limits, strict=True))
    return _checked(replace(told[0], number_sets=sets), settled, chosen, plan, vocabulary, people)


def _told(
    settled: Settled,
    chosen: Chosen,
    plan: story.Plan,
    vocabulary: Vocabulary,
    people: tuple[Person, ...],
    taken: Collection[str],
) -> Problem:
    """The problem told by a plan at a level, checked; `taken` are codes that others have."""
    numbers = dict(story.numbers_told(chosen.situation, chosen.triple))
    if chosen.extra is not None:
        numbers[story.EXTRA] = chosen.extra
    told = story.tell(plan, people, numbers)
    if settled.translations:
        told = replace(told, word_bank=story.translated(told.word_bank, settled.translations))
    worked = _worked(chosen, settled.within)
    problem = assemble(
        chosen,
        told,
        vocabulary=vocabulary,
        equations=solution.equations(chosen.situation, chosen.triple),
        related_facts=() if chosen.situation.both_parts else facts.related_facts(chosen.triple),
        solution=worked,
        watch_for=_watch_for(chosen, worked, told, plan.skeleton.keywords),
        second_way=_second_way(chosen, settled.within),
        taken=taken,
    )
    problem = applied(problem, chosen, people)
    return _checked(problem, settled, chosen, plan, vocabulary, people)


def _checked(
    problem: Problem,
    settled: Settled,
    chosen: Chosen,
    plan: story.Plan,
    vocabulary: Vocabulary,
    people: tuple[Person, ...],
) -> Problem:
    """The problem, if no check finds a fault in it."""
    context = checks.Context(
        limit=settled.within,
        vocabulary=roomy(settled, vocabulary),
        theme=chosen.theme,
        asked_pair=bool(settled.pairs),
        names_are_listed=not settled.roster.class_list,
        people=people,
        measured=problem.story.unit is not None,
    )
    faults = checks.judge(problem, context)
    if faults:
        raise ProblemFaultError(
            f'The problem "{problem.text}" ({problem.situation}/{problem.story.telling}, '
            f"{plan.scene}) breaks a law: {' '.join(faults)} This is a fault of the theme "
            "pack or of Storybank; please report it with its seed and number."
        )
    return problem


def _worked(chosen: Chosen, limit: int) -> Solution:
    if chosen.strategy is None or chosen.form is None:
        return solution.all_pairs_solution(chosen.triple.c)
    return solution.work_out(chosen.strategy, chosen.form, *_pair(chosen), limit)


def _second_way(chosen: Chosen, limit: int) -> SecondWay | None:
    if chosen.strategy is None or chosen.form is None:
        return None
    return solution.second_way(chosen.strategy, chosen.form, *_pair(chosen), limit)


def _pair(chosen: Chosen) -> tuple[int, int]:
    """The pair as solved: the two parts, or the whole and the part that is given."""
    triple, situation = chosen.triple, chosen.situation
    if situation.operation == "+":
        return triple.a, triple.b
    return triple.c, triple.a if situation.unknown == situation.roles[1] else triple.b


def _watch_for(
    chosen: Chosen, worked: Solution, told: Story, keywords: tuple[str, ...]
) -> tuple[WatchFor, ...]:
    if chosen.form is None:
        return ()
    return mistakes.watch_for(
        mistakes.Case(
            situation=chosen.situation,
            triple=chosen.triple,
            strategy=chosen.strategy,
            form=chosen.form,
            solution=worked,
            answer=story.numbers_told(chosen.situation, chosen.triple)["answer"],
            given=_given(chosen, told),
            keywords=keywords,
        )
    )


def _given(chosen: Chosen, told: Story) -> tuple[int, ...]:
    """The numbers that a child works with: those told, and one that the teacher tells."""
    left_out = chosen.plan.left_out
    if left_out is None:
        return told.given
    return (*told.given, story.numbers_told(chosen.situation, chosen.triple)[left_out.role])


def _letters(settled: Settled) -> int:
    packs = (settled.vocabulary, *settled.side_by_side)
    return min(pack.name_letters for pack in packs)
