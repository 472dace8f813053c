"""Every plan of every theme at every level, once with each number that may be 1: no fault.

So no set can run into a law of language that some rare plan breaks.
"""

import pytest

from storybank import themes
from storybank.theme_check._plans import judged_plans


@pytest.mark.parametrize("theme_id", themes.ids())
def test_no_plan_breaks_a_law_of_language(theme_id: str) -> None:
    judged = 0
    found: dict[str, str] = {}
    for one in judged_plans(themes.get(theme_id)):
        judged += 1
        for fault in one.faults:
            where = f"{one.level} {one.plan.scene}: {one.story.text}"
            found.setdefault(f"{fault.check}: {fault.message}", where)
    assert judged > 1000
    assert not found, "\n".join(f"{fault} {where}" for fault, where in found.items())
