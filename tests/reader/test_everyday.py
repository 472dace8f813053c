"""Everyday scenes told by hand: what they come to, and which of them nobody can decide.

`everyday.json` was written in three lots, each before the reader was changed for it. At first
sight it read 87 of 96, 35 of 44 and 31 of 33 right, refused 8, 8 and 2, and read 1, 1 and 0
wrong; of the undecided 26, 17 and 14 it refused 21, 13 and 9. It was corrected with them
afterwards, and eight expectations were changed on second thought: "another" after a loss, a
second sort hung up and candles still lit can be read; "he" between two names and "5 more on the
rug" cannot.
"""

import json
import re
from pathlib import Path

import pytest

from . import CannotRead, read

SCENES = json.loads((Path(__file__).parent / "everyday.json").read_text(encoding="utf-8"))
DECIDED: dict[str, str] = {s["text"]: s["equation"] for s in SCENES if s["equation"]}
UNDECIDED: list[str] = [s["text"] for s in SCENES if not s["equation"]]


def test_at_least_nineteen_in_twenty_scenes_are_read_and_none_wrong() -> None:
    refused, wrong = [], []
    for text, equation in DECIDED.items():
        try:
            found = read(text).equation
        except CannotRead:
            refused.append(text)
            continue
        if found != equation:
            wrong.append(f"{text} -> {found}")
    assert len(DECIDED) >= 150
    assert len(refused) <= len(DECIDED) / 20, "\n".join(refused)
    assert not wrong, "\n".join(wrong)


@pytest.mark.parametrize("text", UNDECIDED, ids=lambda t: t[:60])
def test_what_nobody_can_decide_is_refused(text: str) -> None:
    with pytest.raises(CannotRead):
        read(text)


@pytest.mark.parametrize("scene", SCENES, ids=lambda s: s["text"][:60])
def test_the_expected_equation_holds_the_numbers_of_the_text(scene: dict[str, str]) -> None:
    if scene["equation"]:
        told = re.findall(r"\d+", scene["text"])
        assert sorted(told) == sorted(re.findall(r"\d+", scene["equation"]))


SWAPPED = (
    "There were {0} big moths and 6 little moths on a {1} leaf. How many moths were on the {1} "
)


@pytest.mark.parametrize("kind", ["big", "little", "green", "long", "warm", "open"])
def test_what_a_place_is_like_says_nothing_of_the_things(kind: str) -> None:
    text = SWAPPED.format(7, kind) + "leaf?"
    assert read(text).equation == "7 + 6 = ?"


@pytest.mark.parametrize("place", ["box", "log", "boat", "cart", "net", "swing", "drum"])
def test_a_place_whose_name_can_be_a_verb_is_still_a_place(place: str) -> None:
    text = f"There were 3 red beads and 14 blue beads in a small {place}. "
    assert read(text + f"How many beads were in the small {place}?").equation == "3 + 14 = ?"


@pytest.mark.parametrize(
    "verb",
    ["picked up", "dug up", "gathered up", "scooped up", "cut out", "bought", "was given", "found"],
)
def test_another_brings_its_number(verb: str) -> None:
    text = f"Noa had 14 shells. Later, she {verb} another 9 shells. How many shells did Noa have "
    assert read(text + "in the end?").equation == "14 + 9 = ?"


OVER = "There were 14 kites over the lake. Then 9 kites {0} over the lake. How many kites were "


def test_flying_up_over_a_place_comes_to_be_there_and_flying_over_it_may_not() -> None:
    assert read(OVER.format("flew up") + "over the lake then?").equation == "14 + 9 = ?"
    with pytest.raises(CannotRead):
        read(OVER.format("flew") + "over the lake then?")


def test_what_is_put_in_goes_to_the_place_that_is_told_of() -> None:
    text = "Some pears were in a box. Then Eli put in 9 pears. Then {0} had 23 pears. "
    asked = "How many pears were in the box at first?"
    assert read(text.format("the box") + asked).equation == "? + 9 = 23"
    with pytest.raises(CannotRead):
        read(text.format("Noa") + asked)


FIXED = "Noa had 23 {0}. Then she {1} 9 {0} {2}. How many {0} did Noa have after that?"


@pytest.mark.parametrize(
    ("thing", "verb", "onto"),
    [
        ("nails", "hammered", "into a fence"),
        ("squares", "sewed", "onto a quilt"),
        ("patches", "stitched", "on a bag"),
        ("beads", "strung", "on a cord"),
        ("screws", "screwed", "into a stool"),
        ("badges", "pinned", "on a scarf"),
        ("stickers", "glued", "on a card"),
        ("seeds", "planted", "in a pot"),
        ("coins", "tossed", "into a fountain"),
    ],
)
def test_what_is_fixed_on_something_is_no_longer_held(thing: str, verb: str, onto: str) -> None:
    assert read(FIXED.format(thing, verb, onto)).equation == "23 - 9 = ?"
    made = FIXED.format(thing, verb, onto).replace("Then she", "Then Eli")
    with pytest.raises(CannotRead):
        read(made)


def test_sewing_without_a_place_still_makes() -> None:
    text = "Noa had 23 scarves. Then she sewed 9 more scarves. How many scarves did Noa have then?"
    assert read(text).equation == "23 + 9 = ?"


SORTS = "There are 13 {0} in the big barn. Each {1}. There are 8 {2}. How many {3} are there?"


@pytest.mark.parametrize(
    ("whole", "each", "told", "asked"),
    [
        ("goats", "goat is big or small", "big goats", "small goats"),
        ("animals", "animal is a goat or a hen", "goats", "hens"),
        ("songs", "song is about rain or snow", "rain songs", "snow songs"),
    ],
)
def test_each_is_one_of_two(whole: str, each: str, told: str, asked: str) -> None:
    assert read(SORTS.format(whole, each, told, asked)).equation == "8 + ? = 13"
    with pytest.raises(CannotRead):
        read(SORTS.format(whole, each, told, told))
    with pytest.raises(CannotRead):
        read(SORTS.format(whole, each, told, "woolly sheep"))


TAKEN = "Noa had 14 blocks. Then she took 9 blocks out of {0}. How many blocks did Noa have then?"


def test_what_comes_out_of_a_new_place_is_gained() -> None:
    assert read(TAKEN.format("a bin")).equation == "14 + 9 = ?"
    with pytest.raises(CannotRead):
        read(TAKEN.format("the bin").replace("Noa had 14", "Eli had 14"))


@pytest.mark.parametrize(
    ("done", "equation"),
    [
        ("painted 9 pots", None),
        ("folded 9 napkins", None),
        ("painted 9 pictures", "14 + 9 = ?"),
        ("folded 9 paper boats", "14 + 9 = ?"),
    ],
)
def test_work_on_old_things_makes_no_new_ones(done: str, equation: str | None) -> None:
    things = done.split(" ", 2)[2]
    text = f"Noa had 14 {things}. Then she {done}. How many {things} did Noa have after that?"
    if equation is None:
        with pytest.raises(CannotRead):
            read(text)
    else:
        assert read(text).equation == equation


DOWN = "There were 23 kites {0}. Then 9 kites came down{1}. How many kites were {0} after that?"


@pytest.mark.parametrize(
    ("where", "path", "equation"),
    [
        ("in the sky", "", "23 - 9 = ?"),
        ("over the lake", "", "23 - 9 = ?"),
        ("in the air", " to the ground", "23 - 9 = ?"),
        ("on the grass", " from the tree", "23 + 9 = ?"),
        ("on the grass", " onto the grass", "23 + 9 = ?"),
        ("on the grass", "", None),
        ("near the lake", "", None),
        ("near the lake", " from the tree", None),
    ],
)
def test_coming_down_needs_a_high_or_a_low_place(
    where: str, path: str, equation: str | None
) -> None:
    text = DOWN.format(where, path)
    if equation is None:
        with pytest.raises(CannotRead):
            read(text)
    else:
        assert read(text).equation == equation
