"""Stories: which telling and which parts of a scene go together, and the sentences of one story."""

from storybank.story.addends import SumPlan, sum_plans
from storybank.story.plans import Draft, Plan, alongside, drafts_for, plans_for
from storybank.story.tell import numbers_told, tell
from storybank.story.two_steps import TwoStepDraft, numbers_of_steps, two_step_drafts
from storybank.story.word_bank import translated

__all__ = [
    "Draft",
    "Plan",
    "SumPlan",
    "TwoStepDraft",
    "alongside",
    "drafts_for",
    "numbers_of_steps",
    "numbers_told",
    "plans_for",
    "sum_plans",
    "tell",
    "translated",
    "two_step_drafts",
]
