"""One problem, stage by stage: this is the table of contents of the whole making."""

from storybank import checks, facts, mistakes, solution, story
from storybank.errors import ProblemFaultError
from storybank.generate._assemble import assemble
from storybank.generate._choice import Chosen, Progress, choose
from storybank.model import Problem, SecondWay, Solution, Story, WatchFor
from storybank.request import Settled

__all__ = ["Progress", "make_problem"]


def make_problem(settled: Settled, index: int, progress: Progress) -> Problem:
    """Problem `index` of the set that `settled` describes, finished and checked.

    `progress` knows what earlier problems of the set have used and notes what this one uses.
    Raises NoNumbersError where no numbers are left, ProblemFaultError where a law is broken.
    """
    chosen = choose(settled, index, progress)
    people = progress.dealer.deal(index, chosen.plan.skeleton.people, _letters(settled))
    told = story.tell(chosen.plan, people, story.numbers_told(chosen.situation, chosen.triple))
    worked = _worked(chosen, settled.within)
    problem = assemble(
        chosen,
        told,
        vocabulary=settled.vocabulary,
        equations=solution.equations(chosen.situation, chosen.triple),
        related_facts=() if chosen.situation.both_parts else facts.related_facts(chosen.triple),
        solution=worked,
        watch_for=_watch_for(chosen, worked, told),
        second_way=_second_way(chosen, settled.within),
        taken=progress.codes,
    )
    context = checks.Context(
        limit=settled.within,
        vocabulary=settled.vocabulary,
        theme=chosen.theme,
        asked_pair=bool(settled.pairs),
        names_are_listed=not settled.roster.class_list,
        people=people,
    )
    faults = checks.judge(problem, context)
    if faults:
        raise ProblemFaultError(
            f'The problem "{problem.text}" ({problem.situation}/{told.telling}, '
            f"{chosen.plan.scene}) breaks a law: {' '.join(faults)} This is a fault of the theme "
            "pack or of Storybank; please report it with its seed and number."
        )
    progress.note(problem, chosen)
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


def _watch_for(chosen: Chosen, worked: Solution, told: Story) -> tuple[WatchFor, ...]:
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
            keywords=chosen.plan.skeleton.keywords,
        )
    )


def _letters(settled: Settled) -> int:
    return settled.vocabulary.name_letters
