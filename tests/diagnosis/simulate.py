"""Simulated classes: how often the mistake that a child has is named, and how often a wrong one.

    python tests/diagnosis/simulate.py [CLASSES]     a table for each request (1,000 classes each)

A simulated child makes its one mistake at 80% of the chances and slips at 5% of all else. The
slips here are not those of the rule that judges: they are mostly one, two or ten away, or have
their digits turned round. A published distribution of slips was not at hand: our own design.
"""

import json
import sys
import tempfile
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from random import Random

from storybank import mistakes
from storybank.diagnosis import _rule, read_set
from storybank.diagnosis._answered import Item
from storybank.diagnosis._found import findings, predicted_by
from storybank.problem_set import make_set
from storybank.request import Request

CHILDREN = 30
PROBLEMS = 16
MADE, SLIPPED = 0.8, 0.05
ENOUGH_CHANCES = 4
SETS = 10
REQUESTS: Mapping[str, dict[str, object]] = {
    "tens-then-ones": {"strategy": ["tens-then-ones"]},
    "next-ten-first": {"strategy": ["next-ten-first"]},
    "same-difference": {"strategy": ["same-difference"]},
    "count-up": {"strategy": ["count-up"]},
    "give-and-take": {"strategy": ["give-and-take"]},
    "friendly-then-compensate": {"strategy": ["friendly-then-compensate"]},
    "any, crossing always": {"strategy": ["any"], "crossing": "always"},
}


@dataclass
class Tally:
    """How often each mistake was there, was named first, was left open, and gave way to another."""

    sets: int = 0
    full: int = 0
    there: Counter[str] = field(default_factory=Counter)
    first: Counter[str] = field(default_factory=Counter)
    left_open: Counter[str] = field(default_factory=Counter)
    other: Counter[str] = field(default_factory=Counter)
    fewest: dict[str, int] = field(default_factory=dict)
    most: dict[str, int] = field(default_factory=dict)
    well: int = 0
    well_named: int = 0

    def share(self) -> float:
        """The share of children whose mistake was named first."""
        return self.first.total() / self.there.total()

    def wrongly(self) -> float:
        """The share of children without a mistake with whom one was named."""
        return self.well_named / self.well


def items_of(wish: Mapping[str, object], seed: int) -> tuple[Item, ...]:
    """The problems of a set made with a seed, read as a teacher's set is."""
    made = make_set(Request(count=PROBLEMS, seed=seed, **wish))  # type: ignore[arg-type]
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "set.json"
        path.write_text(json.dumps(made.to_json()), encoding="utf-8")
        return read_set(path).items


def slip(answer: int, luck: Random) -> int:
    """Another number of 0 or more: one, two or ten away, turned round, or anywhere near."""
    kind = luck.random()
    while True:
        turned = int(str(answer)[::-1])
        step = 1 if kind < 0.35 else 2 if kind < 0.5 else 10 if kind < 0.7 else 0
        if step:
            found = answer + luck.choice((-step, step))
        elif kind < 0.8 and turned != answer:
            found = turned
        else:
            found = answer + luck.randint(-20, 20)
        if found >= 0 and found != answer:
            return found
        kind = luck.random()


def child(
    items: Sequence[Item], wrong: Mapping[int, int], luck: Random, slipped: float = SLIPPED
) -> dict[int, int]:
    """The answers of a child to all problems; `wrong` is what its mistake predicts."""
    given = {}
    for at, item in enumerate(items):
        if at in wrong and luck.random() < MADE:
            given[at] = wrong[at]
        else:
            given[at] = slip(item.answer, luck) if luck.random() < slipped else item.answer
    return given


Dealt = tuple[tuple[str, ...], Mapping[int, int]]
"""The mistakes that a child has (several where they coincide), and the answers they lead to."""


def classes(
    wish: Mapping[str, object],
    count: int,
    first_seed: int = 1,
    slipped: float = SLIPPED,
    every: Sequence[str] = (),
) -> Tally:
    """The tally of `count` classes of children with a mistake, and as many of children without.

    The classes answer `SETS` sets in turn. Only mistakes with at least four chances in the set
    are given to children; those that coincide are one. With `every` these mistakes are given to
    children instead, however few chances they have.
    """
    tally = Tally()
    luck = Random(first_seed)
    prepared = []
    for seed in range(first_seed, first_seed + min(SETS, count)):
        items = items_of(wish, seed)
        predicted = predicted_by(items)
        found = _rule.patterns(predicted)
        enough = [one for one in found if len(one.wrong) >= ENOUGH_CHANCES]
        tally.sets += 1
        tally.full += len(enough) == len(found)
        for name in mistakes.ids():
            chances = len(predicted.get(name, ()))
            tally.fewest[name] = min(tally.fewest.get(name, PROBLEMS), chances)
            tally.most[name] = max(tally.most.get(name, 0), chances)
        dealt: list[Dealt] = [(one.mistakes, one.wrong) for one in enough]
        if every:
            dealt = [((name,), predicted.get(name, {})) for name in every]
        prepared.append((items, predicted, dealt))
    for number in range(count):
        items, predicted, dealt = prepared[number % len(prepared)]
        answers = {at: item.answer for at, item in enumerate(items)}
        for place in range(CHILDREN):
            names, wrong = dealt[(number * CHILDREN + place) % len(dealt)]
            given = child(items, wrong, luck, slipped)
            _count(tally, names, findings(predicted, answers, given))
            without = child(items, {}, luck, slipped)
            tally.well += 1
            tally.well_named += bool(findings(predicted, answers, without))
    return tally


def _count(tally: Tally, true: tuple[str, ...], found: Sequence[tuple]) -> None:
    name = true[0]
    tally.there[name] += 1
    if not found:
        return
    named, _, _ = found[0]
    if len(named) == 1 and not set(true).isdisjoint(named[0].mistakes):
        tally.first[name] += 1
    elif len(named) > 1 and any(not set(true).isdisjoint(one.mistakes) for one in named):
        tally.left_open[name] += 1
    else:
        tally.other[name] += 1


def lines(count: int) -> Iterator[str]:
    """The tables of all requests, with and without `--diagnose`."""
    for title, wish in REQUESTS.items():
        every: tuple[str, ...] = ()
        for diagnose in (True, False):
            asked = {**wish, "diagnose": diagnose}
            tally = classes(asked, count)
            every = every or tuple(name for name, chances in tally.most.items() if chances)
            yield f"{title}{' --diagnose' if diagnose else ''}, {count:,} classes"
            yield (
                f"  sets in which every mistake that can be made has {ENOUGH_CHANCES} chances: "
                f"{tally.full} of {tally.sets}"
            )
            yield f"  named first, mistakes with {ENOUGH_CHANCES} chances: {tally.share():.1%}"
            anyhow = classes(asked, count, every=every)
            yield f"  named first, all of the strategy's mistakes: {anyhow.share():.1%}"
            yield f"  wrongly named with children without a mistake: {tally.wrongly():.2%}"
            yield from _by_mistake(tally)
    wish = {**REQUESTS["tens-then-ones"], "diagnose": True}
    for slipped in (0.15, 0.4):
        tally = classes(wish, count, slipped=slipped)
        yield (
            f"tens-then-ones --diagnose, slips at {slipped:.0%}: named first "
            f"{tally.share():.1%}, wrongly named without a mistake {tally.wrongly():.2%}"
        )


def _by_mistake(tally: Tally) -> Iterator[str]:
    yield f"  {'mistake':<26}{'chances':>8}{'first':>8}{'open':>7}{'other':>7}{'none':>7}"
    for name, fewest in sorted(tally.fewest.items()):
        if not tally.most[name]:
            continue
        there = tally.there[name]
        said = (tally.first[name], tally.left_open[name], tally.other[name])
        shares = [one / there for one in (*said, there - sum(said))] if there else []
        cells = "".join(f"{one:>7.1%}" for one in shares) or "  (too few chances, or joined)"
        yield f"  {name:<26}{f'{fewest}-{tally.most[name]}':>8} {cells}"


if __name__ == "__main__":
    for line in lines(int(sys.argv[1]) if len(sys.argv) > 1 else 1000):
        sys.stdout.write(f"{line}\n")
        sys.stdout.flush()
