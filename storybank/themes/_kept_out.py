"""Finds words of subjects that are kept out of children's stories: a net, not a judge."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from storybank import catalog
from storybank.errors import near
from storybank.located import At, Faults, ListAt, MappingAt
from storybank.themes import _forms
from storybank.themes._fields import is_language_key

_WORD = re.compile(r"[^\W\d_]+(?:['\u2019][^\W\d_]+)*")
_SLOT = re.compile(r"\{\w+\}")
_UNREAD = ("sources", "read_by", "observance", "allow")
_EMOJI_STYLE = "\ufe0f"

Phrase = tuple[frozenset[str], ...]


@dataclass(frozen=True, slots=True)
class Subject:
    """A subject that is kept out: its phrases by the word listed, fine phrases and pictures."""

    name: str
    instead: str
    only_without_observance: bool
    phrases: dict[str, Phrase]
    fine: tuple[Phrase, ...]
    pictures: frozenset[str]


@cache
def subjects() -> tuple[Subject, ...]:
    """The subjects that the file `_kept_out.yaml` lists."""
    (entry,) = catalog.read_documents(Path(__file__).parent / "_kept_out.yaml")
    return tuple(
        Subject(
            name=str(name),
            instead=str(item["instead"]),
            only_without_observance="unless" in item,
            phrases={
                **{str(text): _phrase(text, _inflected) for text in item["words"]},
                **{str(text): _phrase(text, _alone) for text in item.get("exact", ())},
            },
            fine=tuple(_phrase(text, _inflected) for text in item.get("fine", ())),
            pictures=frozenset(_plain_picture(one) for one in item.get("pictures", ())),
        )
        for name, item in entry.items()
    )


@dataclass(frozen=True, slots=True)
class Catch:
    """A word that the net holds: as listed and as it stands, with its subject."""

    word: str
    found: str
    subject: Subject


def caught(text: str, *, observance: bool = False) -> list[Catch]:
    """The words of a text that belong to a subject kept out, in the order of the subjects.

    With `observance` words of religion and observances are free.
    """
    said = _WORD.findall(_SLOT.sub(" ", text))
    words = [word.lower().replace("\u2019", "'").removesuffix("'s") for word in said]
    found = []
    for subject in subjects():
        if observance and subject.only_without_observance:
            continue
        free = {
            at + i
            for phrase in subject.fine
            for at in _places(phrase, words)
            for i in range(len(phrase))
        }
        for listed, phrase in subject.phrases.items():
            places = [at for at in _places(phrase, words) if at not in free]
            if places:
                words_found = " ".join(said[places[0] : places[0] + len(phrase)])
                found.append(Catch(listed, words_found, subject))
    return found


def note_kept_out(documents: Sequence[Any], faults: Faults) -> None:
    """Notes a fault for each line of a pack's two documents that says what is kept out.

    A word that the header allows is passed over; one that it allows without need is a fault.
    """
    head = documents[0] if isinstance(documents[0], MappingAt) else MappingAt()
    observance = str(head.get("observance", "none")) != "none"
    listed = head.get("allow")
    allowed = {str(one) for one in listed} if isinstance(listed, ListAt) else set()
    known = sorted({word for subject in subjects() for word in subject.phrases})
    for word in sorted(allowed.difference(known)):
        faults.add(
            listed,
            f'the header allows "{word}", which is not held back.{near(word, known)} Remove it.',
        )
    for text, is_picture in _texts(documents):
        if is_picture:
            _note_picture(text, observance, faults)
            continue
        for catch in caught(text, observance=observance):
            if catch.word not in allowed:
                faults.add(
                    text,
                    f'"{catch.found}" belongs to a subject kept out of children\'s stories: '
                    f"{catch.subject.name}. {catch.subject.instead}. If the word is harmless "
                    f"here, write in the header: allow: [{catch.word}].",
                )


def _note_picture(text: At, observance: bool, faults: Faults) -> None:
    for subject in subjects():
        if observance and subject.only_without_observance:
            continue
        if _plain_picture(text) in subject.pictures:
            faults.add(
                text,
                f"the picture {text} belongs to a subject kept out of children's stories: "
                f"{subject.name}. Choose a picture that shows the thing itself, or none.",
            )


def _texts(documents: Sequence[Any]) -> Iterator[tuple[At, bool]]:
    """The texts of a pack with their lines, and whether each is a picture."""
    head, content = documents
    if isinstance(head, MappingAt):
        for key, value in head.items():
            if key not in _UNREAD:
                yield from _below(value, ())
    if isinstance(content, MappingAt):
        yield from _below(content, ())


def _below(node: Any, path: tuple[str, ...]) -> Iterator[tuple[At, bool]]:
    if isinstance(node, MappingAt):
        told_by_name = path == ("words",)
        translated = len(path) == 2 and path[0] in ("things", "words")
        for key, value in node.items():
            if told_by_name and isinstance(key, At):
                yield key, False
            if translated and is_language_key(key):
                continue
            yield from _below(value, (*path, str(key)))
    elif isinstance(node, ListAt):
        for item in node:
            yield from _below(item, path)
    elif isinstance(node, At):
        yield node, bool(path) and path[-1] == "picture"


def _places(phrase: Phrase, words: Sequence[str]) -> list[int]:
    """Where a phrase begins among the words of a text."""
    return [
        at
        for at in range(len(words) - len(phrase) + 1)
        if all(words[at + i] in forms for i, forms in enumerate(phrase))
    ]


def _phrase(text: Any, forms: Any) -> Phrase:
    return tuple(forms(word.lower()) for word in _WORD.findall(str(text)))


def _alone(word: str) -> frozenset[str]:
    return frozenset((word,))


def _inflected(word: str) -> frozenset[str]:
    return frozenset(
        (
            word.removesuffix("'s"),
            *_forms.plurals(word),
            *_forms.s_forms(word),
            *_forms.pasts(word),
            *_forms.participles(word),
            _forms.ing_form(word),
        )
    )


def _plain_picture(text: Any) -> str:
    return str(text).replace(_EMOJI_STYLE, "").strip()
