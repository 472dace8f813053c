"""Solutions to draw: some by hand, every one within 100, and a seeded sample within 1000."""

from collections.abc import Iterable, Iterator
from functools import cache
from random import Random

from storybank import strategies
from storybank.drawings import (
    Drawing,
    Label,
    Measures,
    counting_jumps,
    number_strip,
    open_number_line,
    shifted_line,
    tape_diagram,
    ticked_line,
    worked,
)
from storybank.model import Form, Jump, Solution

ADD, SUBTRACT, SOUGHT = Form.ADD, Form.SUBTRACT, Form.SOUGHT


def by_jumps(start: int, *sizes: int, answer_is: str = "landing") -> Solution:
    made, place = [], start
    for size in sizes:
        made.append(Jump(place, place + size, size, "why"))
        place += size
    return Solution("+", start, sum(sizes), start, tuple(made), (), answer_is, ("Jump.",))


SHAPES = {
    "forward": by_jumps(46, 30, 8),
    "back": by_jumps(82, -40, -7),
    "past and back": by_jumps(46, 40, -2),
    "back past and forward": by_jumps(82, -50, 3),
    "counting up": by_jumps(67, 3, 12, answer_is="sum of jumps"),
    "counting up past": by_jumps(44, 40, -2, answer_is="sum of jumps"),
    "hops": by_jumps(8, 1, 1, 1),
    "many": by_jumps(100, *[100] * 9),
}
LONG = {
    "counting up by hundreds": by_jumps(0, *[100] * 10, answer_is="sum of jumps"),
    "many back": by_jumps(1000, *[-100] * 9),
    "uneven": by_jumps(700, 100, 50, 50, 20, 20, 10, 5, 5),
    "three rows": by_jumps(980, *[1] * 20),
    "past and back on two rows": by_jumps(100, *[100] * 8, -90),
}


def solved(strategy: str, form: Form, a: int, b: int, limit: int = 1000) -> Solution:
    solution = strategies.get(strategy).solve(form, a, b, limit)
    assert solution is not None, (strategy, form, a, b)
    return solution


def all_solutions(limit: int, pairs: Iterable[tuple[int, int]]) -> Iterator[tuple[str, Solution]]:
    """The id of the strategy and the solution: every strategy in every form for every pair."""
    for a, b in pairs:
        for form in Form:
            if (form is ADD and a + b > limit) or (form is not ADD and b >= a):
                continue
            for strategy in strategies.by_rank():
                solution = strategy.solve(form, a, b, limit)
                if solution is not None:
                    yield strategy.id, solution


@cache
def within_100() -> tuple[tuple[str, Solution], ...]:
    pairs = ((a, b) for a in range(1, 101) for b in range(1, 101))
    return tuple(distinct(all_solutions(100, pairs)))


@cache
def within_1000() -> tuple[tuple[str, Solution], ...]:
    luck = Random(5)
    pairs = [(luck.randint(1, 1000), luck.randint(1, 999)) for _ in range(1000)]
    # The most jumps and the longest numbers: up to ten hundreds, from anywhere.
    pairs += [(luck.randint(1, 1000), 100 * luck.randint(1, 9)) for _ in range(200)]
    pairs += [(1000, hundreds) for hundreds in range(100, 1000, 100)]
    return tuple(distinct(all_solutions(1000, pairs)))


def distinct(found: Iterable[tuple[str, Solution]]) -> Iterator[tuple[str, Solution]]:
    """One solution of each shape."""
    seen: set[object] = set()
    for strategy, solution in found:
        shape = shape_of(strategy, solution)
        if shape not in seen:
            seen.add(shape)
            yield strategy, solution


def shape_of(strategy: str, solution: Solution) -> object:
    """What a drawing depends on: of jumps their sizes and the number of digits, else all of it."""
    if not solution.jumps:
        return strategy, solution.operation, solution.a, solution.b
    digits = tuple(len(str(jump.to)) for jump in solution.jumps)
    sizes = tuple(jump.by for jump in solution.jumps)
    return len(str(solution.start)), digits, sizes, solution.answer_is


def drawn(strategy: str, form: Form, a: int, b: int, measures: Measures) -> Drawing:
    drawing = worked(strategy, solved(strategy, form, a, b), measures=measures)
    assert drawing is not None
    return drawing


def pictures(measures: Measures) -> dict[str, Drawing]:
    """Some drawings of every kind."""
    asked = shifted_line.worked(solved("same-difference", SUBTRACT, 82, 47), asked=True,
                                measures=measures)  # fmt: skip
    assert asked is not None
    lines = SHAPES | LONG
    del lines["three rows"], lines["past and back on two rows"]
    return {
        **{name: open_number_line.worked(one, measures=measures) for name, one in lines.items()},
        "blank": open_number_line.blank(measures=measures),
        "blank 46": open_number_line.blank(46, measures=measures),
        "blank circle": open_number_line.blank(empty_circle=True, measures=measures),
        "parts": tape_diagram.parts(34, 25, None, measures=measures),
        "comparison": tape_diagram.compare(39, None, 72, measures=measures),
        "ticks": ticked_line.line(0, 100, 10, blanks=(30, 70), measures=measures),
        "many ticks": ticked_line.line(0, 100, 1, labels_every=10, measures=measures),
        "strip": number_strip.strip(range(97, 108), (3, 6), filled=True, measures=measures),
        "jumps": counting_jumps.jumps(range(97, 103), drawn=2, measures=measures),
        "jumps back": counting_jumps.jumps(range(600, 0, -100), measures=measures),
        "shift right": drawn("same-difference", SUBTRACT, 82, 47, measures),
        "shift left": drawn("same-difference", SUBTRACT, 15, 14, measures),
        "shift asked": asked,
        "make a ten": drawn("make-a-ten", ADD, 8, 5, measures),
        "back to ten": drawn("make-a-ten", SUBTRACT, 13, 8, measures),
        "give and take": drawn("give-and-take", ADD, 4, 9, measures),
        "double": drawn("doubles", ADD, 6, 6, measures),
        "half": drawn("doubles", SUBTRACT, 20, 10, measures),
        "near double": drawn("near-doubles", ADD, 11, 9, measures),
        "tens and ones": drawn("split-tens-and-ones", ADD, 38, 25, measures),
        "tens and ones taken": drawn("split-tens-and-ones", SUBTRACT, 99, 88, measures),
        "letters": Drawing(140, 40, (Label(70, 25, "Zoë Müller"),), "t", "a"),
    }
