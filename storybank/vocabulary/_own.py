"""Vocabulary packs of one's own: a file that is like one of ours but for some settings."""

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import lru_cache
from pathlib import Path
from typing import Any

from storybank import catalog
from storybank.cleaning import clean_text
from storybank.errors import PackError, RequestError, unknown_value
from storybank.located import At, Faults, ListAt, MappingAt
from storybank.vocabulary._pack import Vocabulary
from storybank.vocabulary._settings import SETTINGS, choice, value_of
from storybank.vocabulary.measures import listed_words, words_of

DEFAULT = "level-4"
_KEYS = ("like", *SETTINGS, "familiar_words", "word_list", "word_list_only")
_STEM = re.compile(r"\w[\w -]{0,58}\w|\w")
_LETTER = re.compile(r"[^\W\d_]")
_MOST_FAULTS = 10
_MOST_KNOWN = 64


def read(path: Path, shipped: tuple[str, ...], get: Callable[[str], Vocabulary]) -> Vocabulary:
    """The pack in the file `path`; its id is the name of the file without its ending.

    `shipped` are the ids of our own packs and `get` gives one. Files of the same content give the
    same object, so what was found out about it is kept. Raises RequestError for a name that
    cannot be used, PackError naming file and line for anything wrong in the file or in its list
    of words.
    """
    stem = path.stem
    if not _STEM.fullmatch(stem):
        raise RequestError(
            f'The vocabulary file "{clean_text(path.name, 80)[0]}" cannot give its name to a set. '
            "Name it with letters, digits and hyphens, such as my-district.yaml."
        )
    if stem.casefold() in shipped:
        raise RequestError(
            f'The vocabulary file "{path.name}" has the name of a pack of Storybank ({stem}): '
            "a set would not tell which it was made with. Rename it, such as my-district.yaml."
        )
    text = _text_of(path, path.name, "vocabulary file")
    entry = _entry(text, path.name)
    listed = ""
    named = entry.get("word_list")
    if isinstance(named, At) and named.strip():
        listed = _text_of(path.parent / named, f"{path.name}, line {named.line}", "word list")
    known = {name: get(name) for name in shipped}
    return _made(stem, path.name, text, listed, tuple(known.items()))


@lru_cache(maxsize=_MOST_KNOWN)
def _made(
    stem: str, name: str, text: str, listed: str, shipped: tuple[tuple[str, Vocabulary], ...]
) -> Vocabulary:
    faults = Faults(name)
    entry = _entry(text, name)
    for key in entry:
        if key not in _KEYS:
            faults.add(key, unknown_value("setting", clean_text(key, 60)[0], _KEYS))
    packs = dict(shipped)
    like = choice("like", entry["like"], tuple(packs), faults) if "like" in entry else DEFAULT
    values = {
        setting: value_of(setting, entry[setting], faults)
        for setting in SETTINGS
        if setting in entry
    }
    familiar = _familiar(entry, listed, faults)
    faults.stop()
    assert like is not None
    values.setdefault("title", f"{stem}, like {packs[like].title}")
    return replace(packs[like], id=stem, familiar=familiar, shipped=False, **values)


def _familiar(entry: MappingAt, listed: str, faults: Faults) -> frozenset[str] | None:
    """The familiar words, or None where they are those of our own list alone."""
    own: set[str] = set()
    inline = entry.get("familiar_words", ListAt())
    if isinstance(inline, ListAt) and all(isinstance(item, At) for item in inline):
        for item in inline:
            own.update(_words(item, item, faults))
    else:
        faults.add(inline, "familiar_words must be a list such as [crayon, eraser].")
    named = entry.get("word_list")
    if named is not None and not (isinstance(named, At) and named.strip()):
        faults.add(named, "word_list must be the name of a file, such as words.txt.")
    elif named is not None:
        in_file = Faults(Path(named).name)
        for number, line in enumerate(listed.splitlines(), 1):
            if line.strip() and not line.lstrip().startswith("#"):
                own.update(_words(line, number, in_file))
            if len(in_file.found) >= _MOST_FAULTS:
                break
        in_file.stop()
        if not own:
            faults.add(named, f'the word list "{named}" is empty. Write one word a line.')
    only = None
    if "word_list_only" in entry:
        only = choice("word_list_only", entry["word_list_only"], ("yes", "no"), faults)
    if only == "yes" and not own:
        faults.add(
            entry["word_list_only"],
            "word_list_only is yes, and there are no words. Add familiar_words: [...] or "
            "word_list: FILE.",
        )
    if not own:
        return None
    return frozenset(own) if only == "yes" else frozenset(own) | listed_words()


def _words(line: str, where: Any, faults: Faults) -> Iterator[str]:
    found = [word for word in words_of(line.lower()) if _LETTER.search(word)]
    if not found:
        shown = clean_text(line, 60)[0]
        faults.add(where, f'"{shown}" holds no word. Write one word a line, or delete it.')
    yield from found


def _entry(text: str, name: str) -> MappingAt:
    documents = catalog.parse_documents(text, name)
    if len(documents) != 1 or not isinstance(documents[0], MappingAt):
        raise PackError(
            f'{name}, line 1: a vocabulary file is one list of settings such as "like: level-2". '
            f"Choose settings from: {', '.join(_KEYS)}."
        )
    return documents[0]


def _text_of(path: Path, where: str, what: str) -> str:
    """The text of a file. Raises PackError where it is none, too large or not UTF-8."""
    shown = clean_text(path.name, 80)[0]
    try:
        if not path.is_file():
            raise PackError(
                f'{where}: the {what} "{shown}" is not there or no file. Check its name and '
                "folder; a word list is sought beside the vocabulary file."
            )
        size = path.stat().st_size
        if size > catalog.MAX_BYTES:
            raise PackError(
                f'{where}: the {what} "{shown}" has {size:,} bytes. It may have at most '
                f"{catalog.MAX_BYTES:,}; leave out what is not needed."
            )
        text = path.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise PackError(
            f'{where}: byte {error.start} of the {what} "{shown}" is not UTF-8 text. Save the file '
            "as plain text in UTF-8."
        ) from error
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "its name is not a valid file name"
        raise PackError(
            f'{where}: the {what} "{shown}" cannot be read ({reason}). Check its name and '
            "permissions."
        ) from error
    if "\0" in text:
        raise PackError(
            f'{where}: the {what} "{shown}" is no plain text. Save it as plain text in UTF-8.'
        )
    return text
