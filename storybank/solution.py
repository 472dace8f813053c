"""Works out a problem: the solution by a strategy, a second way, and the two equations."""

from collections.abc import Iterator, Sequence
from functools import cache, lru_cache

from storybank import strategies
from storybank.errors import RequestError
from storybank.model import Equations, Form, SecondWay, Situation, Solution, Triple

LARGEST_WHOLE = 20
_REMEMBERED = 1 << 13
_Candidate = tuple[strategies.Strategy, Form, int]


def work_out(strategy_id: str, form: Form, a: int, b: int, limit: int) -> Solution:
    """The worked solution of a + b, a - b or b + ? = a by the strategy of that id.

    Raises RequestError for an unknown id, and where the strategy cannot be carried out with
    these numbers within 0..limit; the message names the strategies that can.
    """
    solution = _solved(strategy_id, form, a, b, limit)
    if solution is None:
        able = [one.id for one in strategies.by_rank() if one.solve(form, a, b, limit)]
        choices = f"Choose from: {', '.join(able)}." if able else "No strategy can; change them."
        raise RequestError(
            f"{strategy_id} cannot be carried out with {written(form, a, b)}: a step would be "
            f"empty, unknown to a child, or outside 0 to {limit}. {choices}"
        )
    return solution


def second_way(strategy_id: str, form: Form, a: int, b: int, limit: int) -> SecondWay | None:
    """Another strategy for the same numbers, or None if there is no other way.

    One that fits comes first; failing that a general one, which pays for any numbers, then the one
    with the fewest steps, then the smallest rank. A sought difference may also be found by taking
    away. A way with the very same steps is no second way.
    """
    found = _second(strategy_id, form, a, b, limit)
    solution = _solved(*found, a, b, limit) if found else None
    return SecondWay(found[0], solution) if found and solution else None


@lru_cache(maxsize=1 << 15)
def _second(strategy_id: str, form: Form, a: int, b: int, limit: int) -> tuple[str, Form] | None:
    """The strategy of the second way, and its form: not the way itself, which takes more room."""
    forms = (Form.SOUGHT, Form.SUBTRACT) if form is Form.SOUGHT else (form,)
    fit: list[_Candidate] = []
    other: list[_Candidate] = []
    for place, way in enumerate(forms):
        fitting = strategies.fitting(way, a, b, limit)
        for one in strategies.by_rank():
            if one.id != strategy_id:
                (fit if one.id in fitting else other).append((one, way, place))
    first = _solved(strategy_id, form, a, b, limit)
    general = [one for one in other if one[0].rank >= strategies.GENERAL]
    for candidates in (fit, general, other):
        found = list(_ways(candidates, first, a, b, limit))
        if found:
            return _named(*min(found)[-2:])
    return None


def _ways(
    candidates: list[_Candidate], first: Solution | None, a: int, b: int, limit: int
) -> Iterator[tuple[bool, int, int, int, str, Form]]:
    """The candidates that can be carried out unlike `first`, behind what they are ordered by."""
    for one, way, place in candidates:
        solution = _solved(one.id, way, a, b, limit)
        if solution is None or (first is not None and _same_steps(solution, first)):
            continue
        steps = len(solution.jumps) + len(solution.lines)
        yield one.rank < strategies.GENERAL, steps, one.rank, place, one.id, way


@cache
def _named(strategy_id: str, form: Form) -> tuple[str, Form]:
    """Both, the same object whenever they are the same."""
    return strategy_id, form


@lru_cache(maxsize=_REMEMBERED)
def _solved(strategy_id: str, form: Form, a: int, b: int, limit: int) -> Solution | None:
    return strategies.get(strategy_id).solve(form, a, b, limit)


def all_pairs_solution(whole: int) -> Solution:
    """Every ordered pair of parts of `whole`, zero included, as lines with the whole first.

    Raises RequestError unless the whole is 1 to 20. Source: K.OA.3 writes 5 = 2 + 3; the
    largest whole is our own design.
    """
    if not 1 <= whole <= LARGEST_WHOLE:
        raise RequestError(
            f"All pairs of parts were asked for the whole {whole}. The list is made for wholes "
            f"from 1 to {LARGEST_WHOLE}; choose one of these."
        )
    lines = tuple(f"{whole} = {part} + {whole - part}" for part in range(whole + 1))
    says = (f"I start with 0 and {whole}, then I move 1 at a time until I have {whole} and 0.",)
    return Solution(None, None, None, None, (), lines, "all lines", says)


def sum_solution(parts: Sequence[int], pair: tuple[int, int]) -> Solution:
    """The sum of three or four parts as lines: the friendly pair first, then the others in turn.

    Source: CCSS-M 1.OA.3 adds 2 + 6 + 4 by making ten of the second two.
    """
    first, second = (part for part in parts if part in pair)
    at = first + second
    lines = [f"{first} + {second} = {at}"]
    what = "ten" if at == 10 else "a friendly number"
    says = [f"I look for {what}. {first} and {second} make {at}, so I add them first."]
    for part in parts:
        if part not in pair:
            lines.append(f"{at} + {part} = {at + part}")
            says.append(f"Then I add {part}. {at} and {part} make {at + part}.")
            at += part
    return Solution("+", None, None, None, (), tuple(lines), "last line", tuple(says))


def sum_equations(parts: Sequence[int]) -> Equations:
    """The equation of a sum of three or four parts, as told and to solve."""
    written_sum = f"{' + '.join(map(str, parts))} = ?"
    return Equations(situation=written_sum, solution=written_sum)


def equations(situation: Situation, triple: Triple) -> Equations:
    """The equation that follows the story and the one that isolates the unknown, in numbers."""
    numbers = {"A": str(triple.a), "B": str(triple.b), "C": str(triple.c)}

    def filled(pattern: str) -> str:
        return "".join(numbers.get(sign, sign) for sign in pattern)

    return Equations(
        situation=filled(situation.situation_equation),
        solution=filled(situation.solution_equation),
    )


def written(form: Form, a: int, b: int) -> str:
    """The pair as it is written down: 46 + 38, 82 - 47 or 47 + ? = 82."""
    if form is Form.SOUGHT:
        return f"{b} + ? = {a}"
    return f"{a} {'+' if form is Form.ADD else '-'} {b}"


def _same_steps(one: Solution, other: Solution) -> bool:
    places = [(jump.start, jump.to) for jump in one.jumps]
    return places == [(jump.start, jump.to) for jump in other.jumps] and one.lines == other.lines
