"""Turns the two documents of a pack into a Theme, noting every fault by line."""

import unicodedata
from typing import Any

from storybank.located import Faults
from storybank.model.words import Gloss, Header, Theme, Thing
from storybank.themes import _forms
from storybank.themes._fields import Fields, entries, is_language_key, noun
from storybank.themes._renamed import meant, named_things
from storybank.themes._scenes import scene
from storybank.themes._subjects import SUBJECTS

SEASONS = ("spring", "summer", "autumn", "winter", "any")
_SYMBOLS = ("So", "Sk", "Sm", "Sc", "Cn")
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
        things |= meant(
            things, named_things(fields.node), fields.node.get("things"), "things", faults
        )
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
    where = fields.node.get("picture")
    picture = fields.optional("picture")
    if picture is None or picture == "none":
        return None
    if not _is_emoji(picture):
        fields.faults.add(
            where,
            f'{fields.what}: "picture" is "{picture}", and a picture is an emoji, such as '
            "\N{MAPLE LEAF}. Write one that shows it, or `picture: none`.",
        )
        return None
    return picture


def _is_emoji(text: str) -> bool:
    """Whether a text has a symbol in it, or a mark that makes an emoji of a sign, and no letters.

    Emoji are of Unicode's category S or followed by U+FE0F or U+20E3 (Unicode standard, UTS 51);
    of category Cn are those that are newer than this Python.
    """
    if any(char.isascii() and char.isalpha() for char in text):
        return False
    return any(
        char in "\ufe0f\u20e3" or (not char.isascii() and unicodedata.category(char) in _SYMBOLS)
        for char in text
    )


def _gloss(name: str, node: Any, faults: Faults) -> Gloss:
    with Fields(node, f'the word "{name}"', faults) as fields:
        where = fields.node.get("forms")
        written = fields.texts("forms")
        if written and name not in written and _kin(name).isdisjoint(written):
            faults.add(
                where,
                f'the word "{name}": here the name before the colon is itself the word that word '
                f"banks print, and its forms are {', '.join(written)}. Write the word there, e.g. "
                f'`{written[0]}: {{forms: [{", ".join(written)}], meaning: ...}}`; if "{name}" is '
                "right, write it among its forms too.",
            )
        return Gloss(
            word=name,
            forms=(name, *written),
            meaning=fields.text("meaning"),
            picture=_picture(fields),
            translations=_translations(fields),
        )


def _kin(word: str) -> set[str]:
    """The likely plurals and verb forms of a word."""
    return {
        *_forms.plurals(word),
        *_forms.s_forms(word),
        *_forms.pasts(word),
        *_forms.participles(word),
        _forms.ing_form(word),
    }
