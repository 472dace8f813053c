"""Every solution within 100 and a sample within 1000 is drawn without a fault, in all sizes."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field

import pytest
from drawings.faults import faults, labels_of, too_weak
from drawings.solutions import pictures, within_100, within_1000

from storybank.drawings import LARGE, NORMAL, SMALL, Measures, worked
from storybank.model import Solution

SIZES = {"normal": NORMAL, "large": LARGE, "small": SMALL}
TYPE = {"normal": {13.0}, "large": {18.0}, "small": {11.0}}
IN_ROWS = {"normal": range(1), "small": range(1, 30), "large": range(30, 10_000)}
TYPE_WITHIN_1000 = {"normal": {12.0, 13.0}, "large": {18.0}, "small": {10.0, 11.0}}


@dataclass
class Tried:
    """What was looked at: drawings by title, pairs of labels, sizes of labels, lines in rows."""

    drawings: Counter[str] = field(default_factory=Counter)
    pairs: int = 0
    sizes: set[float] = field(default_factory=set)
    in_rows: int = 0


def check_all(solutions: Iterable[tuple[str, Solution]], measures: Measures) -> Tried:
    tried = Tried()
    for strategy, solution in solutions:
        drawing = worked(strategy, solution, measures=measures)
        assert (drawing is not None) == drawable(strategy, solution), (strategy, solution)
        if drawing is None:
            continue
        assert faults(drawing) == [], (strategy, solution)
        assert too_weak(drawing) == [], (strategy, solution)
        assert drawing.width == measures.width
        labels = labels_of(drawing)
        tried.drawings[drawing.title] += 1
        tried.pairs += len(labels) * (len(labels) - 1) // 2
        tried.sizes |= {one.size for one in labels}
        tried.in_rows += "goes on in a second row" in drawing.alt
    return tried


def drawable(strategy: str, solution: Solution) -> bool:
    """Whether a solution is one of those that a drawing is promised for."""
    if solution.jumps or strategy in ("make-a-ten", "same-difference"):
        return True
    assert solution.a is not None and solution.b is not None
    a, b = solution.a, solution.b
    largest = a + b if solution.operation == "+" else a
    if strategy in ("doubles", "near-doubles", "give-and-take"):
        return largest <= 20
    return strategy == "split-tens-and-ones" and largest <= 100


@pytest.mark.parametrize("size", SIZES)
def test_every_solution_within_100(size: str) -> None:
    tried = check_all(within_100(), SIZES[size])
    assert tried.drawings["Open number line"] >= 5300
    assert tried.drawings["Same difference on two number lines"] >= 3500
    assert tried.drawings["Tens and ones"] >= 5100
    assert tried.drawings["Ten frames"] == 20 + 36 + 64
    assert tried.drawings["Two rows of dots"] == 10 + 10 + 36
    assert tried.pairs > 350_000
    assert tried.sizes == TYPE[size]


@pytest.mark.parametrize("size", SIZES)
def test_solutions_within_1000(size: str) -> None:
    tried = check_all(within_1000(), SIZES[size])
    assert tried.drawings["Open number line"] >= 3300
    assert tried.drawings["Same difference on two number lines"] >= 350
    assert tried.pairs > 110_000
    assert tried.sizes == TYPE_WITHIN_1000[size]
    assert tried.in_rows in IN_ROWS[size]


@pytest.mark.parametrize("size", SIZES)
def test_some_drawings_of_every_kind(size: str) -> None:
    made = pictures(SIZES[size])
    assert len({one.title for one in made.values()}) == 9 + 1  # One is only letters.
    for name, drawing in made.items():
        assert faults(drawing) == [], name
        assert too_weak(drawing) == [], name
