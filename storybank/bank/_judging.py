"""Whether a problem from outside may stand in a bank: the checks judge it afresh."""

from collections.abc import Iterator, Mapping
from typing import Any

from storybank import finished, situations, vocabulary
from storybank.bank import _packing
from storybank.errors import BankError, NotHereError
from storybank.model import Problem
from storybank.tellings import keywords_in

MOST_BYTES = 1 << 18
"""Of a problem, and of a request; the longest of ours takes some 40,000. With all that is known
about it a problem stays shorter than a line of an export may be, and can be unpacked."""


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
    claimed = tuple(_claims(problem, request))
    if claimed:
        return claimed, ""
    try:
        return finished.judge(problem, request), ""
    except NotHereError as error:
        return (), f"Not every problem could be judged here: {error}"


def _claims(problem: Problem, request: Mapping[str, Any]) -> Iterator[str]:
    """What the request says of its problems, and this one is not so.

    By its request a problem is handed out later, so no request may claim what does not hold.
    """
    for what, node in (("problem", problem.to_json()), ("request", request)):
        if len(_packing.text_of(node).encode()) > MOST_BYTES:
            yield f"The {what} takes more than {MOST_BYTES:,} bytes, far more than any of ours."
    if problem.levels and tuple(one.vocabulary for one in problem.levels) != vocabulary.ids():
        yield "It is told side by side at other levels than ours."
    for key, holds, what in (
        ("number_sets", problem.number_sets, "several sets of numbers"),
        ("extra_number", problem.extra, "a number that is not needed"),
        ("missing", problem.missing, "a number that is left out"),
        ("levels_side_by_side", problem.levels, "several levels of English"),
        ("fact_families", problem.family, "a place in a fact family"),
    ):
        if bool(request.get(key)) != bool(holds):
            yield f"The request and the problem do not agree about {what}."
    if request.get("keywords") == "none":
        told = (problem, *problem.levels)
        steps = [one.situation for one in problem.steps] or [problem.situation]
        if all(situations.get(one).family != "compare" for one in steps):
            found = [word for one in told for word in keywords_in(one.text.lower())]
            if found:
                yield f'The request wants no keyword, and the text has "{found[0]}".'
