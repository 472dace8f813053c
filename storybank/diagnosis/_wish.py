"""Which problems to ask for next: a command whose problems give chances for one mistake."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import islice

from storybank import mistakes, number_choice, situations, strategies
from storybank.diagnosis._answered import Item
from storybank.mistakes import Case
from storybank.model import Form, Situation, Triple
from storybank.number_choice import Supply, Wish

COUNT = 8
"""Problems to ask for: two pages, and twice the chances that show a mistake."""
MOST_SITUATIONS = 3
ENOUGH_TO_KNOW = 100
"""Numbers to 100 show which stories give a chance; larger ones take long to list."""
_OF_A_KIND = {"stopped-after-step-one": "--steps 2", "addend-left-out": "--addends 3"}
"""Mistakes that only a kind of problem of its own gives a chance for."""
_SAMPLE = 40
_MOSTLY = 0.8
"""The share of sampled pairs from which a situation counts as giving the chance each time."""


def command(mistake: str, items: Sequence[Item], within: int) -> str | None:
    """A `storybank make` command whose problems give chances for the mistake, or None.

    What gave the chances in the set at hand is asked for first, then other strategies by rank;
    with `--diagnose` where its numbers are told apart, else without.
    """
    if mistake in _OF_A_KIND:
        return f"storybank make {_OF_A_KIND[mistake]} --count {COUNT}"
    chances = [one for one in items if any(mistake in w.mistakes for w in one.watched.values())]
    tried = list(dict.fromkeys(one.strategy for one in chances if one.strategy))
    tried += [one.id for one in strategies.by_rank() if one.id not in tried]
    told = {one.situation for one in chances}
    for diagnose in (True, False):
        best = _best(mistake, tried, min(within, ENOUGH_TO_KNOW), diagnose=diagnose)
        if best is not None:
            names = sorted(best.situations, key=lambda one: one not in told)[:MOST_SITUATIONS]
            return _written(best, names, within, diagnose=diagnose)
    return None


@dataclass(frozen=True, slots=True)
class _Way:
    """A strategy, whether all is to regroup, and the situations in which chances are plenty."""

    share: float
    strategy: str
    crossing: str
    situations: tuple[str, ...]


def _best(mistake: str, tried: Sequence[str], within: int, *, diagnose: bool) -> _Way | None:
    """The first way with a chance mostly everywhere, or else the one with most chances."""
    best: _Way | None = None
    for strategy in tried:
        if diagnose and _way(mistake, strategy, within, "any", diagnose=False) is None:
            continue  # What gives no chance at all is quicker to know.
        for crossing in ("any", "always"):
            way = _way(mistake, strategy, within, crossing, diagnose=diagnose)
            if way is not None and way.share >= _MOSTLY:
                return way
            if way is not None and (best is None or way.share > best.share):
                best = way
    return best


def _written(way: _Way, names: Sequence[str], within: int, *, diagnose: bool) -> str:
    parts = ["storybank make", f"--strategy {way.strategy}", f"--situation {' '.join(names)}"]
    if way.crossing != "any":
        parts.append(f"--crossing {way.crossing}")
    if within != 100:
        parts.append(f"--within {within}")
    parts.append(f"--count {COUNT}")
    if diagnose:
        parts.append("--diagnose")
    return " ".join(parts)


@lru_cache(maxsize=1 << 10)
def _way(mistake: str, strategy: str, within: int, crossing: str, *, diagnose: bool) -> _Way | None:
    shares: dict[str, float] = {}
    for situation in situations.in_grade_order():
        if strategies.get(strategy).suit(situation) is not None:
            share = _share(mistake, strategy, situation, within, crossing, diagnose)
            if share:
                shares[situation.id] = share
    if not shares:
        return None
    best = max(shares.values())
    able = tuple(name for name, one in shares.items() if one >= min(best, _MOSTLY))
    return _Way(best, strategy, crossing, able)


def _share(
    mistake: str, strategy: str, situation: Situation, within: int, crossing: str, diagnose: bool
) -> float:
    """The share of a sample of pairs for which the mistake predicts a wrong answer."""
    keywords = _keywords(situation)
    wish = Wish(
        situation.id, strategy, within, crossing=crossing, diagnose=diagnose, keywords=keywords
    )
    supply = number_choice.supply(wish)
    if number_choice.distinct_count(supply) < COUNT:
        return 0.0
    every = max(1, number_choice.distinct_count(supply) // _SAMPLE)
    sample = list(islice(supply, 0, None, every))
    hits = sum(_predicts(mistake, supply, one, within, keywords) for one in sample)
    return hits / len(sample)


def _keywords(situation: Situation) -> tuple[str, ...]:
    """The word that each story of a comparison holds; other stories may do without any."""
    return (situation.wording,) if situation.family == "compare" else ()


def _predicts(
    mistake: str, supply: Supply, triple: Triple, within: int, keywords: tuple[str, ...]
) -> bool:
    situation, strategy = supply.situation, supply.wish.strategy
    if strategy is None:
        return False
    form = supply.form(triple, strategy)
    numbers = dict(zip(situation.roles, (triple.a, triple.b, triple.c), strict=True))
    answer = numbers[situation.unknown]
    given = tuple(number for role, number in numbers.items() if role != situation.unknown)
    for a, b in _pairs(form, triple, given):
        solution = strategies.get(strategy).solve(form, a, b, within)
        if solution is not None:
            case = Case(situation, triple, strategy, form, solution, answer, given, keywords)
            found = mistakes.predictions(case)
            return any(mistake in names for wrong, names in found.items() if wrong != answer)
    return False


def _pairs(form: Form, triple: Triple, given: tuple[int, ...]) -> Iterator[tuple[int, int]]:
    """The pair as solved: the two parts, or the whole and the part that is given."""
    if form is Form.ADD:
        yield triple.a, triple.b
    else:
        yield triple.c, min(given)
