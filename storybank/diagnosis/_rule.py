"""The rule: how well each mistake explains a child's answers, by Bayes' rule.

Model. A child has no known mistake, or one, or two of them. Where a mistake that the child has
predicts a wrong answer, that answer is given at a share `p` of the chances (two mistakes that
predict different numbers share it evenly). In all other cases the child is right, or slips at a
share `e` and gives another number near the answer. Neither `p` nor `e` is known, so the
likelihood is the mean over a few values of each. The weight of a mistake is the posterior
probability of the explanations that hold it; an answer that several mistakes lead to thus
counts for each in proportion to how well it explains the other answers.

Sources: Bayes' rule. That errors are mostly few steady "bugs" beside chance slips, and that a bug
may be made at only a share of its chances, is from memory of Brown & Burton 1978, Diagnostic
Models for Procedural Bugs in Basic Mathematical Skills, and VanLehn 1990, Mind Bugs. All numbers
below are our own design; they were tried by simulation, not with children.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations
from math import exp, log

PRIOR = 0.05
"""How probable each mistake is beforehand; even, since no rates are published for all of them."""
MADE_AT = (0.2, 0.4, 0.6, 0.8, 0.95)
"""The shares `p` of chances at which a mistake may be made, each as probable."""
SLIPS = ((0.05, 0.6), (0.15, 0.3), (0.4, 0.1))
"""The shares `e` of slips, each with its probability: most children slip seldom."""
ONE_AWAY, TEN_AWAY, NEAR, FAR = 0.4, 0.2, 0.35, 0.05
"""How slips are spread: one away, ten away, up to `NEAREST` away, and any other number."""
NEAREST = 20
MANY = 1000
ENOUGH = 0.9
"""The weight from which a mistake is named."""
CLEAR, CLEAR_HITS = 0.99, 4
"""The weight and the hits from which the evidence is called clear."""
FEWEST_HITS = 2
"""A mistake is named only if it was made at least so often; once is no habit."""
WORTH_SAYING = 0.1
"""The least weight of a mistake that is named as one of several."""
FEW_CHANCES = 4
"""A set with fewer chances than this seldom shows a mistake that is made now and then."""


@dataclass(frozen=True, slots=True)
class Pattern:
    """Mistakes that predict the same wrong answers on all problems answered.

    `wrong` gives the answer predicted by the place of the problem.
    """

    mistakes: tuple[str, ...]
    wrong: Mapping[int, int]

    def hits(self, given: Mapping[int, int]) -> tuple[int, ...]:
        """The places of the problems whose answer is the one predicted."""
        return tuple(at for at, wrong in self.wrong.items() if given.get(at) == wrong)


@dataclass(frozen=True, slots=True)
class Weighed:
    """Patterns with their weights, and the weights of all explanations they come from."""

    patterns: tuple[Pattern, ...]
    explanations: Mapping[tuple[int, ...], float]

    def weight(self, *places: int) -> float:
        """How probable it is that the child has at least one of the patterns at `places`."""
        asked = set(places)
        return sum(one for held, one in self.explanations.items() if asked.intersection(held))


def patterns(predicted: Mapping[str, Mapping[int, int]]) -> tuple[Pattern, ...]:
    """The mistakes, in the order given, joined where they predict the same answers."""
    joined: dict[tuple[tuple[int, int], ...], list[str]] = {}
    for name, wrong in predicted.items():
        if wrong:
            joined.setdefault(tuple(sorted(wrong.items())), []).append(name)
    return tuple(Pattern(tuple(names), dict(wrong)) for wrong, names in joined.items())


@lru_cache(maxsize=1 << 12)
def slip(distance: int) -> float:
    """How probable it is that a slip lands just there, `distance` from the right answer."""
    if distance == 1:
        return ONE_AWAY / 2
    if distance == 10:
        return TEN_AWAY / 2
    if distance <= NEAREST:
        return NEAR / (2 * (NEAREST - 2))
    return FAR / MANY


def weighed(
    found: Sequence[Pattern], answers: Mapping[int, int], given: Mapping[int, int]
) -> Weighed:
    """The patterns that explain an answer, with the weight of each explanation.

    `answers` are the right answers and `given` the child's, by place. A pattern without a hit
    is left out: it explains nothing, and would add next to no weight.
    """
    kept = tuple(one for one in found if one.hits(given))
    base = _without_mistake(answers, given)
    explanations: list[tuple[int, ...]] = [(), *((one,) for one in range(len(kept)))]
    explanations += combinations(range(len(kept)), 2)
    logs = {
        held: len(held) * log(PRIOR / (1 - PRIOR))
        + _log_likelihood([kept[one] for one in held], base, answers, given)
        for held in explanations
    }
    highest = max(logs.values())
    raw = {held: exp(one - highest) for held, one in logs.items()}
    total = sum(raw.values())
    return Weighed(kept, {held: one / total for held, one in raw.items()})


def _without_mistake(answers: Mapping[int, int], given: Mapping[int, int]) -> tuple[float, ...]:
    """For each share of slips the log of its probability and of the answers without a mistake."""
    right = sum(given[at] == answers[at] for at in given)
    spread = sum(
        log(slip(abs(given[at] - answers[at]))) for at in given if given[at] != answers[at]
    )
    wrong = len(given) - right
    return tuple(log(share) + right * log(1 - e) + wrong * log(e) + spread for e, share in SLIPS)


def _log_likelihood(
    held: Sequence[Pattern],
    base: Sequence[float],
    answers: Mapping[int, int],
    given: Mapping[int, int],
) -> float:
    """The log of the mean likelihood of the answers, for a child who has the mistakes `held`.

    Only the chances differ from a child without: a hit is a mistake made or a slip, anything
    else is `1 - p` of what it is without.
    """
    missed = 0
    shares: list[tuple[float, float]] = []
    for at in {at for one in held for at in one.wrong}:
        predicted = {one.wrong[at] for one in held if at in one.wrong}
        if given[at] in predicted:
            shares.append((1 / len(predicted), slip(abs(given[at] - answers[at]))))
        else:
            missed += 1
    if not held:
        return _log_mean(list(base), 1)
    terms = []
    for p in MADE_AT:
        lost = missed * log(1 - p)
        for (e, _), without in zip(SLIPS, base, strict=True):
            gained = sum(log(p * part / (e * near) + 1 - p) for part, near in shares)
            terms.append(without + lost + gained)
    return _log_mean(terms, len(MADE_AT))


def _log_mean(terms: Sequence[float], count: int) -> float:
    highest = max(terms)
    return highest + log(sum(exp(one - highest) for one in terms) / count)
