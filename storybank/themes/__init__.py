"""The theme packs: those of the folder `themes` by id, and a teacher's own by path."""

from collections.abc import Callable, Iterable
from functools import cache
from pathlib import Path
from typing import TypeVar

from storybank import catalog
from storybank.catalog import pack_folder as folder
from storybank.compiled import compiled
from storybank.errors import PackError, RequestError, unknown_value
from storybank.located import Faults
from storybank.model.words import Header, Theme
from storybank.themes import _forms as forms
from storybank.themes import _schema
from storybank.themes._fields import is_language_key
from storybank.themes._ids import checked_id, checked_name

__all__ = [
    "checked_name",
    "folder",
    "forget",
    "forms",
    "get",
    "headers",
    "ids",
    "is_language_key",
    "made_of",
    "read",
    "read_with_faults",
    "scene_ids",
    "several",
    "why_not_by_path",
]

T = TypeVar("T")
_read_from: dict[Theme, Path] = {}
"""The packs of the folder that were read in this process."""
_opened: dict[str, tuple[Path, Theme]] = {}
"""The packs opened by path in this process, by id."""


@cache
def ids() -> tuple[str, ...]:
    """The ids of all packs of the folder, sorted."""
    return catalog.entry_names(folder(), ".yaml")


@cache
def headers() -> tuple[Header, ...]:
    """The headers of all packs of the folder; the packs themselves are not read."""
    return compiled("headers", catalog.pack_files(), lambda: tuple(_header(name) for name in ids()))


def get(theme: str) -> Theme:
    """The pack of that id, or in the file of that path, which is read afresh.

    A pack once opened by path is also found by its id, the file's name without `.yaml`; opening
    another file of this name replaces it. Raises RequestError for an unknown id and for a file
    that is missing or cannot be a pack by its name, PackError for a faulty pack.
    """
    if catalog.is_path(theme):
        return _open(Path(theme))
    if theme in _opened:
        return _opened[theme][1]
    return _shipped(theme)


def forget(theme_id: str) -> None:
    """Nothing; a pack of that id that was opened by path is found by its id no more."""
    _opened.pop(theme_id, None)


def scene_ids(theme: str) -> tuple[str, ...]:
    """The ids of a pack's scenes, in its order; a pack of the folder need not be read for them."""
    if catalog.is_path(theme) or theme in _opened or theme not in ids():
        return tuple(get(theme).scenes)
    return _shipped_scenes()[theme]


@cache
def _shipped_scenes() -> dict[str, tuple[str, ...]]:
    return compiled(
        "scenes",
        catalog.pack_files(),
        lambda: {name: tuple(_shipped(name).scenes) for name in ids()},
    )


def several(names: Iterable[str]) -> tuple[Theme, ...]:
    """The packs named by id or path, each once.

    Raises RequestError where two different files would have the same id, and as `get`.
    """
    found: dict[str, tuple[Path | None, Theme]] = {}
    for name in names:
        pack = get(name)
        path = _opened[pack.header.id][0] if pack.header.id in _opened else None
        before = found.setdefault(pack.header.id, (path, pack))
        if before[0] != path:
            raise RequestError(
                f'Two different theme packs asked for are called "{pack.header.id}": the second '
                f'is "{name}". Rename one of the files, or ask for one of them.'
            )
    return tuple(get(theme_id) for theme_id in found)


def why_not_by_path(path: Path) -> str:
    """Why no set can be made from the file `path` by its name, or nothing where one can."""
    try:
        if not _is_shipped(path):
            checked_id(path, ids())
    except RequestError as error:
        return str(error)
    return ""


def read(path: Path) -> Theme:
    """The pack in the file `path`. Raises PackError listing every fault by line."""
    pack, faults = read_with_faults(path)
    if pack is None or faults:
        raise PackError("\n".join(faults))
    return pack


def read_with_faults(path: Path, *, net: bool = True) -> tuple[Theme | None, list[str]]:
    """The pack in `path` as far as it can be read, and its faults by line.

    With `net` words of subjects that are kept out of children's stories are faults too.
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
    pack = _schema.theme(head, documents[1], faults)
    if net:
        from storybank.themes._kept_out import note_kept_out

        note_kept_out(documents, faults)
    return pack, faults.lines()


@cache
def _shipped(theme_id: str) -> Theme:
    """The pack of the folder; the net is not cast there, a test has done it."""
    if theme_id not in ids():
        own = f"{theme_id}.yaml"
        hint = f" For a pack of your own name its file: {own}." if Path(own).is_file() else ""
        raise RequestError(unknown_value("theme", theme_id, ids()) + hint)
    path = folder() / f"{theme_id}.yaml"
    pack = compiled(f"theme-{theme_id}", [path], lambda: _without_net(path))
    _read_from[pack] = path
    return pack


def _without_net(path: Path) -> Theme:
    pack, faults = read_with_faults(path, net=False)
    if pack is None or faults:
        raise PackError("\n".join(faults))
    return pack


def made_of(theme: Theme, what: str, make: Callable[[], T]) -> T:
    """What `make` gives of a pack; for one of the folder it is kept between runs under `what`."""
    path = _read_from.get(theme)
    return compiled(f"{what}-{path.stem}", [path], make) if path else make()


def _open(path: Path) -> Theme:
    if _is_shipped(path):
        return _shipped(path.stem)
    theme_id = checked_id(path, ids())
    if not path.is_file():
        raise RequestError(
            f'There is no theme pack "{path}". Check the name and the folder, or write a pack of '
            f"your own to begin with: storybank new-theme {theme_id}."
        )
    pack = read(path)
    _opened[theme_id] = (path.resolve(), pack)
    return pack


def _is_shipped(path: Path) -> bool:
    return path.stem in ids() and path.resolve() == (folder() / f"{path.stem}.yaml").resolve()


def _header(theme_id: str) -> Header:
    path = folder() / f"{theme_id}.yaml"
    faults = Faults(path.name)
    (node,) = catalog.read_documents(path, first_only=True)
    head = _schema.header(theme_id, node, faults)
    faults.stop()
    return head
