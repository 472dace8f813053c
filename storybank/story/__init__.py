"""Stories: which telling and which parts of a scene go together, and the sentences of one story."""

from storybank.story.plans import Plan, drafts_for, plans_for
from storybank.story.tell import numbers_told, tell

__all__ = ["Plan", "drafts_for", "numbers_told", "plans_for", "tell"]
