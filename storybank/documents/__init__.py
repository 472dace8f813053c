"""Finished sets as files: output formats, one file each, found by their file names."""

from collections.abc import Mapping, Sequence
from functools import cache
from pathlib import Path
from types import ModuleType

from storybank import catalog
from storybank.documents._files import check_targets, write_files
from storybank.documents._format import Format
from storybank.errors import OutputError, RequestError, unknown_value
from storybank.model import ProblemSet

__all__ = [
    "Format",
    "check",
    "formats",
    "render",
    "write",
    "write_document",
    "write_files",
]


def formats() -> dict[str, Format]:
    """All output formats by id, with title and files."""
    return {name: module.FORMAT for name, module in _modules().items()}


def render(problem_set: ProblemSet, format_id: str) -> dict[str, bytes]:
    """The files of a format by name, as bytes; nothing is written.

    Raises RequestError for an unknown format.
    """
    module = _module(format_id)
    files = {name: module.render(problem_set, name) for name in module.FORMAT.files}
    sheet = module.FORMAT.sheet
    if sheet is not None:
        for level in problem_set.levels:
            files[_at_level(sheet, level)] = module.render(problem_set.at_level(level), sheet)
    return files


def check(
    folder: Path,
    format_ids: Sequence[str],
    *,
    levels: Sequence[str] = (),
    overwrite: bool = False,
) -> None:
    """Nothing, if the formats can be written into `folder`: to be asked before the work.

    `levels` are those of a set whose stories stand side by side. Raises RequestError for an
    unknown format and OutputError as `write` does.
    """
    asked = [_module(one).FORMAT for one in dict.fromkeys(format_ids)]
    names = [name for one in asked for name in one.files]
    names += [_at_level(one.sheet, level) for one in asked if one.sheet for level in levels]
    check_targets(folder, names, overwrite=overwrite)


def write(
    problem_set: ProblemSet, folder: Path, format_ids: Sequence[str], overwrite: bool = False
) -> list[Path]:
    """The paths of the files written into `folder`, all of them or none.

    Raises RequestError for an unknown format, and OutputError when the folder cannot be
    written or, without `overwrite`, when one of the files exists.
    """
    check(folder, format_ids, levels=problem_set.levels, overwrite=overwrite)
    contents: dict[str, bytes] = {}
    for format_id in dict.fromkeys(format_ids):
        contents.update(render(problem_set, format_id))
    return write_files(folder, contents, overwrite=overwrite)


def write_document(problem_set: ProblemSet, path: Path | str, overwrite: bool = False) -> Path:
    """The path of the one file written: its suffix chooses the format.

    Of the two Word files the key is written when the name without its suffix is `key` or ends
    in `key`, else the student pages. Raises OutputError as `write` does, or for a suffix that
    no format has.
    """
    path = Path(path)
    by_suffix = {
        Path(one.files[0]).suffix: module
        for module in _modules().values()
        for one in (module.FORMAT,)
    }
    module = by_suffix.get(path.suffix.lower())
    if module is None:
        raise OutputError(
            f'No format ends in "{path.suffix}" (asked for: "{path.name}"), so nothing was '
            f"written. Choose a name that ends in one of: {', '.join(sorted(by_suffix))}."
        )
    names = module.FORMAT.files
    stem = path.stem.lower()
    name = next((one for one in names if stem.endswith(Path(one).stem)), names[0])
    check_targets(path.parent, [path.name], overwrite=overwrite)
    contents = {path.name: module.render(problem_set, name)}
    (written,) = write_files(path.parent, contents, overwrite=overwrite)
    return written


def _at_level(sheet: str, level: str) -> str:
    path = Path(sheet)
    return f"{path.stem}-{level}{path.suffix}"


@cache
def _modules() -> Mapping[str, ModuleType]:
    found = catalog.module_entries("storybank.documents", Path(__file__).parent)
    by_id = {module.FORMAT.id: module for module in found.values()}
    return {name: by_id[name] for name in sorted(by_id)}


def _module(format_id: str) -> ModuleType:
    modules = _modules()
    if format_id not in modules:
        raise RequestError(unknown_value("format", format_id, modules))
    return modules[format_id]
