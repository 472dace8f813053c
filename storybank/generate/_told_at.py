"""The same story at another level of English: its parts are found again in the packs."""

from collections.abc import Iterator, Mapping, Sequence

from storybank import situations, story, strategies, vocabulary
from storybank.errors import RequestError
from storybank.generate._limits import keeps_limits
from storybank.generate._progress import Chosen
from storybank.model import Problem, Triple
from storybank.model.words import Theme
from storybank.people import Person
from storybank.request import Settled
from storybank.story import Draft, Plan, SumPlan
from storybank.vocabulary import Vocabulary

_ELSEWHERE = "Look at another story, or make the set at that level."


def at_level(
    settled: Settled, problem: Problem, people: tuple[Person, ...], level: Vocabulary
) -> tuple[Chosen, Plan]:
    """What a problem was made of, and the plan that tells its events at `level`.

    Raises RequestError where it is of a kind that is told at one level only, where its parts are
    not in the packs as they are now, or where that level has no words for them.
    """
    if problem.steps or problem.extra or problem.missing or len(problem.numbers) > 3:
        raise RequestError(f"stories of this kind are told at one level only. {_ELSEWHERE}")
    if problem.levels:
        raise RequestError("it stands at all four levels of English already.")
    if problem.family:
        raise RequestError(
            "the four stories of a fact family are told alike, so all stay at one level. Make the "
            "set at that level."
        )
    if problem.number_sets:
        raise RequestError(
            "a story with several sets of numbers is told at one level only. Make the set at that "
            "level."
        )
    theme = settled.theme(problem.theme)
    own = settled.vocabulary if problem.vocabulary == settled.vocabulary.id else None
    plans = _plans(theme, problem, own)
    found = next((one for one in plans if tells(one[2], people, problem)), None)
    if found is None:
        raise RequestError(f"the story was not found in its theme as it is now. {_ELSEWHERE}")
    thing, draft, plan = found
    scene = theme.scenes[problem.scene]
    find = story.measured_drafts if problem.story.unit else story.drafts_for
    drafts = _allowed(settled, problem, find(theme, scene, thing, problem.situation, level))
    told = story.alongside(plan, draft.events, drafts, f"{settled.seed}/{problem.code}/telling")
    if (
        told is None
        or not keeps_limits(told, problem.situation, theme, level)
        or not _has_room(told, problem)
    ):
        raise RequestError(
            f"{level.id} has no words for this story with these numbers. {_ELSEWHERE}"
        )
    return _chosen(settled, theme, problem, plan), told


def _allowed(
    settled: Settled, problem: Problem, drafts: Mapping[str, tuple[Draft, ...]]
) -> Mapping[str, tuple[Draft, ...]]:
    """The drafts that the wishes let be told: where no keywords are wished for, those without."""
    if settled.keywords != "none" or situations.get(problem.situation).family == "compare":
        return drafts
    return {
        telling: tuple(
            one for one in some if one.plan is not None and not one.plan.skeleton.keywords
        )
        for telling, some in drafts.items()
    }


def _plans(
    theme: Theme, problem: Problem, own: Vocabulary | None
) -> Iterator[tuple[str, Draft, Plan]]:
    """The plans that may have told a problem, with their things and drafts."""
    pack = own or vocabulary.get(problem.vocabulary)
    scene = theme.scenes.get(problem.scene)
    if scene is None:
        return
    measured = bool(problem.story.unit)
    things = tuple(scene.measured) if measured else scene.things
    find = story.measured_drafts if measured else story.drafts_for
    for thing in things:
        for drafts in find(theme, scene, thing, problem.situation, pack).values():
            for draft in drafts:
                if draft.telling.id.endswith(f"/{problem.story.telling}"):
                    plan = draft.plan
                    if plan is not None and plan.skeleton.people == len(problem.story.people):
                        yield thing, draft, plan


def tells(plan: Plan | SumPlan, people: Sequence[Person], problem: Problem) -> bool:
    """Whether a plan, told of these people with the numbers of a problem, gives its text."""
    return (
        plan.skeleton.people == len(people)
        and plan.telling.endswith(f"/{problem.story.telling}")
        and story.tell(plan, people, _numbers_told(problem)).text == problem.text
    )


def _numbers_told(problem: Problem) -> Mapping[str, int]:
    """The numbers of a problem by the roles that its story has for them."""
    if problem.steps:
        first, then = (
            (situations.get(one.situation), Triple(*one.numbers.values())) for one in problem.steps
        )
        return story.numbers_of_steps(*first, *then)
    if "part3" in problem.numbers:
        return {**problem.numbers, "answer": problem.numbers["whole"]}
    told = story.numbers_told(situations.get(problem.situation), _triple(problem))
    return {**told, story.EXTRA: problem.extra[0].number} if problem.extra else told


def _triple(problem: Problem) -> Triple:
    numbers = tuple(problem.numbers.values())
    return Triple(*numbers) if len(numbers) > 1 else Triple(0, *numbers, *numbers)


def _has_room(plan: Plan, problem: Problem) -> bool:
    triple = _triple(problem)
    held = zip((triple.a, triple.b, triple.c), plan.room, strict=True)
    return problem.unknown == "parts" or all(low <= one <= high for one, (low, high) in held)


def _chosen(settled: Settled, theme: Theme, problem: Problem, plan: Plan) -> Chosen:
    """What the problem was made of, with the form in which its strategy took the numbers."""
    situation, triple = situations.get(problem.situation), _triple(problem)
    if problem.strategy is None:
        return Chosen(theme, situation, plan, triple, None, None)
    worked, strategy = problem.solution, strategies.get(problem.strategy)
    assert worked.a is not None and worked.b is not None
    suit = strategy.suit(situation)
    for form in suit.forms if suit else ():
        if strategy.solve(form, worked.a, worked.b, settled.within) == worked:
            return Chosen(theme, situation, plan, triple, problem.strategy, form)
    raise RequestError(f"the story was worked otherwise than it is now. {_ELSEWHERE}")
