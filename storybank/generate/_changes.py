"""The changes of a one-step story that a set asks for: in its plan, its numbers, the problem."""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from storybank import story, vocabulary
from storybank.generate._limits import keeps_limits
from storybank.luck import highest, ordered
from storybank.model import Extra, Missing, NumberSet, Problem, Situation, Triple
from storybank.model.words import Range, Scene, Theme
from storybank.people import Person
from storybank.request import Settled
from storybank.story import Plan
from storybank.vocabulary import Vocabulary

if TYPE_CHECKING:
    from storybank.generate._progress import Chosen


def roomy(settled: Settled, pack: Vocabulary) -> Vocabulary:
    """The pack by whose limits a story is told: with a sentence more for an extra number."""
    return vocabulary.with_one_more_sentence(pack) if settled.extra_number else pack


def changed_plans(
    settled: Settled, plan: Plan, theme: Theme, scene: Scene, situation: Situation, key: str
) -> Iterator[Plan]:
    """The plan as it is told: as it is, or with what the set asks for, the luckiest first."""
    pack = roomy(settled, settled.vocabulary)
    if settled.extra_number:
        found = story.with_extra(plan, theme, scene, pack)
        some: Sequence[Plan] = ordered(found, f"{key}/extra", lambda one: one.detail)[:1]
    elif settled.missing:
        found = story.with_missing(plan, theme, scene, situation.id, pack)
        some = ordered(found, f"{key}/missing", lambda one: one.detail)
    else:
        yield plan
        return
    yield from (one for one in some if keeps_limits(one, situation.id, theme, pack))


def extra_number(plan: Plan, triple: Triple, limit: int, key: str) -> int | None:
    """A number that is not needed, like the others in size where there is room; None without room.

    It is none of the three numbers of the story, nor one that adding or taking away two of them
    would give.
    """
    if plan.added is None:
        return None
    a, b, c = triple.a, triple.b, triple.c
    never = {a, b, c, a + c, b + c, abs(a - b)}
    low, high = plan.added.room
    near = (max(low, min(a, b) // 2), min(high, 2 * c, limit))
    found = _free(near, never) or _free((low, min(high, limit)), never)
    return highest(found, f"{key}/extra-number", str) if found else None


def _free(room: Range, never: Collection[int]) -> list[int]:
    return [one for one in range(room[0], room[1] + 1) if one not in never]


def applied(problem: Problem, chosen: "Chosen", people: Sequence[Person]) -> Problem:
    """The problem with what was changed about its numbers said."""
    plan = chosen.plan
    if plan.added is not None and chosen.extra is not None:
        return replace(problem, extra=(Extra(chosen.extra, plan.added.things),))
    if plan.left_out is not None:
        role = plan.left_out.role
        ask = story.asked(plan.left_out.ask, people)
        return replace(problem, missing=Missing(role, problem.numbers[role], ask))
    return problem


def number_set(problem: Problem, limit: int) -> NumberSet:
    """The set of numbers to `limit` with which a problem was told."""
    assert isinstance(problem.answer, int) and problem.strategy is not None
    return NumberSet(
        limit=limit,
        numbers=problem.numbers,
        given=problem.story.given,
        answer=problem.answer,
        answer_sentence=problem.story.answer_sentence,
        strategy=problem.strategy,
        equations=problem.equations,
        related_facts=problem.related_facts,
        solution=problem.solution,
        watch_for=problem.watch_for,
    )
