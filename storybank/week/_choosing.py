"""The day on which the child chooses: numbers that a strategy fits beside numbers it does not."""

from collections.abc import Sequence
from dataclasses import replace

from storybank import luck, situations, strategies
from storybank.errors import NoNumbersError, RequestError
from storybank.model import Form, Problem, ProblemSet
from storybank.model.week import Pair
from storybank.problem_set import Series
from storybank.request import Request
from storybank.week._words import way_of

_ANY_SEED = (1 << 62) - 1


def choosing(
    series: Series, request: Request, ways: Sequence[str], count: int
) -> tuple[ProblemSet, tuple[Pair, ...]]:
    """A set of `count` problems in pairs, and the pairs.

    For each strategy of `ways` in turn a pair is told in one situation: its numbers call for that
    strategy once, and once for one of another rank, so that it does not fit there. An odd problem
    at the end has a strategy of `ways`. Raises RequestError where there is none to choose from.
    """
    if not ways:
        raise RequestError(
            "The child is to choose among the strategies of the week, and no day teaches one. "
            "Give a strategy to another day, or name some you taught: `before: [count-up]`."
        )
    made: list[ProblemSet] = []
    pairs: list[Pair] = []
    for at in range((count + 1) // 2):
        way = ways[at % len(ways)]
        key = f"{request.seed}/{at}"
        fitting = series.make(_one(request, key, (way,), _suiting(way, request.situation)))
        made.append(fitting)
        if 2 * at + 1 == count:
            break
        problem = fitting.problems[0]
        other = _other(series, request, key, way, ways, problem.situation)
        pairs.append(_pair(way, problem, other.problems[0]))
        made.append(other)
        if luck.digest(f"{key}/order") & 1:
            made[-2:] = [other, fitting]
    problems = tuple(problem for one in made for problem in one.problems)
    return replace(made[0], problems=problems), tuple(pairs)


def fits(strategy: str, problem: Problem, limit: int) -> bool:
    """Whether the numbers of a problem call for a strategy in a form its situation has."""
    suit = strategies.get(strategy).suit(situations.get(problem.situation))
    numbers = problem.solution.a, problem.solution.b
    if suit is None or numbers[0] is None or numbers[1] is None:
        return False
    return any(
        strategy in strategies.fitting(form, numbers[0], numbers[1], limit) for form in suit.forms
    )


def _other(
    series: Series, request: Request, key: str, way: str, ways: Sequence[str], situation: str
) -> ProblemSet:
    """A problem of the same situation whose numbers call for another way, of `ways` if they can."""
    rank = strategies.get(way).rank
    story = situations.get(situation)
    others = [
        one.id for one in strategies.by_rank() if one.rank != rank and one.suit(story) is not None
    ]
    drawn = luck.ordered(others, f"{key}/other", str)
    for name in sorted(drawn, key=lambda one: one not in ways):
        try:
            made = series.make(_one(request, f"{key}/{name}", (name,), (situation,)))
        except NoNumbersError:
            continue
        if not fits(way, made.problems[0], made.request["within"]):
            return made
    raise NoNumbersError(
        f"No numbers are left for {situation} that do not call for {way}, so there is nothing to "
        "choose between. Ask for fewer problems on this day, or a larger `within`."
    )


def _one(request: Request, key: str, named: tuple[str, ...], told: tuple[str, ...]) -> Request:
    seed = luck.digest(key) & _ANY_SEED
    return replace(request, strategy=named, situation=told, count=1, seed=seed)


def _suiting(way: str, told: Sequence[str]) -> tuple[str, ...]:
    """The situations asked for that a strategy suits; all that it suits where none is."""
    one = strategies.get(way)
    asked = told or situations.ids()
    found = tuple(name for name in asked if one.suit(situations.get(name)) is not None)
    return found or tuple(told)


def _pair(way: str, fitting: Problem, other: Problem) -> Pair:
    assert other.strategy is not None
    return Pair(
        way=way_of(way),
        fits=fitting.code,
        other=other.code,
        instead=way_of(other.strategy),
        why=_reason(way, fitting),
        why_not=_reason(other.strategy, other),
    )


def _reason(strategy: str, problem: Problem) -> str:
    """Why the numbers of a problem call for its strategy."""
    solution = problem.solution
    assert solution.a is not None and solution.b is not None
    form = Form.ADD if solution.operation == "+" else Form.SUBTRACT
    if solution.answer_is == "sum of jumps":
        form = Form.SOUGHT
    return strategies.get(strategy).reason(form, solution.a, solution.b)
