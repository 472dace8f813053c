"""Whether a problem from outside may stand in a bank: the checks judge it afresh."""

from collections.abc import Mapping
from typing import Any

from storybank import finished
from storybank.errors import BankError, NotHereError
from storybank.model import Problem


def judged(problem: Problem, request: Mapping[str, Any], name: str) -> tuple[str, ...]:
    """What has to be said of a problem that was made under `request`, called `name` in messages.

    Raises BankError for a problem that the checks find a fault in.
    """
    faults, note = verdict(problem, request)
    if faults:
        raise BankError(
            f"The problem {name} breaks a law, so it was not kept: {' '.join(faults)} Make it "
            "again with storybank make, or take it out of the file."
        )
    return (note,) if note else ()


def verdict(problem: Problem, request: Mapping[str, Any]) -> tuple[tuple[str, ...], str]:
    """The faults that the checks find; and why they could not judge, where they could not."""
    try:
        return finished.judge(problem, request), ""
    except NotHereError as error:
        return (), f"Not every problem could be judged here: {error}"
