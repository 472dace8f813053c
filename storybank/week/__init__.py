"""The whole week: a plan, read and made into days whose problems hang together."""

from storybank.week._making import make_week
from storybank.week._plan import DayPlan, Plan
from storybank.week._reading import read_plan
from storybank.week._starter import starter

__all__ = ["DayPlan", "Plan", "make_week", "read_plan", "starter"]
