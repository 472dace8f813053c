"""A teacher's own translations of words of the word bank."""

from collections.abc import Mapping
from pathlib import Path

from storybank import catalog
from storybank.cleaning import clean_text
from storybank.errors import PackError
from storybank.located import At, MappingAt

Translations = Mapping[str, Mapping[str, str]]
_CODE_LENGTHS = (2, 3)
_LONGEST = 80


def is_language(code: str) -> bool:
    """Whether a text can be a language code of ISO 639: two or three small letters."""
    return len(code) in _CODE_LENGTHS and code.isascii() and code.isalpha() and code.islower()


def read(path: Path) -> Translations:
    """The translations in the file `path`: word, then language, then translation.

    Raises PackError, naming file and line, for a file that holds anything else.
    """
    documents = catalog.read_documents(path)
    node = documents[0] if len(documents) == 1 else None
    if not isinstance(node, MappingAt):
        raise PackError(
            f"{path.name}, line 1: translations are a list of words, each with its languages, "
            'for example `leaf: {vi: "lá cây", ht: fèy}`.'
        )
    return {str(word).lower(): _languages(path.name, word, node[word]) for word in node}


def _languages(name: str, word: str, node: object) -> Mapping[str, str]:
    where = f"{name}, line {getattr(word, 'line', 1)}"
    if not isinstance(node, MappingAt):
        raise PackError(
            f'{where}: "{word}" needs its languages, for example `{word}: {{vi: "..."}}`.'
        )
    for code, text in node.items():
        if not is_language(code):
            raise PackError(
                f'{where}: "{code}" is no language code. Write the two or three small letters of '
                "ISO 639, such as es, vi, ht, ar."
            )
        if not isinstance(text, At) or not text.strip():
            raise PackError(f'{where}: the translation of "{word}" for {code} must be text.')
    return {str(code): clean_text(str(text), _LONGEST)[0] for code, text in node.items()}
