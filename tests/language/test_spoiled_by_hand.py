"""400 sentences spoiled by hand in 33 kinds of fault, by somebody who had not read the checks.

At their first run, before anything was changed for them, the own checks found 90.8%, link-grammar
(Sleator & Temperley 1991) 35.5%, one or the other 91.8%. Afterwards commas, numbers joined to
words, and a person compared with herself were added to the checks. What both still miss is listed
in `spoiled_by_hand.json` under `missed`; the list fails when it is no longer true.
"""

import json
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from language.finished import faults, problem, retold
from language.link_parser import judge

STORED = json.loads(Path(__file__).with_name("spoiled_by_hand.json").read_text(encoding="utf-8"))
GOOD = [problem(one) for one in STORED["problems"]]
LEAST = 0.9

Found = list[tuple[dict[str, Any], bool, bool]]


@pytest.fixture(scope="module")
def found(needs_program: Callable[[str], str]) -> Found:
    """Each spoiled sentence, whether the own checks find it, and whether link-grammar does."""
    spoiled = STORED["spoiled"]
    verdicts = judge(needs_program("link-parser"), [one["spoiled"] for one in spoiled])
    return [
        (
            one,
            bool(faults(retold(GOOD[one["story"]], one["sentence"], one["spoiled"]))),
            not verdicts[one["spoiled"]].good,
        )
        for one in spoiled
    ]


def test_the_good_stories_have_no_fault() -> None:
    assert [one.text for one in GOOD if faults(one)] == []
    told = [retold(one, 0, one.story.sentences[0]) for one in GOOD]
    assert [one.text for one in told if faults(one)] == []


def test_there_are_enough_kinds_and_sentences() -> None:
    kinds = Counter(one["kind"] for one in STORED["spoiled"])
    assert len(kinds) >= 20 and min(kinds.values()) >= 12 and sum(kinds.values()) >= 200


def test_nine_tenths_are_found_by_one_or_the_other(found: Found) -> None:
    caught = [own or linked for _, own, linked in found]
    assert sum(caught) / len(caught) >= LEAST


def test_every_miss_is_listed(found: Found) -> None:
    missed = sorted(one["spoiled"] for one, own, linked in found if not (own or linked))
    assert missed == sorted(STORED["missed"])
