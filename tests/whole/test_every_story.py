"""4 vocabularies x 15 situations x 25 seeds over every theme: laws, reader, no repeats.

The checks run on every problem while it is made, so a set that is made keeps every law. The
reader (tests/reader) imports nothing of Storybank and reads the English alone. Equations are
solved by sympy, a general reference library.
"""

import pytest
import sympy
from reader import read

from storybank import Request, make_set, situations, themes, vocabulary
from storybank.model import Problem

SEEDS = range(25)
CELLS = [(theme, level) for theme in themes.ids() for level in vocabulary.ids()]


def problems(theme: str, level: str, seed: int) -> tuple[Problem, ...]:
    """One set with every situation once."""
    request = Request(
        theme=[theme],
        vocabulary=level,
        situation=situations.ids(),
        count=len(situations.ids()),
        seed=seed,
    )
    return make_set(request).problems


@pytest.mark.parametrize(("theme", "level"), CELLS)
def test_the_reader_agrees_and_nothing_repeats(theme: str, level: str) -> None:
    disagreed = []
    for seed in SEEDS:
        made = problems(theme, level, seed)
        assert {problem.situation for problem in made} == set(situations.ids())
        assert len({problem.text for problem in made}) == len(made)
        assert len({problem.code for problem in made}) == len(made)
        triples = [tuple(sorted(problem.numbers.values())) for problem in made]
        assert len(set(triples)) == len(made)
        for problem in made:
            disagreed += disagreement(problem)
    assert not disagreed, f"{len(disagreed)} stories are read otherwise:\n" + "\n".join(disagreed)


def disagreement(problem: Problem) -> list[str]:
    """What the reader says of a problem, unless it finds equation and answer."""
    try:
        reading = read(problem.text)
    except Exception as error:
        return [f"{problem.text!r}: {error}"]
    answer = (
        reading.answer if isinstance(reading.answer, int) else sorted(map(tuple, reading.answer))
    )
    wanted = problem.answer if isinstance(problem.answer, int) else sorted(problem.answer)
    if answer == wanted and reading.equation == problem.equations.situation:
        return []
    return [f"{problem.text!r}: read as {reading.equation}, meant {problem.equations.situation}"]


@pytest.mark.parametrize("theme", themes.ids())
def test_sympy_solves_both_equations_to_the_answer(theme: str) -> None:
    unknown = sympy.Symbol("u")
    for problem in problems(theme, "level-4", 7):
        if not isinstance(problem.answer, int):
            continue
        for equation in (problem.equations.situation, problem.equations.solution):
            left, right = equation.replace("?", "u").split("=")
            solved = sympy.solve(sympy.sympify(left) - sympy.sympify(right), unknown)
            assert solved == [problem.answer], problem.text
        for fact in problem.related_facts:
            left, right = fact.split("=")
            assert sympy.sympify(left) == sympy.sympify(right)
