"""The whole week: a plan, read and made into days whose problems hang together."""

from storybank.week._making import make_week
from storybank.week._plan import DayPlan, Plan
from storybank.week._reading import plan_of, read_plan, read_plan_text
from storybank.week._settings import usual_group, with_settings
from storybank.week._starter import starter

__all__ = [
    "DayPlan",
    "Plan",
    "make_week",
    "plan_of",
    "read_plan",
    "read_plan_text",
    "starter",
    "usual_group",
    "with_settings",
]
