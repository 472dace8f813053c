"""Values made from Storybank's own files, kept between runs as Python keeps compiled modules.

Packs and tellings are YAML for people; reading them anew takes most of a short command's time.
"""

import io
import os
import pickle
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import suppress
from dataclasses import fields, is_dataclass
from functools import cache
from hashlib import blake2b
from pathlib import Path
from types import MappingProxyType
from typing import Any, TypeVar

from storybank.version import VERSION

T = TypeVar("T")
_END = b"\n\0"


def compiled(name: str, sources: Iterable[Path], make: Callable[[], T]) -> T:
    """What `make` gives, or what it gave in an earlier run where nothing has changed since.

    `name` tells the value among others, `sources` are the files it is made from. A change of one
    of them, of Storybank's code, its version or Python's makes it anew; so do a folder that
    cannot be written and a kept file that is spoiled. Nothing is kept where Python is told to
    write no compiled modules (PYTHONDONTWRITEBYTECODE) or the account has no home folder.
    """
    folder = cache_folder(os.environ)
    if folder is None:
        return make()
    state = _state(sources)
    kept = folder / f"{name}.{sys.implementation.cache_tag}.kept"
    with suppress(Exception):  # A spoiled file may raise nearly anything when unpickled.
        found = kept.read_bytes()
        if found.startswith(state + _END):
            value: T = pickle.loads(memoryview(found)[len(state) + len(_END) :])
            return value
    value = make()
    if not sys.dont_write_bytecode:
        with suppress(OSError):
            _keep(kept, state + _END + _pickled(value))
    return value


def cache_folder(environment: Mapping[str, str]) -> Path | None:
    """The account's folder for what can be made again, or None where there is none.

    XDG_CACHE_HOME (XDG Base Directory Specification), on Windows LOCALAPPDATA, else `.cache` in
    the home folder.
    """
    base = environment.get("XDG_CACHE_HOME")
    if not base and sys.platform == "win32":
        base = environment.get("LOCALAPPDATA")
    if not base:
        with suppress(RuntimeError):  # No home folder.
            base = str(Path.home() / ".cache")
    return Path(base) / "storybank" if base and Path(base).is_absolute() else None


def _state(sources: Iterable[Path]) -> bytes:
    """Everything a value depends on, as text: when each file was written last, and its size."""
    states = (f"{path} {_of(path.stat()) if path.exists() else 'gone'}" for path in sources)
    return "\n".join([VERSION, sys.version, _code(), *states]).encode()


@cache
def _code() -> str:
    """The state of every file of the package, as a digest: a value is used by many of them."""
    states = "\n".join(_in_folder(str(Path(__file__).parent)))
    return blake2b(states.encode()).hexdigest()


def _in_folder(folder: str) -> Iterator[str]:
    with os.scandir(folder) as found:
        for entry in sorted(found, key=lambda one: one.name):
            if entry.is_file():
                yield f"{entry.path} {_of(entry.stat())}"
            elif entry.name != "__pycache__":
                yield from _in_folder(entry.path)


def _of(state: os.stat_result) -> str:
    return f"{state.st_mtime_ns} {state.st_size}"


def _pickled(value: object) -> bytes:
    file = io.BytesIO()
    _Pickler(file, protocol=5).dump(value)
    return file.getvalue()


class _Pickler(pickle.Pickler):
    """Dataclasses are made again by their class: twice as fast as setting field by field."""

    def reducer_override(self, value: Any) -> Any:
        if isinstance(value, MappingProxyType):
            return _read_only, (dict(value),)
        if is_dataclass(value) and not isinstance(value, type):
            return type(value), tuple(getattr(value, one.name) for one in fields(value))
        return NotImplemented


def _read_only(values: dict[Any, Any]) -> MappingProxyType[Any, Any]:
    return MappingProxyType(values)


def _keep(path: Path, content: bytes) -> None:
    """Written beside and then renamed, so that another process never reads half a file."""
    path.parent.mkdir(parents=True, exist_ok=True)
    import tempfile

    handle, beside = tempfile.mkstemp(dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(content)
        Path(beside).replace(path)
    except BaseException:
        Path(beside).unlink(missing_ok=True)
        raise
