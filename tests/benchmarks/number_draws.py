"""Number draws after the first against a constraint solver with the same rule."""

import random
from collections import Counter
from collections.abc import Iterator
from math import sqrt
from statistics import median

from constraint import BacktrackingSolver, Problem
from rounds import Row, alternate, middle_ratio

from storybank import number_choice
from storybank.model import Triple
from storybank.number_choice import Supply, Wish

TITLE = "number draws after the first, against python-constraint2"
RULE = Wish("separate-result-unknown", "friendly-then-compensate", 100)
ROUNDS, DRAWS, PEER_DRAWS = 7, 20_000, 100
EVENNESS_DRAWS, PEER_EVENNESS_DRAWS = 100_000, 1_000


def rows() -> Iterator[Row]:
    """The ratio of draws a second, and how even both are over the fitting pairs."""
    supply = number_choice.supply(RULE)
    pairs = {(triple.c, triple.b) for triple in supply}
    numbers = range(1, RULE.limit + 1)
    if pairs != {(c, b) for c in numbers for b in numbers if peer_rule(c, b)}:
        raise AssertionError("the peer was given another rule than ours")
    number_choice.choose(supply, "the first")

    def ours(number: int) -> None:
        for draw in range(DRAWS):
            number_choice.choose(supply, f"{number}/{draw}")

    luck = random.Random(1)

    def peer(number: int) -> None:
        for _ in range(PEER_DRAWS):
            peer_draw(luck)

    mine, theirs = alternate(ours, peer, ROUNDS)
    mine = [one / DRAWS for one in mine]
    theirs = [one / PEER_DRAWS for one in theirs]
    figures = f"{1 / median(mine):,.0f}/s, peer {1 / median(theirs):,.0f}/s"
    yield Row("draws after the first", figures, middle_ratio(theirs, mine), at_least=100)

    law = _law(supply)
    drawn = Counter(number_choice.choose(supply, f"even/{draw}") for draw in range(EVENNESS_DRAWS))
    yield _evenness("ours: deviation from even, in standard deviations", law, drawn)
    solved = Counter(peer_draw(luck) for _ in range(PEER_EVENNESS_DRAWS))
    yield Row(
        "peer: different pairs drawn",
        f"{len(solved)} of {len(law)} in {PEER_EVENNESS_DRAWS:,} draws, "
        f"ours {len(drawn)} in {EVENNESS_DRAWS:,}",
    )


def peer_rule(c: int, b: int) -> bool:
    """Whether c - b calls for a friendly number and compensating, as plain arithmetic."""
    fits = c >= 11 and b % 10 >= 8 and c % 10 < b % 10 and c - b >= 15
    return fits and c % 10 != 0 and c != 2 * b


def peer_draw(luck: random.Random) -> tuple[int, int]:
    """One solution of the solver, whose domains are shuffled so that draws differ."""
    problem = Problem(BacktrackingSolver())
    for name in ("c", "b"):
        numbers = list(range(1, RULE.limit + 1))
        luck.shuffle(numbers)
        problem.addVariable(name, numbers)
    problem.addConstraint(peer_rule, ("c", "b"))
    found = problem.getSolution()
    return found["c"], found["b"]


def _law(supply: Supply) -> dict[Triple, float]:
    """The chance that each triple should have: tens of the largest number evenly, then pairs."""
    by_ten: dict[int, list[Triple]] = {}
    for triple in supply:
        by_ten.setdefault((triple.c - 1) // 10, []).append(triple)
    return {one: 1 / len(by_ten) / len(ones) for ones in by_ten.values() for one in ones}


def _evenness(what: str, law: dict[Triple, float], drawn: Counter[Triple | None]) -> Row:
    """Chi-square against `law`, as a normal deviate (Wilson & Hilferty 1931)."""
    total = sum(drawn.values())
    strange = sum(count for triple, count in drawn.items() if triple not in law)
    chi = sum((drawn[one] - total * chance) ** 2 / (total * chance) for one, chance in law.items())
    free = len(law) - 1
    spread = 2 / (9 * free)
    deviate = ((chi / free) ** (1 / 3) - (1 - spread)) / sqrt(spread)
    figures = f"chi-square {chi:,.0f} with {free} degrees, {strange} odd"
    return Row(what, figures, abs(deviate) + strange, at_most=3)
