"""What a teacher asks for: the request, checked and with every default filled in."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from storybank import luck, people, situations, strategies, themes, vocabulary
from storybank.errors import RequestError
from storybank.model import Situation

DEFAULT_STRATEGY = "friendly-then-compensate"
ANY = "any"
WITHIN = (5, 1000)
COUNT = (1, 2000)
_PAIR = re.compile(r"\s*(\d{1,6})\s*([+\u2212-])\s*(\d{1,6})\s*")
_SEED_BITS = 63


@dataclass(frozen=True, slots=True)
class Pair:
    """Two numbers that a teacher wants told: `a + b` or `a - b`."""

    a: int
    operation: str
    b: int

    def __str__(self) -> str:
        return f"{self.a} {self.operation} {self.b}"


@dataclass(frozen=True, slots=True)
class Request:
    """A wish for a set of problems; what is left out is filled in by `settle`.

    `theme`, `situation` and `strategy` are ids (`strategy` also `any`), `within` the largest
    number, `pair` texts such as "46 + 38", `crossing` always, never, any or a percentage of
    problems that regroup, `names` a class list, `names_from` a list of names by name, `seed`
    any whole number; the same seed gives the same set.
    """

    theme: Sequence[str] = ()
    strategy: Sequence[str] = ()
    situation: Sequence[str] = ()
    within: int | None = None
    count: int = 12
    vocabulary: str = "level-4"
    pair: Sequence[str] = ()
    crossing: str = "any"
    diagnose: bool = False
    names: str | Path | None = None
    names_from: str | None = None
    seed: int | None = None


@dataclass(frozen=True, slots=True)
class Settled:
    """A request that can be tried: ids are valid, defaults filled in, names read.

    `strategies_for` gives for each situation the strategies to practise there; an empty tuple
    stands for any. `crossings` says of each problem whether it regroups: always, never or any.
    """

    themes: tuple[str, ...]
    situations: tuple[str, ...]
    strategies: tuple[str, ...]
    strategies_for: dict[str, tuple[str, ...]]
    within: int
    count: int
    vocabulary: vocabulary.Vocabulary
    pairs: tuple[Pair, ...]
    crossing: str
    crossings: tuple[str, ...]
    diagnose: bool
    names: str | None
    names_from: str | None
    roster: people.Roster
    seed: int

    def to_json(self) -> dict[str, Any]:
        """The request with the keys of the set format."""
        return {
            "theme": list(self.themes),
            "strategy": list(self.strategies),
            "situation": list(self.situations),
            "within": self.within,
            "count": self.count,
            "vocabulary": self.vocabulary.id,
            "pair": [str(pair) for pair in self.pairs],
            "crossing": self.crossing,
            "diagnose": self.diagnose,
            "names": self.names,
            "names_from": self.names_from,
            "seed": self.seed,
        }


def settle(request: Request, seed: int) -> Settled:
    """The request checked and completed; `seed` is used where it names none.

    Raises RequestError, PackError or NamesError, saying what to change.
    """
    within = _number("within", 100 if request.within is None else request.within, WITHIN)
    count = _number("count", request.count, COUNT)
    named = _unique(request.strategy)
    if not named:
        open_wish = request.situation or request.within is not None or request.pair
        named = (ANY,) if open_wish else (DEFAULT_STRATEGY,)
    if ANY in named and len(named) > 1:
        raise RequestError(
            f"The strategies {', '.join(named)} cannot be asked for together: any stands for all "
            "of them. Leave any out, or ask for it alone."
        )
    pairs = tuple(_pair(text) for text in request.pair)
    told = _unique(request.situation)
    for situation_id in told:
        situations.get(situation_id)
    chosen = tuple(one.id for one in situations.in_grade_order() if not told or one.id in told)
    if pairs:
        chosen = _for_pairs(pairs, chosen, bool(told))
    strategies_for = _strategies_for(chosen, named, bool(told))
    packs = _unique(request.theme) or tuple(
        head.id for head in themes.headers() if head.observance is None
    )
    for pack in packs:
        themes.get(pack)
    names, roster = _roster(request)
    seed = seed if request.seed is None else _seed(request.seed)
    crossing = _crossing(request.crossing)
    return Settled(
        themes=packs,
        situations=tuple(strategies_for),
        strategies=named,
        strategies_for=strategies_for,
        within=within,
        count=count,
        vocabulary=vocabulary.get(request.vocabulary),
        pairs=pairs,
        crossing=crossing,
        crossings=_crossings(crossing, count, seed),
        diagnose=request.diagnose,
        names=names,
        names_from=request.names_from,
        roster=roster,
        seed=seed,
    )


def _unique(values: Sequence[str]) -> tuple[str, ...]:
    if isinstance(values, str):
        values = (values,)
    return tuple(dict.fromkeys(values))


def _number(name: str, value: int, bounds: tuple[int, int]) -> int:
    if not bounds[0] <= value <= bounds[1]:
        raise RequestError(
            f"--{name} is {value}, which is out of range. "
            f"Choose a whole number from {bounds[0]} to {bounds[1]}."
        )
    return value


def _seed(seed: int) -> int:
    if not 0 <= seed < 1 << _SEED_BITS:
        raise RequestError(
            f"--seed is {seed}, which is out of range. Choose a whole number from 0 to "
            f"{(1 << _SEED_BITS) - 1}."
        )
    return seed


def _pair(text: str) -> Pair:
    match = _PAIR.fullmatch(text)
    if match is None:
        raise RequestError(
            f'The pair "{text}" cannot be read. Write two whole numbers with + or - between '
            'them, such as "46 + 38" or "82 - 47".'
        )
    return Pair(int(match[1]), "+" if match[2] == "+" else "-", int(match[3]))


def _for_pairs(pairs: Sequence[Pair], chosen: Sequence[str], told: bool) -> tuple[str, ...]:
    operations = {pair.operation for pair in pairs}
    fitting = [name for name in chosen if situations.get(name).operation in operations]
    for pair in pairs:
        if not any(situations.get(name).operation == pair.operation for name in fitting):
            asked = ", ".join(chosen)
            raise RequestError(
                f'No situation asked for is solved by "{pair}": {asked}. '
                f"Leave --situation out, or choose one that is solved by {pair.operation}."
            )
    if told and len(fitting) < len(chosen):
        odd = ", ".join(name for name in chosen if name not in fitting)
        raise RequestError(
            f"No pair asked for can be told as {odd}. Leave that situation out, or add a pair "
            "with the other operation."
        )
    return tuple(fitting)


def _strategies_for(
    chosen: Sequence[str], named: tuple[str, ...], told: bool
) -> dict[str, tuple[str, ...]]:
    if named == (ANY,):
        return dict.fromkeys(chosen, ())
    wished = [strategies.get(name) for name in named]
    found: dict[str, tuple[str, ...]] = {}
    for name in chosen:
        situation = situations.get(name)
        suiting = tuple(one.id for one in wished if one.suit(situation) is not None)
        if suiting:
            found[name] = suiting
        elif told:
            raise RequestError(_refused(situation, wished))
    for one in wished:
        if not any(one.id in suiting for suiting in found.values()):
            raise RequestError(_refused(situations.get(chosen[0]), [one]))
    return found


def _refused(situation: Situation, wished: Sequence[strategies.Strategy]) -> str:
    reasons = " ".join(f"{one.id}: {one.refusal(situation)}" for one in wished)
    better = [one.id for one in strategies.by_rank() if one.suit(situation) is not None]
    instead = f"Strategies that suit it: {', '.join(better)}, or any." if better else "Ask for any."
    return f"The situation {situation.id} does not suit the strategy asked for. {reasons} {instead}"


def _crossing(text: str) -> str:
    if text in ("always", "never", "any"):
        return text
    digits = text.removesuffix("%")
    if digits.isascii() and digits.isdigit() and int(digits) <= 100:
        return digits
    raise RequestError(
        f'--crossing is "{text}". Choose always, never, any, or a percentage from 0 to 100.'
    )


def _crossings(crossing: str, count: int, seed: int) -> tuple[str, ...]:
    """The wish of each problem; a percentage is kept exactly, up to rounding, over the set."""
    if not crossing.isdigit():
        return (crossing,) * count
    wanted = round(int(crossing) * count / 100)
    regrouping = set(luck.ordered(range(count), f"{seed}/crossing", str)[:wanted])
    return tuple("always" if index in regrouping else "never" for index in range(count))


def _roster(request: Request) -> tuple[str | None, people.Roster]:
    if request.names is not None and request.names_from is not None:
        raise RequestError(
            "--names and --names-from were both given. Choose one: a class list, or a list by name."
        )
    if request.names is not None:
        roster = people.read_class_list(request.names)
        return roster.id, roster
    if request.names_from is not None:
        return None, people.named_list(request.names_from)
    return None, people.own_list()
