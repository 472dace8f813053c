"""Stories: which telling and which parts of a scene go together, and the sentences of one story."""

from storybank.story.measured import measured_drafts, measured_things
from storybank.story.plans import Draft, Plan, alongside, drafts_for, plans_for
from storybank.story.tell import numbers_told, tell
from storybank.story.word_bank import translated

__all__ = [
    "Draft",
    "Plan",
    "alongside",
    "drafts_for",
    "measured_drafts",
    "measured_things",
    "numbers_told",
    "plans_for",
    "tell",
    "translated",
]
