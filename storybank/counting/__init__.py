"""Counting warm-ups: by ones, fives, tens and hundreds, forward and back, from any number."""

from storybank.counting._asked import USUAL_COUNT, Wish, asked_for
from storybank.counting._bounds import (
    LEAST_STEPS,
    MOST_STEPS,
    SIZES,
    STEPS,
    fitting,
    usual_steps,
)
from storybank.counting._choice import warm_ups
from storybank.counting._count import count_from, crosses

__all__ = [
    "LEAST_STEPS",
    "MOST_STEPS",
    "SIZES",
    "STEPS",
    "USUAL_COUNT",
    "Wish",
    "asked_for",
    "count_from",
    "crosses",
    "fitting",
    "usual_steps",
    "warm_ups",
]
