"""One problem, stage by stage: this is the table of contents of the whole making."""

from dataclasses import replace

from storybank import checks, facts, mistakes, solution, story
from storybank.errors import ProblemFaultError
from storybank.generate._assemble import assemble
from storybank.generate._choice import Chosen, Progress, choose
from storybank.model import Problem, SecondWay, Solution, Story, WatchFor
from storybank.people import Person
from storybank.request import Settled
from storybank.vocabulary import Vocabulary

__all__ = ["Progress", "make_problem"]


def make_problem(settled: Settled, index: int, progress: Progress) -> Problem:
    """Problem `index` of the set that `settled` describes, finished and checked.

    `progress` knows what earlier problems of the set have used and notes what this one uses.
    Raises NoNumbersError where no numbers are left, ProblemFaultError where a law is broken.
    """
    chosen = choose(settled, index, progress)
    people = progress.dealer.deal(index, chosen.plan.skeleton.people, _letters(settled))
    problem = _told(settled, chosen, chosen.plan, settled.vocabulary, people, progress)
    levels = tuple(
        replace(_told(settled, chosen, plan, pack, people, progress), code=problem.code)
        for pack, plan in zip(settled.side_by_side, chosen.levels, strict=True)
    )
    progress.note(problem, chosen)
    return replace(problem, levels=levels) if levels else problem


def _told(
    settled: Settled,
    chosen: Chosen,
    plan: story.Plan,
    vocabulary: Vocabulary,
    people: tuple[Person, ...],
    progress: Progress,
) -> Problem:
    """The problem told by a plan at a level, checked."""
    told = story.tell(plan, people, story.numbers_told(chosen.situation, chosen.triple))
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
        taken=progress.codes,
    )
    context = checks.Context(
        limit=settled.within,
        vocabulary=vocabulary,
        theme=chosen.theme,
        asked_pair=bool(settled.pairs),
        names_are_listed=not settled.roster.class_list,
        people=people,
        measured=told.unit is not None,
    )
    faults = checks.judge(problem, context)
    if faults:
        raise ProblemFaultError(
            f'The problem "{problem.text}" ({problem.situation}/{told.telling}, '
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
            given=told.given,
            keywords=keywords,
        )
    )


def _letters(settled: Settled) -> int:
    packs = (settled.vocabulary, *settled.side_by_side)
    return min(pack.name_letters for pack in packs)
