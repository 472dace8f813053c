"""Explains a bare sum: every strategy that can do it, by rank, then number of jumps."""

import re
import textwrap
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from storybank import strategies
from storybank.errors import RequestError
from storybank.model import Form, Solution

LARGEST = 1000
_ASKED = re.compile(r"([0-9]+)([+-])([0-9]+)(?:=\?)?")
_SOUGHT = re.compile(r"([0-9]+)\+\?=([0-9]+)")
_MINUS = str.maketrans("\N{MINUS SIGN}\N{EN DASH}\N{FULLWIDTH PLUS SIGN}", "--+")
_EXAMPLES = '"46 + 38", "82 - 47" or "47 + ? = 82"'


@dataclass(frozen=True, slots=True)
class Way:
    """A strategy that can do a sum: its worked solution, whether it fits the numbers, and why."""

    strategy: str
    rank: int
    solution: Solution
    fits: bool
    why: str

    @property
    def steps(self) -> str:
        """The steps in one line."""
        return _steps(self.solution)


@dataclass(frozen=True, slots=True)
class Explanation:
    """A sum as it was read, its answer, and every strategy that can do it, the simplest first."""

    asked: str
    answer: int
    ways: tuple[Way, ...]


def explanations(text: str, limit: int = LARGEST) -> Explanation:
    """What `explain` finds, with the solutions themselves; raises the same errors."""
    form, a, b = parse(text, limit)
    ways = tuple(
        Way(one.id, one.rank, solution, fits, why)
        for one, solution, fits, why in _found(form, a, b, limit)
    )
    answer = a + b if form is Form.ADD else a - b
    asked = f"{b} + ? = {a}" if form is Form.SOUGHT else f"{a} {'+-'[form is not Form.ADD]} {b}"
    return Explanation(asked, answer, ways)


def explain(text: str, limit: int = LARGEST) -> list[dict[str, Any]]:
    """Every strategy that can do the sum in `text`, as JSON values, the simplest rank first.

    Each has `strategy`, `rank`, `fits`, `jumps`, `lines`, `answer`, `answer_is`, `why`. A sum
    such as `47 + ? = 82` is found by jumping up, and by taking away where a strategy knows no
    such way. Raises RequestError for any other text, for numbers outside 1 to `limit`, and
    where the answer would be below 1 or above `limit`.
    """
    found = explanations(text, limit)
    return [
        {
            "strategy": one.strategy,
            "rank": one.rank,
            "fits": one.fits,
            "jumps": [jump.to_json() for jump in one.solution.jumps],
            "lines": list(one.solution.lines),
            "answer": found.answer,
            "answer_is": one.solution.answer_is,
            "why": one.why,
        }
        for one in found.ways
    ]


def explain_text(text: str, limit: int = LARGEST) -> str:
    """What `explain` finds, as lines for a terminal; raises the same errors."""
    found = explanations(text, limit)
    width = max(len(one.strategy) for one in found.ways)
    margin = " " * (width + 14)
    rows = [
        f"{found.asked}: the answer is {found.answer}", "",
        f"      rank  {'strategy':{width}}  steps",
    ]  # fmt: skip
    for one in found.ways:
        mark = "fits" if one.fits else ""
        rows.append(f"{mark:4}  {one.rank:>4}  {one.strategy:{width}}  {one.steps}")
        rows += textwrap.wrap(one.why, 100, initial_indent=margin, subsequent_indent=margin)
    return "\n".join(rows) + "\n"


def parse(text: str, limit: int = LARGEST) -> tuple[Form, int, int]:
    """The form and numbers of a sum; for `A + ? = C` they are C and A. Errors as `explain`."""
    plain = re.sub(r"\s+", " ", text.translate(_MINUS)).strip()
    spaceless = re.sub(r" ?([+=?-]) ?", r"\1", plain)
    asked, sought = _ASKED.fullmatch(spaceless), _SOUGHT.fullmatch(spaceless)
    if asked is not None:
        form = Form.ADD if asked[2] == "+" else Form.SUBTRACT
        a, b = (_number(part, plain, limit) for part in (asked[1], asked[3]))
    elif sought is not None:
        form = Form.SOUGHT
        b, a = (_number(part, plain, limit) for part in (sought[1], sought[2]))
    else:
        raise RequestError(
            f'The sum "{_short(plain)}" cannot be read. It needs two whole numbers with + or -, '
            f"written like {_EXAMPLES}."
        )
    if form is Form.ADD and a + b > limit:
        raise RequestError(
            f'The sum "{plain}" makes {a + b}. Sums are explained up to {limit}; '
            "choose smaller numbers."
        )
    if form is not Form.ADD and a <= b:
        lost = "leaves 0" if a == b else "goes below 0"
        raise RequestError(
            f'The sum "{plain}" {lost}. The answer must be at least 1, so the number '
            f"{'after =' if form is Form.SOUGHT else 'before -'} has to be the larger: "
            f"choose one from {b + 1} up."
        )
    return form, a, b


def _found(
    form: Form, a: int, b: int, limit: int
) -> list[tuple[strategies.Strategy, Solution, bool, str]]:
    fitting = _fitting(form, a, b, limit)
    found = []
    for one in strategies.by_rank():
        way = form
        solution = one.solve(way, a, b, limit)
        if solution is None and form is Form.SOUGHT:
            way = Form.SUBTRACT
            solution = one.solve(way, a, b, limit)
        if solution is not None:
            why = _why(one, way, solution, fitting)
            found.append((one, solution, one.id in fitting, why))
    return sorted(
        found,
        key=lambda entry: (entry[0].rank, len(entry[1].jumps), len(entry[1].lines), entry[0].id),
    )


def _fitting(form: Form, a: int, b: int, limit: int) -> tuple[str, ...]:
    """What fits; for a sought difference also what fits taking away and knows no jumps up."""
    fitting = strategies.fitting(form, a, b, limit)
    if form is not Form.SOUGHT:
        return fitting
    ranks = [one.rank for one in strategies.by_rank()]
    if any(strategies.get(name).rank == min(ranks) for name in fitting):
        ranks = [min(ranks)]
    return fitting + tuple(
        name
        for name in strategies.fitting(Form.SUBTRACT, a, b, limit)
        if strategies.get(name).rank in ranks
        and strategies.get(name).solve(Form.SOUGHT, a, b, limit) is None
    )


def _why(one: strategies.Strategy, form: Form, solution: Solution, fitting: Sequence[str]) -> str:
    if one.id in fitting:
        return f"Fits: {one.reason(form, solution.a or 0, solution.b or 0)}"
    simpler = [name for name in fitting if strategies.get(name).rank < one.rank]
    if simpler:
        return f"Can be done, but simpler here: {', '.join(simpler)}."
    return f"Can be done, but does not fit these numbers. {one.teacher}"


def _steps(solution: Solution) -> str:
    if solution.lines:
        return ", ".join(solution.lines)
    steps = [
        f"{jump.start} {'+' if jump.by > 0 else '-'} {abs(jump.by)} = {jump.to}"
        for jump in solution.jumps
    ]
    if solution.answer_is == "sum of jumps":
        sizes = [jump.by for jump in solution.jumps]
        total = str(sizes[0]) + "".join(
            f" {'+' if size > 0 else '-'} {abs(size)}" for size in sizes[1:]
        )
        ending = f"; jumps: {total}"
        return ", ".join(steps) + (f"{ending} = {sum(sizes)}" if len(sizes) > 1 else ending)
    return ", ".join(steps)


def _number(digits: str, plain: str, limit: int) -> int:
    number = int(digits) if len(digits) <= 9 else None
    if number is None or not 1 <= number <= limit:
        raise RequestError(
            f'The number {_short(digits)} in "{_short(plain)}" is out of range. Sums are '
            f"explained for whole numbers from 1 to {limit}; choose one of these."
        )
    return number


def _short(text: str) -> str:
    return text if len(text) <= 40 else f"{text[:37]}..."
