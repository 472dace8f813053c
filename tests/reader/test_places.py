"""Wholes at two places, falls beside a thing, two days and what lies in somebody's bag.

Sentences of its own, most with a neighbor that must be refused.
"""

import pytest

from . import CannotRead, read

PLACES = "There were 31 {0} {1}. Each {2}. There were 14 {3}. How many {4}?"
HENS = ("hens", "in the yard", "hen was in a coop or on a fence")
HENS_TEXT = PLACES.format(*HENS, "hens in the coops", "hens were on the fences")


@pytest.mark.parametrize(
    ("whole", "where", "each", "told", "asked"),
    [
        (
            "hens",
            "in the yard",
            "hen was in a coop or on a fence",
            "hens in the coops",
            "hens were on the fences",
        ),
        (
            "hens",
            "in the yard",
            "hen was in a coop or on a fence",
            "hens on fences",
            "hens were in a coop",
        ),
        (
            "hens",
            "in the yard",
            "hen was in a coop or on a fence",
            "of the hens in a coop",
            "were on the fences",
        ),
        (
            "sleds",
            "at the hill",
            "sled was on the snow or in the barn",
            "sleds on the snow",
            "sleds were in the barn",
        ),
        (
            "shirts",
            "in the shop",
            "shirt was on a rack or in a drawer",
            "shirts on the racks",
            "shirts were in the drawers",
        ),
        (
            "dances",
            "at the fair",
            "dance was on the stage or in the street",
            "dances on the stage",
            "dances were in the street",
        ),
        (
            "children",
            "in the gym",
            "child was on a mat or on the floor",
            "children on mats",
            "children were on the floor",
        ),
        (
            "cups of tea",
            "in the hall",
            "cup of tea was on the tray or on the cart",
            "cups of tea on the cart",
            "cups of tea were on the tray",
        ),
        (
            "hens",
            "in the yard",
            "hen was on the low fence or on the high fence",
            "hens on the high fence",
            "hens were on the low fence",
        ),
        (
            "swans",
            "on the lake",
            "swan was near the bridge or near the island",
            "swans near the bridge",
            "swans were near the island",
        ),
    ],
)
def test_each_is_at_one_of_two_places(
    whole: str, where: str, each: str, told: str, asked: str
) -> None:
    found = read(PLACES.format(whole, where, each, told, asked))
    assert (found.equation, found.situation) == ("14 + ? = 31", "part-unknown")


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("were on the fences?", "were in the coops?"),
        ("were on the fences?", "were in the yard?"),
        ("were on the fences?", "were on the roofs?"),
        ("were on the fences?", "were under the fences?"),
        ("How many hens", "How many brown hens"),
        ("How many hens", "How many ducks"),
        ("14 hens in", "14 brown hens in"),
        ("14 hens in", "14 geese in"),
        ("14 hens in the coops", "14 hens under the coops"),
        ("14 hens in the coops", "14 hens in the barn"),
        ("There were 14 hens in", "Then 14 hens came out of"),
        ("There were 14 hens in", "14 hens were not in"),
        ("There were 14 hens in", "In the evening, there were 14 hens in"),
        ("There were 14 hens in", "Now there are 14 hens in"),
        ("fences?", "fences at first?"),
        ("hens in the yard", "hens in the coops"),
        ("Each hen", "Each duck"),
        ("14 hens", "44 hens"),
        ("or on a fence", "or under a coop"),
        ("in a coop or", "in a coop, in a tree or"),
        ("Each hen was in a coop or on a fence", "Each hen was in a coop"),
    ],
)
def test_what_is_not_the_other_place_is_refused(old: str, new: str) -> None:
    assert old in HENS_TEXT
    with pytest.raises(CannotRead):
        read(HENS_TEXT.replace(old, new))


def test_one_of_two_places_that_share_their_noun_has_to_be_told_by_more_than_it() -> None:
    each = "hen was on the low fence or on the high fence"
    told = ("hens on the fence", "hens were on the low fence")
    with pytest.raises(CannotRead):
        read(PLACES.format("hens", "in the yard", each, *told))


FALLING = "There were 24 nuts {0}. Then 9{1} nuts fell {2}. How many nuts were {0} after that?"


@pytest.mark.parametrize(
    ("where", "more", "path", "equation"),
    [
        ("under a tree", " more", "under the tree", "24 + 9 = ?"),
        ("under the tree", "", "under the tree", "24 + 9 = ?"),
        ("near the well", " more", "near the well", "24 + 9 = ?"),
        ("on the tree", "", "under the tree", None),
        ("on the tree", "", "from the tree", "24 - 9 = ?"),
        ("under the tree", "", "from the tree", None),
        ("under the tree", " more", "near the well", None),
    ],
)
def test_a_fall_beside_a_thing_adds_only_there(
    where: str, more: str, path: str, equation: str | None
) -> None:
    text = FALLING.format(where, more, path)
    if equation is None:
        with pytest.raises(CannotRead):
            read(text)
    else:
        assert read(text).equation == equation


SECOND = "On Friday, Noa saw 8 owls. "
TWO_DAYS = {
    SECOND + "That was 5 fewer owls than on Sunday. How many owls did Noa see on Sunday?": (
        "? - 5 = 8"
    ),
    SECOND + "That was 5 more owls than on Sunday. How many owls did Noa see on Sunday?": (
        "? + 5 = 8"
    ),
    SECOND
    + "On Sunday, she saw 5 fewer owls than on Friday. How many owls did Noa see on Sunday?": (
        "8 - 5 = ?"
    ),
    SECOND
    + "On Sunday, she saw 5 more owls than on Friday. How many owls did Noa see on Sunday?": (
        "8 + 5 = ?"
    ),
    SECOND + "On Sunday, she saw 13 owls. "
    "How many more owls did Noa see on Sunday than on Friday?": "8 + ? = 13",
    SECOND + "On Sunday, she saw 13 owls. "
    "How many fewer owls did Noa see on Friday than on Sunday?": "8 + ? = 13",
}


@pytest.mark.parametrize(("text", "equation"), TWO_DAYS.items())
def test_two_days_are_two_sides(text: str, equation: str) -> None:
    assert read(text).equation == equation
    with pytest.raises(CannotRead):
        read(
            text.replace("see on Sunday", "see on Monday").replace("see on Friday", "see on Monday")
        )


HELD = {
    "a place has": (
        "Some geese were in the pond. Then 9 geese flew to the pond. Now the pond has 24 geese. "
        "How many geese were in the pond at first?",
        "? + 9 = 24",
    ),
    "a place has, asked for the change": (
        "There were 24 geese in the pond. Then some geese left the pond. Now the pond has 9 geese. "
        "How many geese left the pond?",
        "24 - ? = 9",
    ),
    "still in the bag": (
        "Noa had 24 plums in a bag. Then Noa gave some plums to Eli. "
        "After that, 9 plums were still in the bag. How many plums did Noa give to Eli?",
        "24 - ? = 9",
    ),
    "given from the bag": (
        "Noa has 24 plums in a bag. Then Noa gives 9 plums to Eli. "
        "How many plums are in the bag now?",
        "24 - 9 = ?",
    ),
    "the bag has, asked for the start": (
        "Noa had some plums in a bag. Then Noa gave 9 plums to Eli. Now the bag has 24 plums. "
        "How many plums were in the bag at first?",
        "? - 9 = 24",
    ),
    "the bag has, asked for the change": (
        "Noa had 24 plums in a bag. Then Noa gave some plums to Eli. Now the bag has 9 plums. "
        "How many plums did Noa give to Eli?",
        "24 - ? = 9",
    ),
    "also": (
        "Noa has 9 flat shells. Noa also has 15 round shells. How many shells does Noa have?",
        "9 + 15 = ?",
    ),
}


@pytest.mark.parametrize(("text", "equation"), HELD.values(), ids=HELD.keys())
def test_what_a_place_or_a_bag_holds(text: str, equation: str) -> None:
    assert read(text).equation == equation


@pytest.mark.parametrize(
    ("name", "old", "new"),
    [
        ("also", "15 round shells", "15 shells"),
        ("given from the bag", "in the bag now", "in the box now"),
        ("given from the bag", "Then Noa gives 9 plums to Eli", "Then Eli gives 9 plums to Mia"),
        ("still in the bag", "still in the bag", "still in the box"),
        ("a place has", "the pond has", "the lake has"),
        ("the bag has, asked for the start", "the bag has", "the box has"),
        ("the bag has, asked for the start", "Then Noa gave", "Then Mia gave"),
        ("the bag has, asked for the change", "the bag has", "the box has"),
        ("a place has, asked for the change", "the pond has", "the lake has"),
    ],
)
def test_another_bag_place_or_giver_is_refused(name: str, old: str, new: str) -> None:
    text = HELD[name][0]
    assert old in text
    with pytest.raises(CannotRead):
        read(text.replace(old, new))
