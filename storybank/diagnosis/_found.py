"""What one child's wrong answers agree with: mistakes named where the evidence is enough."""

from collections.abc import Mapping, Sequence

from storybank import mistakes
from storybank.diagnosis import _rule
from storybank.diagnosis._answered import Item
from storybank.diagnosis._rule import Pattern, Weighed


def predicted_by(items: Sequence[Item]) -> dict[str, dict[int, int]]:
    """The wrong answers of each mistake by place, the most specific mistake first."""
    found: dict[str, dict[int, int]] = {}
    for name in sorted(mistakes.ids(), key=lambda one: (mistakes.get(one).ORDER, one)):
        places = {
            at: wrong
            for at, item in enumerate(items)
            for wrong, watched in item.watched.items()
            if name in watched.mistakes
        }
        if places:
            found[name] = places
    return found


def findings(
    predicted: Mapping[str, Mapping[int, int]],
    answers: Mapping[int, int],
    given: Mapping[int, int],
) -> list[tuple[tuple[Pattern, ...], float, bool]]:
    """The findings of a child, the surest first: patterns, weight, and whether it is clear.

    `predicted` gives for each mistake the wrong answers by place, most specific mistake first;
    only the problems in `given` count. A finding of several patterns says that one of them, but
    not which, has enough weight.
    """
    answered = {
        name: {at: wrong for at, wrong in places.items() if at in given}
        for name, places in predicted.items()
    }
    weighed = _rule.weighed(_rule.patterns(answered), answers, given)
    able = [at for at, one in enumerate(weighed.patterns) if _made_enough(one, given)]
    able.sort(key=lambda at: -weighed.weight(at))
    named = [at for at in able if weighed.weight(at) >= _rule.ENOUGH]
    found = [_finding(weighed, (at,), given) for at in named]
    left = [at for at in able if at not in named and weighed.weight(at) >= _rule.WORTH_SAYING]
    while left:
        first, *others = left
        group = (first, *(one for one in others if _share_a_hit(weighed, first, one, given)))
        left = [one for one in left if one not in group]
        if len(group) > 1 and weighed.weight(*group) >= _rule.ENOUGH:
            found.append(_finding(weighed, group, given))
    return found


def _made_enough(pattern: Pattern, given: Mapping[int, int]) -> bool:
    return len(pattern.hits(given)) >= _rule.FEWEST_HITS


def _share_a_hit(weighed: Weighed, one: int, other: int, given: Mapping[int, int]) -> bool:
    first, second = (weighed.patterns[at].hits(given) for at in (one, other))
    return not set(first).isdisjoint(second)


def _finding(
    weighed: Weighed, places: tuple[int, ...], given: Mapping[int, int]
) -> tuple[tuple[Pattern, ...], float, bool]:
    found = tuple(weighed.patterns[at] for at in places)
    weight = weighed.weight(*places)
    hits = max(len(one.hits(given)) for one in found)
    clear = len(found) == 1 and weight >= _rule.CLEAR and hits >= _rule.CLEAR_HITS
    return found, weight, clear
