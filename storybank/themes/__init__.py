"""The theme packs of the folder `themes`: headers for lists, whole packs when asked."""

from functools import cache
from pathlib import Path

from storybank import catalog
from storybank.errors import PackError, RequestError, unknown_value
from storybank.model.words import Header, Theme
from storybank.themes import _schema
from storybank.themes._fields import Faults


@cache
def folder() -> Path:
    """The folder of the packs: inside an installed package, beside it in a checkout."""
    package = Path(__file__).parent.parent
    inside = package / "_themes"
    return inside if inside.is_dir() else package.parent / "themes"


@cache
def ids() -> tuple[str, ...]:
    """The ids of all packs, sorted."""
    return catalog.entry_names(folder(), ".yaml")


@cache
def headers() -> tuple[Header, ...]:
    """The headers of all packs; the packs themselves are not read."""
    return tuple(_header(name) for name in ids())


@cache
def get(theme_id: str) -> Theme:
    """The pack of that id. Raises RequestError for an unknown id, PackError for a faulty pack."""
    if theme_id not in ids():
        raise RequestError(unknown_value("theme", theme_id, ids()))
    return read(folder() / f"{theme_id}.yaml")


def read(path: Path) -> Theme:
    """The pack in the file `path`. Raises PackError listing every fault by line."""
    pack, faults = read_with_faults(path)
    if pack is None or faults:
        raise PackError("\n".join(faults))
    return pack


def read_with_faults(path: Path) -> tuple[Theme | None, list[str]]:
    """The pack in `path` as far as it can be read, and its faults by line.

    Raises PackError where the file is not readable as plain YAML.
    """
    documents = catalog.read_documents(path)
    if len(documents) != 2:
        return None, [
            f"{path.name}, line 1: a pack has two parts, the header and the content, parted by a "
            f"line with three dashes (---); this file has {len(documents)}."
        ]
    faults = Faults(path.name)
    head = _schema.header(path.stem, documents[0], faults)
    return _schema.theme(head, documents[1], faults), faults.lines()


def _header(theme_id: str) -> Header:
    path = folder() / f"{theme_id}.yaml"
    faults = Faults(path.name)
    (node,) = catalog.read_documents(path, first_only=True)
    head = _schema.header(theme_id, node, faults)
    if faults.found:
        raise PackError("\n".join(faults.lines()))
    return head
