"""Which situations add and which take away, and the refusals that all strategies share."""

from collections.abc import Iterable, Mapping

from storybank.model import Situation

ADDING = (
    "join-result-unknown",
    "separate-start-unknown",
    "whole-unknown",
    "compare-bigger-unknown-more",
    "compare-bigger-unknown-fewer",
)
TAKING_AWAY = (
    "join-change-unknown",
    "join-start-unknown",
    "separate-result-unknown",
    "separate-change-unknown",
    "part-unknown",
    "compare-difference-unknown-more",
    "compare-difference-unknown-fewer",
    "compare-smaller-unknown-more",
    "compare-smaller-unknown-fewer",
)
NOT_ADDING = "This strategy takes away, and the story is solved by adding."
NOT_TAKING_AWAY = "This strategy adds, and the story is solved by taking away."
BOTH_PARTS = "The story asks for every pair of parts, so no single way of working gives its answer."


def refusals(
    own: Mapping[str, str] | None = None,
    *,
    adding: bool = True,
    taking_away: bool = True,
) -> dict[str, str]:
    """The reason by situation: `own` ones, both parts, and the operation that is not done."""
    reasons = {"both-parts-unknown": BOTH_PARTS}
    if not adding:
        reasons |= _same(ADDING, NOT_ADDING)
    if not taking_away:
        reasons |= _same(TAKING_AWAY, NOT_TAKING_AWAY)
    return reasons | dict(own or {})


def shared_refusal(situation: Situation, operations: Iterable[str]) -> str | None:
    """The reason that rules out a situation which no strategy names, or None."""
    if situation.both_parts:
        return BOTH_PARTS
    if situation.operation in operations:
        return None
    return NOT_ADDING if situation.operation == "+" else NOT_TAKING_AWAY


def _same(situations: Iterable[str], reason: str) -> dict[str, str]:
    return dict.fromkeys(situations, reason)
