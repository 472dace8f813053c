"""Stories: which telling and which parts of a scene go together, and the sentences of one story."""

from typing import TYPE_CHECKING

from storybank.later import later
from storybank.story.plans import Draft, Plan, alongside, drafts_for, fresh_drafts, plans_for
from storybank.story.tell import EXTRA, asked, numbers_told, tell
from storybank.story.word_bank import translated

if TYPE_CHECKING:
    from storybank.story.addends import SumPlan, sum_plans
    from storybank.story.extra import with_extra
    from storybank.story.measured import (
        fresh_measured_drafts,
        measured_drafts,
        measured_things,
    )
    from storybank.story.missing import with_missing
    from storybank.story.two_steps import TwoStepDraft, numbers_of_steps, two_step_drafts

__all__ = [
    "EXTRA",
    "Draft",
    "Plan",
    "SumPlan",
    "TwoStepDraft",
    "alongside",
    "asked",
    "drafts_for",
    "fresh_drafts",
    "fresh_measured_drafts",
    "measured_drafts",
    "measured_things",
    "numbers_of_steps",
    "numbers_told",
    "plans_for",
    "sum_plans",
    "tell",
    "translated",
    "two_step_drafts",
    "with_extra",
    "with_missing",
]

__getattr__ = later(
    __name__,
    {
        "SumPlan": "addends",
        "TwoStepDraft": "two_steps",
        "fresh_measured_drafts": "measured",
        "measured_drafts": "measured",
        "measured_things": "measured",
        "numbers_of_steps": "two_steps",
        "sum_plans": "addends",
        "two_step_drafts": "two_steps",
        "with_extra": "extra",
        "with_missing": "missing",
    },
)
