"""Turns the two documents of a pack into a Theme, noting every fault by line."""

from typing import Any

from storybank.model.words import (
    Gloss,
    Header,
    Theme,
    Thing,
)
from storybank.themes._fields import Faults, Fields, entries, is_language_key, noun
from storybank.themes._scenes import scene
from storybank.themes._subjects import SUBJECTS

SEASONS = ("spring", "summer", "autumn", "winter", "any")
CLIMATES = ("temperate", "warm", "any")


def header(theme_id: str, node: Any, faults: Faults) -> Header:
    """The header document as values."""
    with Fields(node, "the header", faults) as fields:
        where = fields.node.get("months")
        months = fields.texts("months", needed=True)
        for month in months:
            if month not in map(str, range(1, 13)):
                faults.add(where, f'the header: "{month}" is no month. Write numbers from 1 to 12.')
        fields.texts("allow")
        observance = fields.text("observance")
        return Header(
            id=theme_id,
            title=fields.text("title"),
            season=fields.choice("season", SEASONS),
            months=tuple(int(month) for month in months if month.isdigit()),
            climate=fields.choice("climate", CLIMATES),
            observance=None if observance == "none" else observance,
            sources=fields.text("sources"),
            read_by=fields.text("read_by"),
        )


def theme(head: Header, node: Any, faults: Faults) -> Theme:
    """The content document as values; parts with faults are left out or stood in for."""
    with Fields(node, "the pack", faults) as fields:
        things = {
            name: _thing(name, item, faults)
            for name, item in entries(fields.take("things"), "things", faults)
        }
        words = tuple(
            _gloss(name, item, faults)
            for name, item in entries(fields.take("words", needed=False), "words", faults)
        )
        scenes = {
            name: scene(name, item, head.id, things, faults)
            for name, item in entries(fields.take("scenes"), "scenes", faults)
        }
    return Theme(header=head, things=things, words=words, scenes=scenes)


def _translations(fields: Fields) -> dict[str, str]:
    languages = [key for key in fields.node if is_language_key(key)]
    return {str(key): fields.text(key) for key in languages}


def _thing(name: str, node: Any, faults: Faults) -> Thing:
    with Fields(node, f'the thing "{name}"', faults) as fields:
        return Thing(
            id=name,
            noun=noun(fields),
            picture=_picture(fields),
            meaning=fields.text("meaning"),
            subjects=fields.known("subjects", SUBJECTS, "subject", ()),
            translations=_translations(fields),
        )


def _picture(fields: Fields) -> str | None:
    """The picture, or none where the pack has none or says `picture: none`."""
    picture = fields.optional("picture")
    return None if picture == "none" else picture


def _gloss(name: str, node: Any, faults: Faults) -> Gloss:
    with Fields(node, f'the word "{name}"', faults) as fields:
        return Gloss(
            word=name,
            forms=(name, *fields.texts("forms")),
            meaning=fields.text("meaning"),
            picture=_picture(fields),
            translations=_translations(fields),
        )
