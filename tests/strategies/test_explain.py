"""What `explain` says about a bare sum."""

import pytest

from storybank.errors import RequestError
from storybank.explanation import explain, explain_text, parse
from storybank.model import Form

KEYS = ["strategy", "rank", "fits", "jumps", "lines", "answer", "answer_is", "why"]
SUMS = ["82 - 47", "46 + 38", "47 + ? = 82", "74 - 31", "8 + 6", "900 + 99", "503 - 247", "2 - 1"]


def by_strategy(text: str) -> dict[str, dict[str, object]]:
    return {entry["strategy"]: entry for entry in explain(text)}


@pytest.mark.parametrize("text", SUMS)
def test_shape_and_order(text: str) -> None:
    entries = explain(text)
    assert entries
    for entry in entries:
        assert list(entry) == KEYS
        assert bool(entry["jumps"]) != bool(entry["lines"])
    order = [(entry["rank"], len(entry["jumps"])) for entry in entries]
    assert order == sorted(order)
    assert any(entry["fits"] for entry in entries)
    assert len({entry["answer"] for entry in entries}) == 1


def test_taking_away() -> None:
    found = by_strategy("82 - 47")
    assert {name for name, entry in found.items() if entry["fits"]} == {
        "next-ten-first",
        "tens-then-ones",
    }
    compensated = found["friendly-then-compensate"]
    assert [(jump["from"], jump["by"], jump["to"]) for jump in compensated["jumps"]] == [
        (82, -50, 32),
        (32, 3, 35),
    ]
    assert found["count-up"]["answer_is"] == "sum of jumps"
    assert found["tens-then-ones"]["answer_is"] == "landing"
    assert found["same-difference"]["answer_is"] == "last line"


def test_a_sought_difference_starts_at_the_part_and_lands_on_the_whole() -> None:
    # Friendly-then-compensate has no way up to a difference of 35, so it takes away instead.
    for name, entry in by_strategy("47 + ? = 82").items():
        assert entry["answer"] == 35
        jumps = entry["jumps"]
        if entry["answer_is"] == "sum of jumps":
            assert (jumps[0]["from"], jumps[-1]["to"]) == (47, 82)
        else:
            assert name in ("friendly-then-compensate", "same-difference")
    overshoot = by_strategy("46 + ? = 84")["friendly-then-compensate"]
    assert overshoot["fits"] is True
    assert [jump["to"] for jump in overshoot["jumps"]] == [86, 84]


def test_the_trap_is_not_compensated() -> None:
    # 74 - 31: 31 lies above 30, so nothing is given back (our own design)
    entry = by_strategy("74 - 31").get("friendly-then-compensate")
    assert entry is None or entry["fits"] is False


def test_why_speaks_of_the_numbers_or_of_when_it_pays() -> None:
    found = by_strategy("46 + 38")
    assert found["friendly-then-compensate"]["why"] == (
        "Fits: 38 is only 2 below 40, and the ones would cross a ten."
    )
    assert "simpler here: friendly-then-compensate, give-and-take" in str(
        found["tens-then-ones"]["why"]
    )
    assert "Pays when" in str(by_strategy("82 - 47")["same-difference"]["why"])


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("82-47", (Form.SUBTRACT, 82, 47)),
        ("  82  -  47 ", (Form.SUBTRACT, 82, 47)),
        ("82 \N{MINUS SIGN} 47", (Form.SUBTRACT, 82, 47)),
        ("82 \N{EN DASH} 47", (Form.SUBTRACT, 82, 47)),
        ("46 + 38 = ?", (Form.ADD, 46, 38)),
        ("47+?=82", (Form.SOUGHT, 82, 47)),
        ("1000 - 1", (Form.SUBTRACT, 1000, 1)),
    ],
)
def test_lenient_reading(text: str, expected: tuple[Form, int, int]) -> None:
    assert parse(text) == expected


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("82 - 82", "leaves 0"),
        ("47 - 82", "goes below 0.*83 up"),
        ("82 + ? = 47", "goes below 0"),
        ("82 + ? = 82", "leaves 0"),
        ("0 + 5", "number 0 .*from 1 to 1000"),
        ("1001 - 5", "number 1001"),
        ("900 + 101", "makes 1001"),
        ("9" * 5000 + " + 1", "out of range"),
        ("4 \N{MULTIPLICATION SIGN} 5", 'cannot be read.*"46 \\+ 38"'),
        ("8 2 - 4", "cannot be read"),
        ("4.5 + 1", "cannot be read"),
        ("\N{ARABIC-INDIC DIGIT FOUR} + 1", "cannot be read"),
        ("", "cannot be read"),
    ],
)
def test_what_cannot_be_explained(text: str, message: str) -> None:
    with pytest.raises(RequestError, match=message) as caught:
        explain(text)
    assert len(str(caught.value)) < 400


def test_the_text_for_the_terminal() -> None:
    text = explain_text("82 - 47")
    assert "82 - 47: the answer is 35" in text
    assert "82 - 50 = 32, 32 + 3 = 35" in text
    assert "47 + 3 = 50, 50 + 32 = 82; jumps: 3 + 32 = 35" in text
    assert text.isascii() and text.endswith("\n")
    steps = [line for line in text.splitlines() if line[6:10].strip().isdigit()]
    assert len(steps) == len(explain("82 - 47"))
    assert len({line.index(entry) for line, entry in zip(steps, _ids(), strict=True)}) == 1
    assert explain_text("46 + 38").startswith("46 + 38: the answer is 84")
    assert explain_text("47 + ? = 82").startswith("47 + ? = 82: the answer is 35")


def _ids() -> list[str]:
    return [entry["strategy"] for entry in explain("82 - 47")]
