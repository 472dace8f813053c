"""What is looked for in the bank: the address of the search <-> what is wanted."""

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from urllib.parse import urlencode

from storybank.bank import Wanted
from storybank.cleaning import clean_text
from storybank.web._wishes import MOST_LETTERS, FieldError

A_PAGE = 20
MOST_VALUES = 100
SEVERAL = (
    "theme", "scene", "situation", "strategy", "vocabulary", "standard", "season", "code",
)  # fmt: skip
"""What takes several values, under the names of the options of `storybank bank find`."""
ONE = ("words", "within", "had-by", "new-to", "like")
YES = ("starred", "noted", "retired")
PAGE = "page"
KEYS = (*ONE, *SEVERAL, *YES, PAGE)
_SEPARATED = re.compile(r"[,;\s]+")


@dataclass(frozen=True)
class Search:
    """What an address looks for: the values under each key, in order."""

    values: Mapping[str, tuple[str, ...]] = field(default_factory=dict)

    @classmethod
    def of(cls, pairs: Iterable[tuple[str, str]]) -> "Search":
        """The search of the pairs of an address or a form; empty ones are left out.

        Raises FieldError for a key that no search has, and for values too long or too many.
        """
        found: dict[str, list[str]] = {}
        for key, value in pairs:
            if key not in KEYS:
                raise FieldError(
                    "",
                    f'This address looks for "{clean_text(key, 40)[0]}", which the bank does not '
                    "know. Search again below.",
                )
            if len(value) > MOST_LETTERS:
                raise FieldError(key, f"{key} is too long. Write at most {MOST_LETTERS} letters.")
            split = _SEPARATED.split(value) if key in ("scene", "code") else [value]
            found.setdefault(key, []).extend(" ".join(one.split()) for one in split if one.strip())
        for key, values in found.items():
            if len(values) > MOST_VALUES:
                raise FieldError(key, f"{key} has {len(values)} values. Choose fewer.")
        return cls({key: tuple(dict.fromkeys(found[key])) for key in KEYS if found.get(key)})

    def get(self, key: str) -> str:
        """The last value under a key, or nothing."""
        return (self.values.get(key) or ("",))[-1]

    def all(self, key: str) -> tuple[str, ...]:
        """All values under a key."""
        return self.values.get(key, ())

    def has(self, key: str, value: str | None = None) -> bool:
        """Whether the key is there, or has the value."""
        return key in self.values if value is None else value in self.values.get(key, ())

    @property
    def query(self) -> str:
        """The search as the query of an address, always in the same order."""
        return urlencode([(key, one) for key in KEYS for one in self.values.get(key, ())])

    @property
    def page(self) -> int:
        """Which page of what was found is shown, from 1 on. Raises FieldError for none."""
        return max(1, _number(PAGE, self.get(PAGE) or "1"))

    def at_page(self, page: int) -> "Search":
        """The same search with another page of what it finds."""
        values = {key: one for key, one in self.values.items() if key != PAGE}
        return Search(values if page < 2 else {**values, PAGE: (str(page),)})

    def wanted(self) -> Wanted:
        """What the bank is asked for. Raises FieldError for a number that is none."""
        return Wanted(
            theme=self.all("theme"),
            scene=self.all("scene"),
            situation=self.all("situation"),
            strategy=self.all("strategy"),
            vocabulary=self.all("vocabulary"),
            standard=self.all("standard"),
            season=self.all("season"),
            within=_number("within", self.get("within")) if self.has("within") else None,
            words=self.get("words"),
            starred=self.has("starred"),
            noted=self.has("noted"),
            retired=self.has("retired"),
            had_by=self.get("had-by") or None,
            new_to=self.get("new-to") or None,
            code=self.all("code"),
            like=self.get("like") or None,
        )

    @property
    def has_details(self) -> bool:
        """Whether something is looked for that the short form does not show."""
        short = ("words", "within", "new-to", "starred", PAGE)
        return any(key not in short for key in self.values)


def _number(key: str, text: str) -> int:
    if not (text.isascii() and text.isdigit() and len(text) < 10):
        raise FieldError(
            key, f'{key} is "{clean_text(text, 40)[0]}". Write a whole number in digits.'
        )
    return int(text)
