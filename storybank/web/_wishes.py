"""The wishes of a page: what its address says, as a request and as an address again."""

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any
from urllib.parse import urlencode

from storybank import people, vocabulary
from storybank.cleaning import clean_text
from storybank.documents import Layout, kinds
from storybank.errors import RequestError
from storybank.people import Roster
from storybank.request import Request

MOST_LETTERS = 200
_SHORT = 5
MOST_VALUES = 60
MOST_PROBLEMS = 500
_PARTS = re.compile(r"[,;\n]+")
_BLANKS = re.compile(r"[,;\s]+")

SEVERAL = (
    "theme", "without", "festivals", "strategy", "situation", "then", "units", "allow", "forbid",
    "home-language", "number-sets", "pair", "pages",
)  # fmt: skip
"""What takes several values, under the names of the long options of the command line."""
NUMBERS = ("within", "count", "seed", "steps", "addends")
ONE = (
    "vocabulary", "crossing", "keywords", "names-from", "paper", "font", "lines", "unknown",
    "drawings", "beside", "from",
)  # fmt: skip
YES = (
    "diagnose", "levels-side-by-side", "extra-number", "missing", "fact-families", "large-print",
)  # fmt: skip
CLASS = "class-list"
"""That the names of a class stand in the open page: stories that name children come first then."""
CHANGE = "change"
KEPT = "kept"
"""The numbers of problems in the bank: a set of kept ones."""
KEYS = (*SEVERAL, *NUMBERS, *ONE, *YES, CLASS, KEPT, CHANGE)
_LOOKS = ("pages", "paper", "font", "lines", "unknown", "drawings", "large-print", "beside", "from")
_USUAL = {
    "count": "12", "vocabulary": vocabulary.DEFAULT, "crossing": "any", "keywords": "mixed",
    "steps": "1", "addends": "2", "paper": "letter", "unknown": "box", "drawings": "pictures",
    "font": "Verdana",
}  # fmt: skip
"""What holds where an address says nothing, and no settings do."""
_NEED_NOT_BE_SAID = ("count", "crossing", "keywords", "steps", "addends", "unknown", "drawings")


class FieldError(RequestError):
    """A field of the page that cannot be read; `field` is its name."""

    def __init__(self, name: str, text: str) -> None:
        super().__init__(text)
        self.field = name


@dataclass(frozen=True)
class Wishes:
    """What an address says: the values under each key, in order."""

    values: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    @classmethod
    def of(cls, pairs: Iterable[tuple[str, str]]) -> "Wishes":
        """The wishes of the pairs of an address or a form; empty ones and usual ones are left out.

        Raises FieldError for a key that no wish has, and for values too long or too many.
        """
        found: dict[str, list[str]] = {}
        for key, value in pairs:
            if key not in KEYS:
                raise FieldError(
                    "",
                    f'This address asks for "{clean_text(key, 40)[0]}", which no set has. Choose '
                    "again below; an address made by this page holds only what it knows.",
                )
            if len(value) > MOST_LETTERS:
                raise FieldError(key, f"{key} is too long. Write at most {MOST_LETTERS} letters.")
            found.setdefault(key, []).extend(_split(key, value))
        for key, values in found.items():
            if len(values) > (MOST_PROBLEMS if key in (CHANGE, KEPT) else MOST_VALUES):
                raise FieldError(key, f"{key} has {len(values)} values. Choose fewer.")
        said = {key: tuple(found[key]) for key in KEYS if found.get(key)}
        for key in _NEED_NOT_BE_SAID:
            if said.get(key) == (_USUAL[key],):
                del said[key]
        return cls(said)

    def get(self, key: str, otherwise: str = "") -> str:
        """The last value under a key, else what is usual there."""
        values = self.values.get(key)
        return values[-1] if values else _USUAL.get(key, otherwise)

    def all(self, key: str) -> tuple[str, ...]:
        """All values under a key."""
        return self.values.get(key, ())

    def has(self, key: str, value: str | None = None) -> bool:
        """Whether the key is there, or has the value."""
        return key in self.values if value is None else value in self.values.get(key, ())

    def with_(self, **changed: str | int | Sequence[str] | None) -> "Wishes":
        """The wishes with other values; None takes a key away. Hyphens are written as `_`."""
        values = dict(self.values)
        for name, value in changed.items():
            key = name.replace("_", "-")
            if value is None:
                values.pop(key, None)
            elif isinstance(value, str | int):
                values[key] = (str(value),)
            else:
                values[key] = tuple(value)
        return Wishes.of((key, one) for key in KEYS for one in values.get(key, ()))

    def changed(self, change: str) -> "Wishes":
        """The wishes with one more change to the set."""
        return self.with_(change=(*self.all(CHANGE), change))

    def without_last_change(self) -> "Wishes":
        """The wishes as they were before the last change."""
        return self.with_(change=self.all(CHANGE)[:-1])

    @property
    def query(self) -> str:
        """The wishes as the query of an address, always in the same order."""
        return urlencode([(key, one) for key in KEYS for one in self.values.get(key, ())])

    def looks(self) -> dict[str, Any]:
        """How pages are to look: the values for a layout that were asked for."""
        looks: dict[str, Any] = {
            key.replace("-", "_"): self.get(key)
            for key in ("paper", "font", "lines", "unknown", "drawings")
            if self.has(key)
        }
        if self.has("large-print"):
            looks["large_print"] = True
        if self.has("pages"):
            looks["pages"] = tuple(kinds_known(self.all("pages")))
        return looks

    def layout(self, usual: Mapping[str, Any], **more: Any) -> Layout:
        """The layout: what was asked for here, then what is `usual`. Raises RequestError."""
        return Layout(**{**usual, **self.looks(), **more})

    def request(
        self, usual: Mapping[str, Any], themes: Mapping[str, str], names: Roster | None = None
    ) -> Request:
        """The request that the wishes say; `usual` are a teacher's settings.

        `themes` gives the files of her own themes by name; `names` are those of the open page.
        Raises FieldError for a value that is none.
        """
        said = {key.replace("-", "_"): self.all(key) for key in SEVERAL if self.has(key)}
        said.pop("pages", None)
        values: dict[str, Any] = {**usual, **said}
        values["theme"] = tuple(themes.get(one, _id("theme", one)) for one in self.all("theme"))
        values["number_sets"] = tuple(
            _number("number-sets", one) for one in self.all("number-sets")
        )
        for key in NUMBERS:
            if self.has(key):
                values[key] = _number(key, self.get(key))
        for key in ("vocabulary", "crossing", "keywords", "names-from"):
            if self.has(key):
                values[key.replace("-", "_")] = _id(key, self.get(key))
        for key in YES:
            if key != "large-print" and self.has(key):
                values[key.replace("-", "_")] = True
        if values["number_sets"]:
            values.pop("within", None)
        if names is None and self.has(CLASS) and not usual.get("names"):
            names = stand_ins()
        if names is not None or self.has("names-from"):
            values["names"] = names
            if names is not None:
                values.pop("names_from", None)
        return Request(**values)

    def of_set(self) -> "Wishes":
        """The wishes about the stories alone, without looks and without changes."""
        gone = (*_LOOKS, CHANGE)
        return Wishes({key: one for key, one in self.values.items() if key not in gone})


def stand_ins() -> Roster:
    """Names of our own list in place of those of a class, so that the same stories are told.

    They are short enough for every level of English.
    """
    own = people.own_list()
    few = tuple(one for one in own.people if len(one.name) <= _SHORT)
    return replace(own, people=few, class_list=True)


def readable(pairs: Iterable[tuple[str, str]], without: Sequence[str] = ()) -> Wishes:
    """The wishes of an address, or none where it cannot be read: for a form to begin from."""
    try:
        return Wishes.of(one for one in pairs if one[0] not in without)
    except FieldError:
        return Wishes()


def kinds_known(names: Sequence[str]) -> list[str]:
    """The kinds of page of those names. Raises RequestError for one that there is not."""
    for name in names:
        kinds.get(name)
    return list(dict.fromkeys(names))


def _split(key: str, value: str) -> list[str]:
    if key == "pair":
        parts = _PARTS.split(value)
    elif key in ("home-language", "number-sets"):
        parts = _BLANKS.split(value)
    else:
        parts = [value]
    return [" ".join(one.split()) for one in parts if one.strip()]


def _id(key: str, value: str) -> str:
    """A value that names something of ours, never a file of this machine."""
    if not re.fullmatch(r"[0-9A-Za-z][0-9A-Za-z +%-]{0,59}", value):
        raise FieldError(
            key,
            f'"{clean_text(value, 40)[0]}" is no name that this page knows. Choose one below.',
        )
    return value


def _number(key: str, text: str) -> int:
    if not (text.isascii() and text.isdigit() and len(text) <= 19):
        raise FieldError(
            key, f'{key} is "{clean_text(text, 40)[0]}". Write a whole number in digits.'
        )
    return int(text)
