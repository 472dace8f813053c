"""Counting warm-ups: by ones, fives, tens and hundreds, forward and back, from any number."""

from storybank.counting._choice import warm_ups
from storybank.counting._count import (
    LEAST_STEPS,
    MOST_STEPS,
    SIZES,
    STEPS,
    count_from,
    crosses,
    fitting,
    usual_steps,
)

__all__ = [
    "LEAST_STEPS",
    "MOST_STEPS",
    "SIZES",
    "STEPS",
    "count_from",
    "crosses",
    "fitting",
    "usual_steps",
    "warm_ups",
]
