"""Makes a names file to be reviewed from the first names of a Faker locale."""

import importlib
import unicodedata
import warnings
from collections.abc import Collection
from functools import cache
from pathlib import Path

from storybank.cleaning import clean_text
from storybank.errors import RequestError, nearest
from storybank.people.lists import NOT_REVIEWED, SUFFIX

_LETTERS = range(2, 13)
_FEWEST = 10
_VOWELS = frozenset("aeiouy\u0131\u00e6\u00f8\u0153\u0259")


def new_names(locale: str, words: Collection[str] = ()) -> str:
    """The text of a `*.names.csv` with the usable first names of a Faker `locale`, sorted.

    Usable: one word of 2 to 12 Latin letters with a vowel, not ending in s, and neither in
    `words` (lower-case words of the story language) nor among the names known to be words.
    The pronoun column is left empty: a name does not tell a child's pronoun. Raises
    RequestError, naming the usable locales, for an unknown locale, for one whose names are in
    another script, and for one without names of its own, where Faker silently gives English.
    """
    known = {name.casefold(): name for name in _locales()}
    found = known.get(locale.strip().replace("-", "_").casefold())
    if found is None:
        usable_locales = _usable_locales()
        wish = clean_text(locale, 40)[0]
        near = nearest(wish, usable_locales, cutoff=0.75) or next(
            (name for name in usable_locales if name[:2] == wish[:2].casefold()), None
        )
        hint = f' Did you mean "{near}"?' if near else ""
        raise RequestError(f'There is no locale "{wish}" with names.{hint} {_choices()}')
    names = _names(found)
    if not names:
        raise RequestError(
            f'The locale "{found}" has no names of its own: Faker would give English '
            f"placeholders. {_choices()}"
        )
    words_too = {*words, *name_words()}
    usable = [name for name in names if _is_usable(name, words_too)]
    if len(usable) < _FEWEST:
        raise RequestError(
            f'The locale "{found}" has {len(names)} names, and {len(usable)} of them are one '
            f"word in Latin letters; a list needs {_FEWEST}. Use a class list for names in "
            f"other scripts. {_choices()}"
        )
    header = (
        f"# First names from the Faker locale {found}; save as {found}{SUFFIX}",
        "# They hold names of adult generations too: delete every line you do not want.",
        "# Pronoun: write he or she where you are sure; without one the name is said again.",
        f"{NOT_REVIEWED} (delete this line when you have read the list)",
        "name,pronoun",
    )
    rows = sorted({f"{name}," for name in usable}, key=lambda row: (_plain(row), row))
    return "\n".join((*header, *rows)) + "\n"


def _locales() -> tuple[str, ...]:
    """The locales for which Faker has a module of names."""
    import faker.providers.person as person

    folder = Path(person.__file__).parent
    return tuple(sorted(path.parent.name for path in folder.glob("*/__init__.py")))


def _names(locale: str) -> tuple[str, ...]:
    """The different first names of `locale`, trimmed; empty if it only has the placeholders."""
    from faker import Generator
    from faker.providers.person import Provider as Placeholders

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        module = importlib.import_module(f"faker.providers.person.{locale}")
        listed = module.Provider(Generator()).first_names
    names = dict.fromkeys(unicodedata.normalize("NFC", name.strip()) for name in listed)
    placeholders = set(Placeholders.first_names)
    return () if set(names) <= placeholders else tuple(names)


def _is_usable(name: str, words: Collection[str]) -> bool:
    return (
        len(name) in _LETTERS
        and name.isalpha()
        and name[0].isupper()
        and name[1:].islower()
        and all(unicodedata.name(char, "").startswith("LATIN") for char in name)
        and any(char in _VOWELS for char in _plain(name))
        and _plain(name)[-1] != "s"
        and name.casefold() not in words
    )


def _plain(name: str) -> str:
    decomposed = unicodedata.normalize("NFD", name.casefold())
    return "".join(char for char in decomposed if not unicodedata.combining(char))


@cache
def name_words() -> frozenset[str]:
    """Names that are English words too, in lower case."""
    text = (Path(__file__).parent / "_name_words.txt").read_text(encoding="utf-8")
    return frozenset(line for line in text.splitlines() if not line.startswith("#"))


@cache
def _usable_locales() -> tuple[str, ...]:
    words = name_words()
    return tuple(
        locale
        for locale in _locales()
        if sum(_is_usable(name, words) for name in _names(locale)) >= _FEWEST
    )


def _choices() -> str:
    return f"Choose from: {', '.join(_usable_locales())}."
