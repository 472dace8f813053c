"""Stories: what a telling may take from a scene."""

import pytest

from storybank import situations, themes, vocabulary
from storybank.story import plans_for

LEVEL = vocabulary.get("level-4")


@pytest.mark.parametrize("situation", situations.ids())
def test_an_occasion_opens_only_stories_of_its_things(situation: str) -> None:
    """The summer shore library has stickers, which no visit to the library explains."""
    theme = themes.get("summer-shore")
    scene = theme.scenes["library-club"]
    opened = {
        thing: [name for name in plans_for(theme, scene, thing, situation, LEVEL) if "occ" in name]
        for thing in scene.things
    }
    assert not opened["sticker"]


def test_there_are_stories_that_begin_with_an_occasion() -> None:
    theme = themes.get("summer-shore")
    scene = theme.scenes["library-club"]
    told = plans_for(theme, scene, "book", "compare-bigger-unknown-more", LEVEL)
    assert any("occasion" in name for name in told)


@pytest.mark.parametrize("situation", situations.ids())
def test_at_level_4_nobody_is_named_five_times(situation: str) -> None:
    """A name without a pronoun, said again in each of five places, is stiff at this level."""
    for name in themes.ids():
        theme = themes.get(name)
        for scene in theme.scenes.values():
            for thing in scene.things:
                for plans in plans_for(theme, scene, thing, situation, LEVEL).values():
                    for plan in plans:
                        gaps = [
                            p for s in plan.skeleton.sentences for p in s if not isinstance(p, str)
                        ]
                        assert sum(gap.kind in ("a", "he") for gap in gaps) <= 4


def test_a_form_of_a_word_that_the_pack_explains_is_told_where_explained_words_are() -> None:
    """forest-walk explains "collect"; level 3 allows unfamiliar words that the bank explains."""
    theme = themes.get("forest-walk")
    texts = [
        "".join(piece for piece in sentence if isinstance(piece, str))
        for plans in plans_for(
            theme,
            theme.scenes["creek"],
            "pebble",
            "compare-bigger-unknown-more",
            vocabulary.get("level-3"),
        ).values()
        for plan in plans
        for sentence in plan.skeleton.sentences
    ]
    assert any("collected" in text for text in texts), texts
