"""The net for subjects kept out: what it must hold, what it must let through."""

import pytest
from themes.broken import GOOD

from storybank import catalog, themes
from storybank.themes._fields import Faults
from storybank.themes._kept_out import caught, note_kept_out, subjects

# subject: a sentence that it must hold, and one that is near and must pass
SENTENCES = {
    "weapons": ("Omar has 5 toy guns.", "Omar picks up 5 sticks and a bow of ribbon."),
    "violence": ("The robbers stole 9 coins.", "The firefighters won a snowball fight."),
    "punishment": ("Nia is in trouble.", "Nia draws on the ground of the playground."),
    "danger": ("A child drowned in the lake.", "The fire truck drives to the campfire."),
    "illness and death": ("The hen died.", "They fill the skillet with a die of chocolate."),
    "alcohol, tobacco and drugs": ("He drank 3 beers.", "He has drunk 3 root beers."),
    "gambling": ("They gambled for 6 coins.", "The better card game has 6 cards."),
    "body size": ("The fattest boy ate it.", "She has 4 thick and 5 thin crayons."),
    "money trouble": ("They can't afford the tickets.", "She pays 5 coins for poor soil."),
    "stereotypes": ("The mailmen bring dolls for girls.", "The mail carrier and the snowmen wave."),
    "food guilt": ("Junk food is bad.", "They bake 12 good cookies."),
    "religion and observances": ("They light the Christmas tree.", "She lent him a snow angel."),
}  # fmt: skip


def test_every_subject_has_its_sentences() -> None:
    assert list(SENTENCES) == [subject.name for subject in subjects()]


@pytest.mark.parametrize("subject", SENTENCES)
def test_a_sentence_that_is_held(subject: str) -> None:
    assert subject in [one.subject.name for one in caught(SENTENCES[subject][0])]


@pytest.mark.parametrize("subject", SENTENCES)
def test_a_sentence_near_to_it_that_is_let_through(subject: str) -> None:
    assert [one.found for one in caught(SENTENCES[subject][1])] == []


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("guns", "guns"),
        ("GUN", "GUN"),
        ("a gun-shaped cloud", "gun"),
        ("the gun's handle", "gun's"),
        ("a jack-o'-lantern", "jack o lantern"),
        ("knives and spoons", "knives"),
        ("the priest prayed", "priest"),
        ("two trick-or-treaters", "trick or treaters"),
        ("burgundy gundog begun", None),
        ("a willful killdeer", None),
        ("the sword fish and the swordfish", "sword"),
    ],
)
def test_whole_words_with_their_inflections(text: str, found: str | None) -> None:
    assert [one.found for one in caught(text)][:1] == ([found] if found else [])


@pytest.mark.parametrize("theme_id", themes.ids())
def test_no_shipped_pack_holds_a_word_kept_out_or_allows_one(theme_id: str) -> None:
    path = themes.folder() / f"{theme_id}.yaml"
    documents = catalog.read_documents(path)
    assert "allow" not in documents[0]
    faults = Faults(path.name)
    note_kept_out(documents, faults)
    assert faults.lines() == []


def judged(text: str) -> list[str]:
    faults = Faults("my-walk.yaml")
    note_kept_out(catalog.parse_documents(text, "my-walk.yaml"), faults)
    return faults.lines()


def test_an_observance_in_the_header_frees_its_words_and_pictures_only() -> None:
    told = GOOD.replace("The park", "Easter in the church").replace("🌰", "🕌")
    free = told.replace("observance: none", "observance: Easter")
    assert len(judged(told)) == 3
    assert judged(free) == []
    assert len(judged(free.replace("a hard seed", "a gun"))) == 1


def test_an_allowed_word_is_let_through_with_its_inflections() -> None:
    told = GOOD.replace("a hard seed", "food for knights with swords")
    assert len(judged(told)) == 1
    assert judged(told.replace("climate: any", "climate: any\nallow: [sword]")) == []


def test_every_text_that_is_told_is_read() -> None:
    """A word kept out, put in the place of each text in turn, is found there."""
    places = ["A walk", "in the park", "The park", "in a bag", "a box", "red", "before lunch",
              "that day", "a flat part of a tree", "leaves", "a leaf",
              "{verb} {n} {things}"]  # fmt: skip
    for place in places:
        assert GOOD.count(place) == 1, place
        ending = place if "{" in place else "it"
        (fault,) = judged(GOOD.replace(place, f"a bomb {ending}"))
        line = GOOD[: GOOD.index(place)].count("\n") + 1
        assert fault.startswith(f'my-walk.yaml, line {line}: "bomb"'), place


def test_words_of_other_languages_are_not_read() -> None:
    assert judged(GOOD.replace("es: nuez", "es: gun")) == []


def test_explained_words_are_read() -> None:
    words = "words:\n  gun: {meaning: a thing}\nscenes:"
    (fault,) = judged(GOOD.replace("scenes:", words))
    assert 'line 13: "gun"' in fault
