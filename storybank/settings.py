"""A teacher's settings file: wishes that hold for every set unless the command line says else."""

import os
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from storybank import catalog, vocabulary
from storybank.cleaning import clean_text
from storybank.errors import PackError, RequestError, StorybankError, unknown_value
from storybank.located import At, Faults, ListAt, MappingAt
from storybank.request import WITHIN
from storybank.themes import selection

NAME = "storybank.yaml"
KEYS = (
    "festivals", "without", "vocabulary", "names", "names_from", "within", "paper", "large_print",
    "font", "template", "standards",
)  # fmt: skip
_FOLDER = "storybank"


@dataclass(frozen=True, slots=True)
class Settings:
    """What a settings file says; None or nothing where it does not.

    `path` is the file. Files named in it are sought beside it, so `vocabulary`, `names`,
    `names_from`, `template` and `standards` hold their whole path. How pages look (`paper`, `font`,
    `large_print`, `template`) is judged where they are made.
    """

    path: Path
    festivals: tuple[str, ...] = ()
    without: tuple[str, ...] = ()
    vocabulary: str | None = None
    names: str | None = None
    names_from: str | None = None
    within: int | None = None
    paper: str | None = None
    large_print: bool | None = None
    font: str | None = None
    template: str | None = None
    standards: str | None = None

    @property
    def said(self) -> tuple[str, ...]:
        """The keys that stand in the file."""
        return tuple(key for key in KEYS if getattr(self, key) not in (None, ()))


def find(named: str | None, here: Path, environment: Mapping[str, str]) -> Settings | None:
    """The settings of the file `named`, or else of the first that is there, or None.

    Sought are `storybank.yaml` in the folder `here` and in `storybank` of the user's folder for
    configuration: XDG_CONFIG_HOME (XDG Base Directory Specification), on Windows APPDATA, else
    `.config` in the home folder. Raises RequestError for a named file that is not there and
    PackError, by line, for what is wrong in one.
    """
    if named is not None:
        path = Path(named)
        if not path.is_file():
            raise RequestError(
                f'The settings file "{clean_text(named, 200)[0]}" is not there or no file. Check '
                "its name and folder, or leave --settings out."
            )
        return read(path)
    for path in (here / NAME, *_of_user(environment)):
        if path.is_file():
            return read(path)
    return None


def read(path: Path) -> Settings:
    """The settings in a file. Raises PackError with every fault by line."""
    documents = catalog.read_documents(path)
    node = documents[0] if documents else MappingAt()
    if len(documents) > 1 or not isinstance(node, MappingAt):
        raise PackError(
            f'{path.name}, line 1: settings are keys with values, such as "within: 50". Choose '
            f"keys from: {', '.join(KEYS)}."
        )
    reader = _Reader(path)
    values = {key: reader.value(key, item) for key, item in node.items()}
    if "names" in node and "names_from" in node:
        reader.faults.add(
            node["names_from"],
            "names and names_from are both given. Keep one: a class list, or a list by name.",
        )
    reader.faults.stop()
    return Settings(path=path, **values)


def _of_user(environment: Mapping[str, str]) -> tuple[Path, ...]:
    folder = environment.get("XDG_CONFIG_HOME")
    if not folder and os.name == "nt":
        folder = environment.get("APPDATA")
    if not folder and environment.get("HOME"):
        folder = str(Path(environment["HOME"]) / ".config")
    return (Path(folder) / _FOLDER / NAME,) if folder else ()


class _Reader:
    """Reads the values of one file and collects its faults."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.faults = Faults(path.name)

    def value(self, key: str, node: Any) -> Any:
        if key not in KEYS:
            self.faults.add(key, unknown_value("setting", clean_text(key, 60)[0], KEYS))
        elif key in ("festivals", "without"):
            return self.names(key, node)
        elif not isinstance(node, At) or not node.strip():
            self.faults.add(key, f"{key} must be one value, such as {_EXAMPLES[key]}.")
        elif key == "within":
            return self.within(node)
        elif key == "vocabulary":
            return self.vocabulary(node)
        elif key == "large_print":
            return self.yes_or_no(key, node)
        elif key in ("paper", "font"):
            return str(node)
        elif key in ("template", "standards"):
            return self.file(key, node)
        else:
            is_file = key == "names" or "/" in node or "\\" in node or "." in node
            return self.file(key, node) if is_file else str(node)
        return None

    def names(self, key: str, node: Any) -> tuple[str, ...]:
        known = selection.festivals if key == "festivals" else selection.subjects
        if not isinstance(node, ListAt) or not all(isinstance(item, At) for item in node):
            self.faults.add(key, f"{key} must be a list, such as {_EXAMPLES[key]}.")
            return ()
        found: list[str] = []
        for item in node:
            try:
                found += known([str(item)])
            except StorybankError as error:
                self.faults.add(item, str(error))
        return tuple(dict.fromkeys(found))

    def within(self, node: At) -> int | None:
        low, high = WITHIN
        if node.isascii() and node.isdigit() and len(node) <= 4 and low <= int(node) <= high:
            return int(node)
        shown = clean_text(node, 60)[0]
        self.faults.add(node, f'within is "{shown}". Write a whole number from {low} to {high}.')
        return None

    def yes_or_no(self, key: str, node: At) -> bool | None:
        if node in ("yes", "no"):
            return node == "yes"
        self.faults.add(node, f'{key} is "{clean_text(node, 60)[0]}". Write yes or no.')
        return None

    def vocabulary(self, node: At) -> str | None:
        if catalog.is_path(node):
            return self.file("vocabulary", node)
        try:
            return vocabulary.find(str(node)).id
        except StorybankError as error:
            self.faults.add(node, str(error))
            return None

    def file(self, key: str, node: At) -> str | None:
        path = self.path.parent / node
        if path.is_file():
            return str(path)
        shown = clean_text(node, 100)[0]
        self.faults.add(
            node,
            f'{key}: there is no file "{shown}" beside {self.path.name}. Check its name.',
        )
        return None


_EXAMPLES = {
    "festivals": "[name of an observance, id of a theme pack]",
    "without": f"[{', '.join(selection.SUBJECTS[-2:])}]",
    "vocabulary": "level-2 or my-district.yaml",
    "names": "class.txt",
    "names_from": "own",
    "within": "50",
    "paper": "letter or a4",
    "large_print": "yes or no",
    "font": "Verdana",
    "template": "school.docx",
    "standards": "my-state.yaml",
}


def merged(settings: Settings | None, options: Mapping[str, Any]) -> dict[str, Any]:
    """The options with the settings where they say nothing: None, or an empty list.

    Naming a class list on the command line puts aside a list of names in the settings, and the
    other way round.
    """
    values = dict(options)
    if settings is None:
        return values
    people = ("names", "names_from")
    named = any(options.get(key) is not None for key in people)
    for key in KEYS:
        if key in people and named:
            continue
        value = options.get(key)
        if value is None or (isinstance(value, Sequence) and not value):
            values[key] = getattr(settings, key)
    return values
