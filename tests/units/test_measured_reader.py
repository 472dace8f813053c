"""The reader of amounts against problems written by hand and against spoiled texts.

`hand_written.json` is our own; it was written after the reader, with wordings that no telling has.
"""

import json
import re
from pathlib import Path
from typing import Any

import pytest
from reader import CannotRead, read
from reader.amounts import is_measured
from reader.measured import read_measured
from units.made import problems

HAND_WRITTEN: list[dict[str, Any]] = json.loads(
    (Path(__file__).parent / "hand_written.json").read_text(encoding="utf-8")
)
OPPOSITE = {"longer": "shorter", "taller": "shorter", "higher": "lower", "wider": "narrower"}


@pytest.mark.parametrize("problem", HAND_WRITTEN, ids=lambda one: one["text"][:40])
def test_problems_written_by_hand_are_read_as_meant(problem: dict[str, Any]) -> None:
    found = read(problem["text"])
    assert (found.situation, found.equation, found.answer, found.unit) == (
        problem["situation"],
        problem["equation"],
        problem["answer"],
        problem["unit"],
    )


def attempt(text: str) -> tuple[str, object] | None:
    try:
        found = read_measured(text)
    except CannotRead:
        return None
    return found.equation, found.answer


def test_the_opposite_word_never_leads_to_the_same_reading() -> None:
    tried = 0
    for problem in problems():
        word = next((one for one in OPPOSITE if f" {one} " in problem.text), None)
        if word is None or not problem.situation.startswith("compare"):
            continue
        tried += 1
        spoiled = problem.text.replace(word, OPPOSITE[word])
        assert attempt(spoiled) != attempt(problem.text), spoiled
    assert tried > 30


def test_a_second_unit_or_a_bare_number_is_not_read() -> None:
    for problem in problems()[::5]:
        unit = str(problem.story.unit)
        other = "minutes" if unit != "minutes" else "cents"
        assert not is_measured(
            re.sub(rf"(\d+[^\d]*?) {unit}", rf"\1 {other}", problem.text, count=1)
        )
        assert not is_measured(re.sub(rf"(\d+)[^\d]*? {unit}", r"\1", problem.text, count=1))


def test_a_made_up_verb_is_never_understood() -> None:
    tried = 0
    for problem in problems():
        spoiled = re.sub(
            r"\b(?:cut|cuts|grew|grows|spent|spends|ran|runs)\b", "glorped", problem.text
        )
        if spoiled != problem.text:
            tried += 1
            assert attempt(spoiled) is None, spoiled
    assert tried > 50
