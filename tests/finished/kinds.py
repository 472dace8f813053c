"""A set of every kind of problem, made once, for the tests of what is finished."""

from functools import cache

from storybank import Request, make_set, strategies, vocabulary
from storybank.model import ProblemSet

LEVELS = vocabulary.ids()
_BY_KIND: dict[str, dict] = {
    "one step": {"strategy": ["any"], "count": 16},
    "both parts": {"situation": ["both-parts-unknown"], "count": 3},
    "two steps": {"steps": 2, "count": 8},
    "two steps, larger": {"steps": 2, "within": 100, "strategy": ["any"], "count": 8},
    "three addends": {"addends": 3, "count": 6},
    "four addends": {"addends": 4, "count": 6},
    "measured": {"units": ["lengths", "money", "minutes", "points"], "count": 16},
    "number sets": {"number_sets": [10, 20, 100], "count": 5},
    "extra number": {"extra_number": True, "count": 6},
    "missing": {"missing": True, "count": 6},
    "fact families": {"fact_families": True, "count": 8},
    "pairs": {"pair": ["46 + 38", "40 - 20", "9 + 9"], "count": 6},
    "within 1000": {"within": 1000, "strategy": ["any"], "count": 8},
    "rules switched": {"allow": ["past"], "forbid": ["pronouns"], "count": 4},
}
ALONGSIDE = {
    "side by side": {"levels_side_by_side": True, "strategy": ["any"], "count": 8},
    "measured, side by side": {"levels_side_by_side": True, "units": ["money"], "count": 4},
    "sets, side by side": {"levels_side_by_side": True, "number_sets": [20, 100], "count": 4},
    "families, side by side": {"levels_side_by_side": True, "fact_families": True, "count": 4},
    **{name: {"strategy": [name], "count": 3} for name in strategies.ids()},
}
KINDS = (
    *((kind, level) for kind in _BY_KIND for level in LEVELS),
    *((kind, "level-4") for kind in ALONGSIDE),
)


@cache
def made(kind: str, level: str, seed: int = 1, **others: str) -> ProblemSet:
    """The set of a kind at a level."""
    wish = {**_BY_KIND, **ALONGSIDE}[kind]
    return make_set(Request(vocabulary=level, seed=seed, **wish, **others))
