"""Finds the entries of a folder by file name and reads one when it is asked for."""

import importlib
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from types import ModuleType
from typing import Any

from storybank.errors import PackError

MAX_BYTES = 1_000_000
SUFFIXES = (".yaml", ".yml")
"""Of the files of packs."""


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


def is_path(name: str) -> bool:
    """Whether a pack is asked for by its file: it ends in .yaml or holds a path separator."""
    return name.lower().endswith(SUFFIXES) or "/" in name or "\\" in name


@cache
def pack_folder() -> Path:
    """The folder of the theme packs: inside an installed package, beside it in a checkout."""
    package = Path(__file__).parent
    inside = package / "_themes"
    return inside if inside.is_dir() else package.parent / "themes"


def pack_files() -> list[Path]:
    """The files of the theme packs, sorted."""
    return sorted(pack_folder().glob("[!_]*.yaml"))


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
    from storybank import plain_yaml  # What is kept from an earlier run needs none of it.

    return plain_yaml.parse_documents(text, name, first_only=first_only)
