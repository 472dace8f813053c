"""The reader against problems written by hand, and against texts spoiled on purpose.

`hand_written.json` was written before the reader and not changed since. `held_out.json` was
written after it, in two lots: at first sight the reader got 26 of 40 and 23 of 34 right, refused
11 and 9, and read 3 and 2 wrong; it was corrected with them afterwards.
"""

import json
import re
from collections import Counter
from pathlib import Path
from typing import Any

import pytest

from . import CannotRead, Reading, read
from .clauses import split
from .finding import find_verb
from .lexicon import FORMS, verb
from .words import AUXILIARIES, sentences

HERE = Path(__file__).parent
Problem = dict[str, Any]


def load(name: str) -> list[Problem]:
    found: list[Problem] = json.loads((HERE / name).read_text(encoding="utf-8"))
    return found


HAND_WRITTEN = load("hand_written.json")
HELD_OUT = load("held_out.json")
ALL = HAND_WRITTEN + HELD_OUT


def attempt(text: str) -> Reading | None:
    try:
        return read(text)
    except CannotRead:
        return None


def key(answer: Any) -> Any:
    return answer if isinstance(answer, int) else [tuple(pair) for pair in answer]


def right(problem: Problem, found: Reading) -> bool:
    return (found.situation, found.equation, found.answer) == (
        problem["situation"],
        problem["equation"],
        key(problem["answer"]),
    )


@pytest.mark.parametrize("name", ["hand_written.json", "held_out.json"])
def test_at_least_nine_in_ten_are_solved_and_none_is_read_wrong(name: str) -> None:
    problems = load(name)
    wrong, refused = [], []
    for problem in problems:
        found = attempt(problem["text"])
        if found is None:
            refused.append(problem["text"])
        elif not right(problem, found):
            wrong.append(f"{problem['text']} -> {found.situation}: {found.equation}")
    solved = len(problems) - len(wrong) - len(refused)
    report = "\n".join(["read wrong:", *wrong, "refused:", *refused])
    assert solved >= 0.9 * len(problems), report
    assert not wrong, report


def test_the_hand_written_problems_cover_all_situations() -> None:
    counts = Counter(p["situation"] for p in HAND_WRITTEN)
    assert len(HAND_WRITTEN) == 100
    assert len(counts) == 15
    assert min(counts.values()) >= 6


@pytest.mark.parametrize("problem", ALL, ids=lambda p: p["text"][:40])
def test_the_hand_written_keys_fit_their_equations_and_texts(problem: Problem) -> None:
    equation = problem["equation"]
    numbers = [int(n) for n in re.findall(r"\d+", equation)]
    assert sorted(int(n) for n in re.findall(r"\d+", problem["text"])) == sorted(numbers)
    answer = key(problem["answer"])
    if isinstance(answer, int):
        whole = re.fullmatch(r"(\d+) ([+-]) (\d+) = (\d+)", equation.replace("?", str(answer)))
        assert whole is not None
        left, sign, other, result = whole.groups()
        assert int(left) + int(other) * (1 if sign == "+" else -1) == int(result)
    else:
        assert {a + b for a, b in answer} == {numbers[0]}
        assert len(set(answer)) == numbers[0] + 1


def told_verbs(text: str) -> list[str]:
    """The main verbs of the told clauses, as the reader finds them, auxiliaries left out."""
    found = []
    for n, tokens in enumerate(sentences(text)):
        for span in split(tokens, n):
            place = None if span.asks else find_verb(span.toks, 0, len(span.toks))
            if place is not None:
                token = span.toks[place[1]]
                if token.low not in AUXILIARIES and token.low in FORMS:
                    found.append(token.text)
    return found


def test_a_made_up_verb_is_never_understood() -> None:
    tried, understood = 0, []
    for problem in ALL:
        if attempt(problem["text"]) is None:
            continue
        for word in told_verbs(problem["text"]):
            form = verb(word)
            assert form is not None
            ending = "ed" if "past" in form.shapes else "s" if "third" in form.shapes else ""
            spoiled = re.sub(rf"\b{word}\b", f"glorp{ending}", problem["text"], count=1)
            tried += 1
            if attempt(spoiled) is not None:
                understood.append(spoiled)
    assert tried >= 150
    assert not understood, "\n".join(understood)


COMPARED = [
    ("Leo has 38 {} shells than Ivy. Ivy has 46 shells. How many shells does Leo have?", 84, 8),
    ("Leo has 38 {} shells than Ivy. Leo has 46 shells. How many shells does Ivy have?", 8, 84),
    (
        "There are 52 cars in the front lot. There are 31 {} cars in the back lot than in the "
        "front lot. How many cars are in the back lot?",
        83,
        21,
    ),
    ("Tia swam 45 laps. That is 18 {} laps than Joel swam. How many laps did Joel swim?", 27, 63),
    (
        "There are 24 {} yellow tulips than red tulips. There are 60 yellow tulips. "
        "How many red tulips are there?",
        36,
        84,
    ),
]


@pytest.mark.parametrize(("text", "more", "fewer"), COMPARED)
def test_more_and_fewer_change_the_answer(text: str, more: int, fewer: int) -> None:
    assert read(text.format("more")).answer == more
    assert read(text.format("fewer")).answer == fewer
    assert read(text.format("more")).situation.endswith("-more")
    assert read(text.format("fewer")).situation.endswith("-fewer")


def test_swapped_words_change_every_hand_written_comparison_or_stop_it() -> None:
    swap = {"more": "fewer", "fewer": "more"}
    for problem in ALL:
        if not problem["situation"].startswith("compare") or attempt(problem["text"]) is None:
            continue
        text = re.sub(r"\b(more|fewer)\b", lambda m: swap[m.group()], problem["text"])
        found = attempt(text)
        assert found is None or found.answer != problem["answer"], text


STORY = "Ava {} 38 stickers{}. Now Ava has 84 stickers. How many stickers did Ava have at first?"


def test_the_direction_comes_from_the_verb_and_who_acts() -> None:
    assert read("Ava has some stickers. " + STORY.format("finds", "")).equation == "? + 38 = 84"
    assert read("Ava has some stickers. " + STORY.format("loses", "")).equation == "? - 38 = 84"
    given = STORY.replace("Ava {}", "Ben {}")
    assert read("Ava has some stickers. " + given.format("gives Ava", "")).equation == "? + 38 = 84"
    assert read("Ava has some stickers. " + STORY.format("gives Ben", "")).equation == "? - 38 = 84"


@pytest.mark.parametrize(
    ("event", "equation"),
    [
        ("38 ducks fly away", "84 - 38 = ?"),
        ("38 ducks swim to the river", "84 - 38 = ?"),
        ("38 more ducks swim to the pond", "84 + 38 = ?"),
        ("38 ducks land on the pond", "84 + 38 = ?"),
        ("38 ducks hop out of the pond", "84 - 38 = ?"),
    ],
)
def test_particles_and_places_turn_the_change(event: str, equation: str) -> None:
    text = f"84 ducks are on the pond. Then {event}. How many ducks are on the pond now?"
    assert read(text).equation == equation


def test_another_question_changes_the_equation() -> None:
    two = "There are 84 ducks on the pond. There are 46 ducks on the river. "
    assert read(two + "How many ducks are there in all?").equation == "84 + 46 = ?"
    more = "How many more ducks are on the pond than on the river?"
    assert read(two + more).equation == "46 + ? = 84"
    change = "Ava has 46 cards. Ben gives Ava {} cards. Now Ava has {} cards. "
    assert (
        read(change.format("some", 84) + "How many cards does Ben give Ava?").equation
        == "46 + ? = 84"
    )
    start = "Ava has some cards. Ben gives Ava 38 cards. Now Ava has 84 cards. "
    assert read(start + "How many cards did Ava have at first?").equation == "? + 38 = 84"
    part = "There are 84 apples in the basket. 46 of the apples are red. The rest are green. "
    assert read(part + "How many apples are green?").equation == "46 + ? = 84"


REFUSED = {
    "already told": "Ava has 46 shells. Ava finds 38 shells. How many shells did Ava find?",
    "somebody else": "Ava has 46 shells. Ava finds 38 shells. How many shells does Ben have now?",
    "another third person": "Ava has 46 shells. Ben has 38 shells. How many shells does Cal have?",
    "another thing": "Ava has 46 shells. Ava finds 38 shells. How many stamps does Ava have now?",
    "things mixed": "Ava has 46 shells. Ava finds 38 stamps. How many shells does Ava have now?",
    "no question": "Ava has 46 shells. Ava finds 38 shells. Now Ava has 84 shells.",
    "no closing mark": "Ava has 46 shells. Ava finds 38 shells. How many shells does Ava have now",
    "not how many": "Ava has 46 shells. Ava finds 38 shells. Does Ava have 84 shells now?",
    "one number": "Ava has 46 shells. Ava finds some shells. How many shells does Ava have now?",
    "a number left over": (
        "Ava has 46 shells. Ben has 5 stamps. Ava finds 38 shells. "
        "How many shells does Ava have now?"
    ),
    "two candidates": (
        "Ava has 46 shells. Ben has a net. He finds 38 shells. How many shells does he have now?"
    ),
    "more than there were": "Ava has 46 shells. Ava loses 58 shells. How many shells are left?",
    "ends contradict": (
        "Ava has 84 shells. Ava finds some shells. Now Ava has 46 shells. "
        "How many shells did Ava find?"
    ),
    "difference contradicts": (
        "Ava has 46 shells. Ben has 84 shells. How many more shells does Ava have than Ben?"
    ),
    "part above whole": (
        "There are 46 apples. 84 of the apples are red. The rest are green. "
        "How many apples are green?"
    ),
    "unknown third side": (
        "Ben has 12 fewer shells than Ava. Ben has 46 shells. How many shells does Cal have?"
    ),
    "keyword only": "46 and 38 more. How many in all?",
    "no second part": "There are 12 apples. How many could be red?",
    "a rest that is not asked": (
        "There are 84 apples. 46 of the apples are red. The rest are green. "
        "How many apples are yellow?"
    ),
}


@pytest.mark.parametrize("text", REFUSED.values(), ids=REFUSED.keys())
def test_what_does_not_add_up_is_refused_with_a_reason(text: str) -> None:
    with pytest.raises(CannotRead, match=r"\w+ \w+"):
        read(text)


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        (
            "Ava has 46 sea stars. Ava finds 3 sea stars. How many sea stars does Ava have now?",
            "sea stars",
        ),
        (
            "Ava has 9 pieces of fruit. She eats 3. How many pieces of fruit are left?",
            "pieces of fruit",
        ),
        (
            "Ava picks 84 apples. Ben picks 46 apples. "
            "How many more apples does Ava pick than Ben?",
            "apples",
        ),
        (
            "Ava needs 84 wooden blocks. Ava has 46 wooden blocks. "
            "How many more wooden blocks does Ava need?",
            "wooden blocks",
        ),
    ],
)
def test_the_unit_is_the_phrase_asked_about(text: str, unit: str) -> None:
    assert read(text).unit == unit


def test_the_verb_list_is_broad_and_complete() -> None:
    data = json.loads((HERE / "verbs.json").read_text(encoding="utf-8"))
    lines = [line.split() for entry in data["classes"].values() for line in entry["verbs"]]
    assert all(len(forms) == 5 for forms in lines)
    assert len({forms[0] for forms in lines}) >= 500
    assert {c for d in data["phrases"].values() for c in d.values()} <= set(data["classes"])


def test_the_reader_shares_nothing_with_the_generator() -> None:
    package = "story" + "bank"
    for path in HERE.glob("*.py"):
        assert not re.search(rf"^\s*(from|import) {package}", path.read_text("utf-8"), re.M)
