"""Enough packs for every class: season by season, warm or cold, with and without festivals."""

import re

from storybank import themes

HEADERS = themes.headers()
PACKS = [themes.get(head.id) for head in HEADERS]
SEASONS = ("spring", "summer", "autumn", "winter")


def test_there_are_twelve_packs_and_three_a_season() -> None:
    assert len(HEADERS) >= 12
    for season in SEASONS:
        free = [one for one in HEADERS if one.season == season and one.observance is None]
        assert len(free) >= 3, season


def test_each_season_has_a_pack_for_places_where_no_snow_falls() -> None:
    for season in SEASONS:
        assert [one.id for one in HEADERS if one.season == season and one.climate == "warm"], season


def test_warm_packs_know_no_snow() -> None:
    for theme in PACKS:
        if theme.header.climate == "warm":
            words = " ".join((theme.header.title, *theme.things, *theme.scenes)).lower()
            assert not re.search(r"snow|ice-skat|sled|mitten", words), theme.header.id


def test_at_most_a_quarter_belong_to_an_observance() -> None:
    tied = [one for one in HEADERS if one.observance is not None]
    assert tied and 4 * len(tied) <= len(HEADERS)


def test_there_are_scenes_and_things_enough() -> None:
    assert sum(len(theme.scenes) for theme in PACKS) >= 90
    assert sum(len(theme.things) for theme in PACKS) >= 250
    assert len({thing.noun.many for theme in PACKS for thing in theme.things.values()}) >= 150


def test_every_pack_says_who_read_it_and_when() -> None:
    for head in HEADERS:
        assert re.search(r"\b20\d\d-\d\d-\d\d\b", head.read_by), (head.id, head.read_by)
