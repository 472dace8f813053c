"""Reads the fields of a pack one by one and collects every fault with its line."""

import re
from collections.abc import Iterable, Sequence
from typing import Any

from storybank.errors import near
from storybank.located import At, Faults, ListAt, MappingAt
from storybank.model.words import Noun, Range, Verb
from storybank.themes import _forms

_LANGUAGE = re.compile(r"(?!one$)[a-z]{2,3}")
_CURLY = "\u201c\u201d\u201e\u2018\u2019"
_NO_VERB = Verb("do", "does", "did", "done")


class Fields:
    """A mapping of a pack whose keys are taken out one by one; what remains is unknown."""

    def __init__(self, node: Any, what: str, faults: Faults) -> None:
        self.what = what
        self.faults = faults
        self.node: MappingAt = node if isinstance(node, MappingAt) else MappingAt()
        self.readable = isinstance(node, MappingAt)
        if not self.readable and node is not None:
            faults.add(
                node,
                f"{what} must have its parts below it, each written `key: value` and indented "
                "alike; none are there.",
            )
        self.left = dict(self.node)
        self.asked: dict[str, None] = {}

    def __enter__(self) -> "Fields":
        return self

    def __exit__(self, *_: object) -> None:
        for key, value in self.left.items():
            valid = list(self.asked)
            self.faults.add(
                key,
                f'{self.what} has the unknown key "{key}".{_slip(key, value, valid)} '
                f"Known here: {', '.join(valid)}.",
            )

    def has(self, key: str) -> bool:
        """Whether the key stands in the mapping."""
        self.asked[key] = None
        return key in self.node

    def take(self, key: str, *, needed: bool = True) -> Any:
        """The node under `key`, or None; a missing needed key is a fault."""
        self.asked[key] = None
        value = self.left.pop(key, None)
        if value is None and needed and self.readable:
            self.faults.add(
                self.node, f'{self.what} lacks "{key}". Write it, e.g. `{key}: {_sample(key)}`.'
            )
        return value

    def text(self, key: str, default: str = "", *, needed: bool = True) -> str:
        """The text under `key`."""
        value = self.take(key, needed=needed)
        if value is None:
            return default
        if not isinstance(value, At) or not value.strip():
            self.faults.add(
                value,
                f'{self.what}: "{key}" must be text behind the colon, e.g. '
                f"`{key}: {_sample(key)}`. Text with a comma, `: `, # or a brace stands in quotes.",
            )
            return default
        if value.strip()[0] in _CURLY:
            self.faults.add(
                value,
                f'{self.what}: "{key}" has the curly quotes of a word processor. Write straight '
                f'ones, `{key}: "{value.strip().strip(_CURLY)}"`, or none.',
            )
            return default
        return " ".join(str(value).split())

    def optional(self, key: str) -> str | None:
        """The text under `key`, or None where it is not written."""
        return self.text(key, needed=False) or None

    def texts(
        self, key: str, default: Sequence[str] = (), *, needed: bool = False
    ) -> tuple[str, ...]:
        """The list of texts under `key`."""
        value = self.take(key, needed=needed)
        if value is None:
            return tuple(default)
        if not isinstance(value, ListAt) or not all(isinstance(item, At) for item in value):
            self.faults.add(
                value, f'{self.what}: "{key}" must be a list in brackets, such as [one, other].'
            )
            return tuple(default)
        return tuple(str(item) for item in value)

    def as_written(self) -> None:
        """Takes `forms: as written`, by which an author vouches for unlikely word forms."""
        value = self.take("forms", needed=False)
        if value is not None and str(value) != _forms.AS_WRITTEN:
            self.faults.add(
                value,
                f'{self.what}: "forms" may only say that odd word forms are right: '
                f"`forms: {_forms.AS_WRITTEN}`.",
            )

    def choice(self, key: str, choices: Iterable[str]) -> str:
        """The text under `key`, which must be one of `choices`."""
        value = self.node.get(key)
        text = self.text(key)
        valid = list(choices)
        if text and text not in valid:
            self.faults.add(
                value,
                f'{self.what}: "{key}" is "{text}".{near(text, valid)} '
                f"Choose from: {', '.join(valid)}.",
            )
        return text

    def known(
        self, key: str, ids: Iterable[str], kind: str, default: Sequence[str]
    ) -> tuple[str, ...]:
        """The list of ids under `key`, each of which must be known; `default` where missing."""
        value = self.node.get(key)
        valid = list(ids)
        found = self.texts(key, default)
        for item in value if isinstance(value, ListAt) else ():
            if item not in valid and isinstance(item, At):
                self.faults.add(
                    item,
                    f'{self.what}: there is no {kind} "{item}".{near(item, valid)} '
                    f"Choose from: {', '.join(valid) or 'none yet'}.",
                )
        return tuple(name for name in found if name in valid)

    def range(self, key: str, default: Range | None = None) -> Range:
        """The range under `key`, written `2-60`."""
        value = self.take(key, needed=default is None)
        return default or (1, 1) if value is None else self.to_range(value)

    def to_range(self, value: Any) -> Range:
        """The two whole numbers of a range such as `2-60`."""
        match = re.fullmatch(r"(\d{1,4})-(\d{1,4})", str(value))
        low, high = (int(match[1]), int(match[2])) if match else (0, 0)
        if not 1 <= low <= high <= 1000:
            self.faults.add(
                value,
                f"{self.what}: a range is two whole numbers from 1 to 1000, the smaller first, "
                f'as 2-60; here stands "{value}".',
            )
            return (1, 1)
        return (low, high)

    def verb(self, key: str = "verb", default: Verb | None = None) -> Verb:
        """The four forms of the verb under `key`, written `pick picks picked picked`."""
        value = self.node.get(key)
        if value is None and default is not None:
            return default
        text = self.text(key)
        forms = text.split()
        if len(forms) == 4:
            return Verb(*forms)
        if text:
            self.faults.add(
                value,
                f"{self.what}: a verb needs its four forms, e.g. `{key}: take takes took taken`; "
                f'here stands "{text}".',
            )
        return _NO_VERB


_SAMPLES = {
    "title": "Buttons and beads",
    "season": "any",
    "months": "[1, 2, 3]",
    "climate": "any",
    "observance": "none",
    "sources": "our own invention",
    "read_by": "not yet read by a teacher",
    "one": "a button",
    "many": "buttons",
    "meaning": "a small round thing that closes a coat",
    "setting": "at the craft table",
    "room": "{button: 2-60}",
    "is": "person",
    "prep": "in",
    "range": "1-20",
    "effect": "gain",
    "verb": "find finds found found",
    "frame": '"{who} {verb} {n} {things}"',
    "way": "color",
    "reason": "for a picture",
    "rest": "at the craft table",
    "span": "that day",
}


def _sample(key: str) -> str:
    return _SAMPLES.get(key, "...")


def is_language_key(key: str) -> bool:
    """Whether a key of a thing or word is that of a language, such as `es`."""
    return _LANGUAGE.fullmatch(key) is not None


def _slip(key: str, value: Any, valid: Sequence[str]) -> str:
    """The likely cause of an unknown key: a slip of a comma, a colon or a blank, or a misspelling.

    A comma in a text without quotes makes a key of what follows, with nothing behind it.
    """
    if isinstance(value, At) and not value:
        before, colon, _ = key.partition(":")
        if colon and before in valid:
            return f' Write a blank behind the colon: "{before}: ...".'
        first = key.split(" ")[0]
        if first in valid:
            return f' Is a colon missing behind "{first}"?'
        return (
            " Perhaps a comma splits a text here: put the whole text in quotes, as in meaning: "
            '"a small, round thing".'
        )
    return near(key, valid)


def entries(node: Any, what: str, faults: Faults) -> list[tuple[str, Any]]:
    """The named entries of a mapping; none where it is missing or no mapping."""
    if node is None:
        return []
    if not isinstance(node, MappingAt):
        faults.add(
            node,
            f'"{what}" needs entries below it, each a name with a colon and then what belongs to '
            "it, indented alike.",
        )
        return []
    return [(str(name), item) for name, item in node.items()]


def noun(fields: Fields) -> Noun:
    """The noun with its two forms, taken out of `fields`."""
    where = fields.node.get("one")
    one = fields.text("one", "a thing")
    if not re.match(r"an? \S", one):
        bare = re.sub(r"^(?:the|some|one) ", "", one)
        fields.faults.add(
            where,
            f'{fields.what}: "one" begins with a or an, e.g. '
            f'`one: {_forms.article(bare)} {bare}`; here stands "{one}".',
        )
        one = f"a {bare}"
    many = fields.text("many", "things")
    fields.as_written()
    return Noun(one=one, many=many)
