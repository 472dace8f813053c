"""Measured sets that several tests look at: every theme and level, seeds of no meaning."""

from functools import cache

from storybank import Request, make_set, themes, vocabulary
from storybank.model import Problem

SEEDS = (20261, 90417)
COUNT = 12


@cache
def problems() -> tuple[Problem, ...]:
    """All problems: each theme at each level, every kind of quantity, checked while made."""
    found: list[Problem] = []
    for at, theme in enumerate(themes.ids()):
        for level in vocabulary.ids():
            for seed in SEEDS:
                request = Request(
                    theme=[theme],
                    units=["any"],
                    strategy=["any"],
                    vocabulary=level,
                    count=COUNT,
                    seed=seed + at,
                )
                found += make_set(request).problems
    return tuple(found)
