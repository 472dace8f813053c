"""The strategies: one module each, found by file name."""

from functools import cache, lru_cache
from pathlib import Path

from storybank import catalog
from storybank.errors import RequestError, unknown_value
from storybank.model import Form
from storybank.strategies._strategy import Rule, Strategy, Suit, from_module

FOLDER = Path(__file__).parent
GENERAL = 4
"""The rank of the ways that pay for any numbers."""

__all__ = ["GENERAL", "Strategy", "Suit", "by_rank", "fitting", "get", "ids", "workable"]


@cache
def ids() -> tuple[str, ...]:
    """The ids of all strategies, sorted by name."""
    return catalog.entry_names(FOLDER, ".py")


@cache
def get(strategy_id: str) -> Strategy:
    """The strategy of that id. Raises RequestError, naming the valid ids, for any other."""
    if strategy_id not in ids():
        raise RequestError(unknown_value("strategy", strategy_id, ids()))
    return from_module(strategy_id, catalog.module_entries(__name__, FOLDER)[strategy_id])


@cache
def by_rank() -> tuple[Strategy, ...]:
    """All strategies, the simplest rank first, then by id."""
    return tuple(sorted(map(get, ids()), key=lambda one: (one.rank, one.id)))


@lru_cache(maxsize=1 << 16)
def fitting(form: Form, a: int, b: int, limit: int) -> tuple[str, ...]:
    """The ids whose rule holds while no strategy of smaller rank has a rule that holds.

    For an addition every rule is tried in both orders. Sought by counting up, a strategy fits
    if its own sought rule holds, no rule of smaller rank holds on landing - start, and no
    sought rule of rank 1 (count-on, skip-count) holds. The rules alone decide: see `workable`
    for those whose working also stays within `limit`.
    """
    if form is Form.SOUGHT:
        return _sought(a, b, limit)
    turned = form is Form.ADD
    for rules in _rules_by_rank().values():
        found = tuple(
            name
            for name, rule in rules
            if rule(form, a, b, limit) or (turned and rule(form, b, a, limit))
        )
        if found:
            return found
    return ()


def workable(form: Form, a: int, b: int, limit: int) -> tuple[str, ...]:
    """The ids of `fitting` whose working stays within `limit`.

    They differ where a rule holds and the way passes the limit: 100 - 19 = 101 - 20 by
    same-difference within 100, or 34 + 35 = 35 + 35 - 1 by near-doubles within 69.
    """
    return tuple(
        name
        for name in fitting(form, a, b, limit)
        if get(name).ordered(form, a, b, limit) is not None
    )


def _sought(landing: int, start: int, limit: int) -> tuple[str, ...]:
    smallest = next(iter(_rules_by_rank()))
    found: tuple[str, ...] = ()
    for rank, rules in _rules_by_rank().items():
        here = tuple(
            name for name, rule in _sought_rules()[rank] if rule(Form.SOUGHT, landing, start, limit)
        )
        found += here
        # Friendly-then-compensate sought does not shut out the general ways: a child cannot see
        # the ones of a difference before it is found.
        if here and rank == smallest:
            break
        for _, rule in rules:
            if rule(Form.SUBTRACT, landing, start, limit):
                return found
    return found


@cache
def _rules_by_rank() -> dict[int, tuple[tuple[str, Rule], ...]]:
    ranks = sorted({one.rank for one in by_rank()})
    return {
        rank: tuple((one.id, one.rule) for one in by_rank() if one.rank == rank) for rank in ranks
    }


@cache
def _sought_rules() -> dict[int, tuple[tuple[str, Rule], ...]]:
    return {
        rank: tuple((name, rule) for name, rule in rules if get(name).seeks)
        for rank, rules in _rules_by_rank().items()
    }
