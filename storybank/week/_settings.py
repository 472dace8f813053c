"""What a teacher's settings say about a week where its plan says nothing."""

from dataclasses import replace

from storybank import settings, vocabulary
from storybank.settings import Settings
from storybank.week._plan import Plan

_KEYS = ("festivals", "without", "names", "names_from", "within", "standards")


def usual_group(file: Settings | None) -> str:
    """The vocabulary of a plan that names no groups."""
    return (file.vocabulary if file is not None else None) or vocabulary.DEFAULT


def with_settings(plan: Plan, file: Settings | None) -> Plan:
    """The plan with what the settings say of all stories, where it says nothing itself."""
    of_plan = {key: plan.request.get(key) for key in _KEYS}
    wish = settings.merged(file, of_plan)
    said = {key: wish[key] for key in of_plan if wish[key] not in (None, ())}
    return replace(plan, request={**plan.request, **said})
