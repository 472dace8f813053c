"""Finished sets as files: output formats, one file each, found by their file names."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from functools import cache
from pathlib import Path
from types import ModuleType

from storybank import catalog
from storybank.documents import kinds
from storybank.documents._files import check_targets, write_files
from storybank.documents._format import Format
from storybank.documents._layout import Layout
from storybank.documents._on_screen import Behind, BoardStep, at_the_board, behind
from storybank.documents._page import Block, Page
from storybank.errors import OutputError, RequestError, unknown_value
from storybank.model import ProblemSet

__all__ = [
    "Behind",
    "BoardStep",
    "Format",
    "Layout",
    "Page",
    "at_the_board",
    "behind",
    "check",
    "check_targets",
    "check_template",
    "formats",
    "fragments",
    "kinds",
    "render",
    "render_pages",
    "write",
    "write_document",
    "write_files",
]

USUAL = Layout()
"""Student pages and key on letter paper."""


def formats() -> dict[str, Format]:
    """All output formats by id, with title and files."""
    return {name: module.FORMAT for name, module in _modules().items()}


def render(problem_set: ProblemSet, format_id: str, layout: Layout = USUAL) -> dict[str, bytes]:
    """The files of a format by name, as bytes, in the order of the layout's pages.

    Nothing is written. Raises RequestError for an unknown format or kind of page.
    """
    files: dict[str, bytes] = _module(format_id).render(problem_set, layout)
    return files


def check(
    folder: Path,
    format_ids: Sequence[str],
    *,
    levels: Sequence[str] = (),
    layout: Layout = USUAL,
    overwrite: bool = False,
) -> None:
    """Nothing, if the formats can be written into `folder`: to be asked before the work.

    `levels` are those of a set whose stories stand side by side. Raises RequestError for an
    unknown format or kind of page and OutputError as `write` does.
    """
    asked = [_module(one) for one in dict.fromkeys(format_ids)]
    names = [name for one in asked for name in one.FORMAT.files(layout.pages, levels)]
    check_template(format_ids, layout)
    check_targets(folder, names, overwrite=overwrite)


def check_template(format_ids: Sequence[str], layout: Layout) -> None:
    """Nothing, if the layout's template can be used in the formats: to be asked before the work.

    Raises RequestError, saying what the file is, where Word files are asked for and it is none.
    """
    if layout.template is not None and "docx" in format_ids:
        _module("docx").check_template(layout.template)


def write(
    problem_set: ProblemSet,
    folder: Path,
    format_ids: Sequence[str],
    overwrite: bool = False,
    layout: Layout = USUAL,
) -> list[Path]:
    """The paths of the files written into `folder`, all of them or none.

    `layout` says which pages and how they look. Raises RequestError for an unknown format or
    kind of page, and OutputError when the folder cannot be written or, without `overwrite`,
    when one of the files exists.
    """
    check(folder, format_ids, levels=problem_set.levels, layout=layout, overwrite=overwrite)
    contents: dict[str, bytes] = {}
    for format_id in dict.fromkeys(format_ids):
        contents.update(render(problem_set, format_id, layout))
    return write_files(folder, contents, overwrite=overwrite)


def render_pages(
    pages: Mapping[str, Page], format_ids: Sequence[str], layout: Layout = USUAL
) -> dict[str, bytes]:
    """The files of pages that are made of something else than a set, by name, as bytes.

    `pages` are by the names of their files, without suffix. Raises RequestError for an unknown
    format, and for one that holds no pages.
    """
    for_pages = [name for name, one in _modules().items() if hasattr(one, "render_pages")]
    contents: dict[str, bytes] = {}
    for format_id in dict.fromkeys(format_ids):
        if format_id not in for_pages:
            raise RequestError(unknown_value("format of pages", format_id, for_pages))
        contents.update(_module(format_id).render_pages(pages, layout))
    return contents


def fragments(blocks: Iterable[Block]) -> str:
    """The blocks as HTML to stand in a page of its own, without scripts and styles."""
    found: str = _module("html").fragments(blocks)
    return found


def write_document(
    problem_set: ProblemSet, path: Path | str, overwrite: bool = False, layout: Layout = USUAL
) -> Path:
    """The path of the one file written: its suffix chooses the format.

    A Word file holds the kind of page that its name without suffix is or ends in (`key`,
    `monday-cards`), else the student pages. Raises OutputError as `write` does, or for a suffix
    that no format has.
    """
    path = Path(path)
    by_suffix = {module.FORMAT.suffix: module for module in _modules().values()}
    module = by_suffix.get(path.suffix.lower())
    if module is None:
        raise OutputError(
            f'No format ends in "{path.suffix}" (asked for: "{path.name}"), so nothing was '
            f"written. Choose a name that ends in one of: {', '.join(sorted(by_suffix))}."
        )
    stem = path.stem.lower()
    if module.FORMAT.by_page:
        named = [one for one in kinds.ids() if stem.endswith(one)]
        kind = max(named, key=len, default=layout.pages[0])
        layout = replace(layout, pages=(kind,))
    check_targets(path.parent, [path.name], overwrite=overwrite)
    data = next(iter(module.render(problem_set, layout).values()))
    (written,) = write_files(path.parent, {path.name: data}, overwrite=overwrite)
    return written


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
