"""The day on which the child chooses: numbers that a strategy fits beside numbers it does not."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from storybank import luck, situations, strategies
from storybank.errors import NoNumbersError, RequestError
from storybank.model import Form, Problem, ProblemSet
from storybank.model.problem import Step
from storybank.model.week import Chosen
from storybank.problem_set import Series
from storybank.request import Request
from storybank.week._words import way_of

_Told = tuple[str, str]
"""A strategy and a situation."""
_ANY_SEED = (1 << 62) - 1
_SIMPLEST = 1
"""The rank of what a child sees at once; beside it there is little to choose."""


def choosing(
    series: Series,
    request: Request,
    ways: Sequence[str],
    count: int,
    *,
    plain: bool = False,
) -> tuple[ProblemSet, tuple[Chosen, ...]]:
    """A set of `count` problems in pairs, and what is to be chosen in each.

    For each strategy of `ways` in turn a pair is told: the numbers of one call for that strategy,
    those of the other for another of `ways`, or, where none suits, of all; it is of another rank,
    and its steps look different. Both are told in one situation with both numbers to be seen,
    or, beside counting up, in one that takes away. An odd problem stands at the end by itself,
    in a `plain` situation where that is wished. Raises RequestError where there is nothing to
    choose from.
    """
    if not ways:
        raise RequestError(
            "The child is to choose among the strategies of the week, and no day teaches one. "
            "Give a strategy to another day, or name some you taught: `before: [count-up]`."
        )
    made: list[ProblemSet] = []
    for at in range(count // 2):
        way, key = ways[at % len(ways)], f"{request.seed}/{at}"
        pair = _pair(series, request, key, way, ways)
        made += reversed(pair) if luck.digest(f"{key}/order") & 1 else pair
    if count % 2:
        way, key = ways[count // 2 % len(ways)], f"{request.seed}/{count}"
        told = _suiting(way, request.situation)
        made.append(series.make(_one(request, key, way, told[:1] if plain else told)))
    problems = tuple(problem for one in made for problem in one.problems)
    beside = [problems[at ^ 1].code if at ^ 1 < count else None for at in range(count)]
    chosen = tuple(
        Chosen(one.code, way_of(one.strategy or ""), _reason(one), code)
        for one, code in zip(problems, beside, strict=True)
    )
    return replace(made[0], problems=problems), chosen


def fits(strategy: str, problem: Problem | Step, limit: int) -> bool:
    """Whether numbers call for a strategy in a form that their situation has.

    They are those of a problem, or of one of two steps.
    """
    suit = strategies.get(strategy).suit(situations.get(problem.situation))
    numbers = problem.solution.a, problem.solution.b
    if suit is None or numbers[0] is None or numbers[1] is None:
        return False
    return any(
        strategy in strategies.fitting(form, numbers[0], numbers[1], limit) for form in suit.forms
    )


def _pair(
    series: Series, request: Request, key: str, way: str, ways: Sequence[str]
) -> tuple[ProblemSet, ProblemSet]:
    """A problem that calls for `way`, and one of the same situation that does not."""
    found = list(_pairings(way, ways, request.situation, key))
    for (one, here), (other, there) in found:
        try:
            fitting = series.make(_one(request, f"{key}/{here}", one, (here,)))
            beside = series.make(_one(request, f"{key}/{here}/{other}", other, (there,)))
        except NoNumbersError:
            continue
        first, second = fitting.problems[0], beside.problems[0]
        within = beside.request["within"]
        either = fits(one, second, within) or fits(other, first, within)
        if not either and _looks(first) != _looks(second):
            return fitting, beside
    raise NoNumbersError(
        f"No two stories can be told side by side of which one calls for {way} and the other does "
        f"not: {len(found)} ways to pair it were tried. Ask for fewer problems on this day, or "
        "leave its situations out."
    )


def _pairings(
    way: str, ways: Sequence[str], told: Sequence[str], key: str
) -> Iterator[tuple[_Told, _Told]]:
    """A strategy with its situation, and one beside it: those of the week first, simplest last."""
    rank = strategies.get(way).rank
    every = [
        ((way, here), (one.id, there))
        for here in _suiting(way, told)
        for one in strategies.by_rank()
        if one.rank != rank
        for there in _suiting(one.id, told)
        if _go_together(way, here, one.id, there)
    ]
    drawn = luck.ordered(every, f"{key}/pairing", lambda pair: "/".join((*pair[0], *pair[1])))
    yield from sorted(
        drawn,
        key=lambda pair: (
            pair[1][0] not in ways,
            strategies.get(pair[1][0]).rank == _SIMPLEST,
        ),
    )


def _go_together(way: str, here: str, other: str, there: str) -> bool:
    """Whether the numbers decide between two stories: one situation, both numbers to be seen.

    A strategy that only seeks a difference, which cannot be seen before it is found, stands beside
    taking away.
    """
    sought = _is_sought(way, here), _is_sought(other, there)
    if not any(sought):
        return here == there
    if sought == (True, True):
        return False
    seeking = way if sought[0] else other
    one, two = situations.get(here), situations.get(there)
    return _only_seeks(seeking) and one.operation == two.operation


def _only_seeks(strategy: str) -> bool:
    return all(_is_sought(strategy, name) for name in _suiting(strategy, ()))


def _is_sought(strategy: str, situation: str) -> bool:
    suit = strategies.get(strategy).suit(situations.get(situation))
    return suit is not None and suit.forms[0] is Form.SOUGHT


def _looks(problem: Problem) -> tuple[object, ...]:
    """How the steps look: where they start, and each jump by its direction and kind; or lines."""
    solution = problem.solution
    if solution.lines:
        return (problem.strategy,)
    jumps = [(jump.by > 0, jump.by % 10 == 0) for jump in solution.jumps]
    return (solution.answer_is, *jumps)


def _one(request: Request, key: str, named: str, told: tuple[str, ...]) -> Request:
    seed = luck.digest(key) & _ANY_SEED
    return replace(request, strategy=(named,), situation=told, count=1, seed=seed)


def _suiting(way: str, told: Sequence[str]) -> tuple[str, ...]:
    """The situations asked for that a strategy suits, in grade order; all where none is asked."""
    one = strategies.get(way)
    asked = told or situations.ids()
    found = tuple(
        name.id
        for name in situations.in_grade_order()
        if name.id in asked and one.suit(name) is not None
    )
    return found or tuple(told)


def _reason(problem: Problem) -> str:
    """Why the numbers of a problem call for its strategy."""
    solution = problem.solution
    assert problem.strategy is not None and solution.a is not None and solution.b is not None
    form = Form.ADD if solution.operation == "+" else Form.SUBTRACT
    if solution.answer_is == "sum of jumps":
        form = Form.SOUGHT
    return strategies.get(problem.strategy).reason(form, solution.a, solution.b)
