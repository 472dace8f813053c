"""Finds the entries of a folder by file name and reads one when it is asked for."""

import importlib
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from types import ModuleType
from typing import Any

import yaml

from storybank.errors import PackError

MAX_BYTES = 1_000_000
MAX_DEPTH = 12


def entry_names(folder: Path, suffix: str) -> tuple[str, ...]:
    """The ids of a folder's entries, sorted: file names without suffix, `_` written as `-`.

    Names beginning with `_` are helpers and are left out.
    """
    return tuple(
        sorted(
            path.name.removesuffix(suffix).replace("_", "-")
            for path in folder.glob(f"*{suffix}")
            if not path.name.startswith("_")
        )
    )


@cache
def module_entries(package: str, folder: Path) -> Mapping[str, ModuleType]:
    """The modules of `package` that lie in `folder`, by id."""
    return {
        name: importlib.import_module(f"{package}.{name.replace('-', '_')}")
        for name in entry_names(folder, ".py")
    }


def read_documents(path: Path, *, first_only: bool = False) -> list[Any]:
    """The YAML documents of `path` with every scalar left as text.

    With `first_only` only the first document is read. Raises PackError, naming file and line,
    for text that is not UTF-8 or not YAML, and for a duplicate key, an anchor, a tag, too much
    nesting or too large a file: packs are plain data.
    """
    try:
        size = path.stat().st_size
        if size > MAX_BYTES:
            raise PackError(
                f"{path.name}: the file has {size:,} bytes. A pack may have at most "
                f"{MAX_BYTES:,}; split it into several packs."
            )
        text = path.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise PackError(
            f"{path.name}: byte {error.start} is not UTF-8 text. Save the file as UTF-8."
        ) from error
    except OSError as error:
        raise PackError(f"{path}: cannot be read ({error.strerror}). Check the name.") from error
    return parse_documents(text, path.name, first_only=first_only)


def parse_documents(text: str, name: str, *, first_only: bool = False) -> list[Any]:
    """The YAML documents in `text`, as `read_documents`; `name` stands in the messages."""
    documents: list[Any] = []
    try:
        events = _guarded(yaml.parse(text, Loader=_loader()), name)
        for event in events:
            if isinstance(event, yaml.DocumentStartEvent):
                documents.append(_node(next(events), events, name))
                if first_only:
                    break
    except yaml.MarkedYAMLError as error:
        raise PackError(_not_yaml(text, name, error)) from error
    except yaml.YAMLError as error:
        raise PackError(f"{name}: this is not valid YAML text: {error}.") from error
    return documents


def _not_yaml(text: str, name: str, error: Any) -> str:
    from storybank.yaml_faults import Mishap, explained

    mark = error.problem_mark or error.context_mark
    if mark is None:
        return f"{name}: this is not valid YAML: {error.problem}."
    begun = (error.context_mark or mark).line + 1
    mishap = Mishap(begun, mark.line + 1, mark.column, error.context or "", error.problem or "")
    line, why = explained(text, mishap)
    return f"{name}, line {line}: this is not valid YAML: {why}"


class At(str):
    """A text that remembers the line it stood in."""

    __slots__ = ("line",)
    line: int


class MappingAt(dict[str, Any]):
    """A mapping that remembers the line it began in; its keys are `At` texts."""

    __slots__ = ("line",)
    line: int


class ListAt(list[Any]):
    """A list that remembers the line it began in."""

    __slots__ = ("line",)
    line: int


class Faults:
    """The faults found in one file, each with its line; notes that have none stand last."""

    def __init__(self, name: str) -> None:
        self.name = name
        self.found: dict[tuple[int | None, str], None] = {}

    def add(self, where: Any, message: str) -> None:
        """Notes a fault, once: at the line `where`, at that of a node, or with None at none."""
        line = where if where is None or isinstance(where, int) else getattr(where, "line", 1)
        self.found.setdefault((line, message))

    def lines(self) -> list[str]:
        """The faults as lines of text, in the order of the file."""
        placed = sorted((line, text) for line, text in self.found if line is not None)
        return [
            *(f"{self.name}, line {line}: {text}" for line, text in placed),
            *(f"{self.name}: {text}" for line, text in self.found if line is None),
        ]

    def stop(self) -> None:
        """Raises PackError with every fault by line, if there are any."""
        if self.found:
            raise PackError("\n".join(self.lines()))


def _loader() -> Any:
    return getattr(yaml, "CSafeLoader", yaml.SafeLoader)


def _guarded(events: Iterator[Any], name: str) -> Iterator[Any]:
    depth = 0
    for event in events:
        line = event.start_mark.line + 1
        if isinstance(event, yaml.AliasEvent) or getattr(event, "anchor", None):
            raise PackError(
                f"{name}, line {line}: anchors and aliases (& and *) are not allowed in a pack. "
                "Write the value out, or put text that begins with & or * in quotes."
            )
        tag = getattr(event, "tag", None)
        if tag:
            raise PackError(
                f'{name}, line {line}: the tag "{tag}" is not allowed in a pack. '
                "Remove it, or put text that begins with ! in quotes."
            )
        if isinstance(event, yaml.CollectionStartEvent):
            depth += 1
            if depth > MAX_DEPTH:
                raise PackError(
                    f"{name}, line {line}: more than {MAX_DEPTH} levels of nesting. "
                    "A pack needs fewer; check the indentation and brackets."
                )
        elif isinstance(event, yaml.CollectionEndEvent):
            depth -= 1
        yield event


def _node(event: Any, events: Iterator[Any], name: str) -> Any:
    line = event.start_mark.line + 1
    if isinstance(event, yaml.ScalarEvent):
        text = At(event.value)
        text.line = line
        return text
    if isinstance(event, yaml.SequenceStartEvent):
        items = ListAt()
        items.line = line
        for item in events:
            if isinstance(item, yaml.SequenceEndEvent):
                break
            items.append(_node(item, events, name))
        return items
    mapping = MappingAt()
    mapping.line = line
    for item in events:
        if isinstance(item, yaml.MappingEndEvent):
            break
        key = _node(item, events, name)
        if not isinstance(key, At):
            raise PackError(f"{name}, line {line}: a key must be plain text, not a list.")
        if key in mapping:
            raise PackError(
                f'{name}, line {key.line}: the key "{key}" stands twice in one mapping. '
                "Keep one of them."
            )
        mapping[key] = _node(next(events), events, name)
    return mapping
