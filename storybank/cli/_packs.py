"""`storybank new-theme` and `check-theme`: theme packs of a teacher's own."""

import argparse
import sys
from pathlib import Path
from typing import Any

from storybank.errors import RequestError


def add_to(commands: Any) -> None:
    """Adds the commands to the parser."""
    new = commands.add_parser("new-theme", help="write a theme pack of your own to begin with")
    new.add_argument("name", metavar="NAME", help="lower-case words joined by hyphens: my-garden")
    new.add_argument("--out", metavar="FILE|FOLDER", help="(NAME.yaml in this folder)")
    new.add_argument("--overwrite", action="store_true", help="replace a file that is there")
    new.set_defaults(command=_new_theme)
    check = commands.add_parser("check-theme", help="what is wrong in a theme pack, by line")
    check.add_argument("file", metavar="FILE", type=Path)
    check.set_defaults(command=_check_theme)


def _new_theme(options: argparse.Namespace) -> int:
    from storybank import themes
    from storybank.documents import write_files
    from storybank.themes.starter import SCHEMA, schema, starter

    name = themes.checked_name(options.name, themes.ids())
    path = _target(name, options.out)
    contents = {path.name: starter(name).encode("utf-8")}
    beside = path.parent / SCHEMA
    if not beside.is_file() or beside.read_bytes() != schema():
        contents[SCHEMA] = schema()
    write_files(path.parent, contents, overwrite=options.overwrite)
    print(f"{path}: change the words behind the colons; its notes say how.")
    print(f"  storybank check-theme {path}     says what is wrong, by line")
    print(f"  storybank make --theme {path}    makes a set with it")
    print(f"({beside} lets an editor complete and underline; you need not open it.)")
    return 0


def _target(name: str, out: str | None) -> Path:
    """The file to write: `out` itself where it ends in .yaml, else NAME.yaml in the folder."""
    if out is None:
        return Path(f"{name}.yaml")
    path = Path(out)
    if path.is_dir():
        return path / f"{name}.yaml"
    if path.suffix == ".yaml":
        if path.stem != name:
            raise RequestError(
                f'The file "{path.name}" would make a theme called "{path.stem}", but the name '
                f'asked for is "{name}": a theme is called as its file. Write --out '
                f"{path.parent / name}.yaml, or name a folder."
            )
        return path
    if path.suffix:
        raise RequestError(
            f'The file "{path.name}" does not end in .yaml, and no folder has this name. Write '
            f"--out {path.parent / name}.yaml, or name a folder."
        )
    return path / f"{name}.yaml"


def _check_theme(options: argparse.Namespace) -> int:
    from storybank.theme_check import check_theme

    _check_there(options.file)
    report = check_theme(options.file)
    for warning in report.warnings:
        print(f"warning: {warning}", file=sys.stderr)
    if report.faults:
        for fault in report.faults:
            print(fault, file=sys.stderr)
        return 2
    count = len(report.warnings)
    print(f"{options.file.name}: no faults, {count} warning{'' if count == 1 else 's'}")
    for story in report.samples:
        print(f"\n{story}")
    return 0


def _check_there(path: Path) -> None:
    """Nothing, if the file is there. Raises RequestError with the name that was likely meant."""
    if path.exists():
        return
    meant = Path(f"{path}.yaml")
    if meant.is_file():
        raise RequestError(
            f'There is no file "{path}", but there is "{meant}". Write: '
            f"storybank check-theme {meant}"
        )
    raise RequestError(
        f'There is no file "{path}". Check the name and the folder; a theme of your own is called '
        "as its file, such as my-garden.yaml."
    )
