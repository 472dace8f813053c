"""The ids of packs: what the name of a pack's file may be."""

import re
from collections.abc import Collection
from pathlib import Path

from storybank import catalog
from storybank.errors import RequestError

LONGEST = 40
_ID = re.compile(r"[a-z][a-z0-9]*(?:-[a-z0-9]+)*")
_RESERVED = re.compile(r"con|prn|aux|nul|com\d|lpt\d")
"""Names that Windows keeps for devices."""


def suggested(name: str) -> str:
    """A valid id near to `name`: lower case, with hyphens for all that is no letter or digit."""
    plain = re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-0123456789")[:LONGEST].strip("-")
    return plain if _ID.fullmatch(plain) and not _RESERVED.fullmatch(plain) else "my-theme"


def checked_name(name: str, taken: Collection[str]) -> str:
    """`name`, if it can be the id of a new pack. Raises RequestError for any other.

    `taken` are the ids of the packs that come with Storybank.
    """
    wrong = _wrong(name)
    if wrong:
        raise RequestError(
            f'A theme cannot be called "{_shown(name)}": {wrong}. Choose a name of lower-case '
            f"letters, digits and hyphens, at most {LONGEST} long, such as {suggested(name)}."
        )
    if name in taken:
        raise RequestError(
            f'A theme cannot be called "{name}": a pack that comes with Storybank has this name. '
            f"Choose another, such as my-{name}."
        )
    return name


def checked_id(path: Path, taken: Collection[str]) -> str:
    """The id of the pack in the file `path`: its name without `.yaml`.

    Raises RequestError for a name that is none, or that a pack among `taken` has.
    """
    meant = Path(f"{path}.yaml")
    if path.suffix not in catalog.SUFFIXES and meant.is_file() and not path.is_file():
        raise RequestError(
            f'There is no file "{_shown(str(path))}", but there is "{_shown(str(meant))}". Name '
            "the file with its .yaml."
        )
    if path.suffix not in catalog.SUFFIXES:
        raise RequestError(
            f'The file "{_shown(str(path))}" cannot be a theme pack: its name does not end in '
            f".yaml. Name the file of your pack, such as {suggested(path.stem)}.yaml."
        )
    wrong = _wrong(path.stem)
    if wrong:
        raise RequestError(
            f'The file "{_shown(path.name)}" cannot be a theme pack: its name is the theme\'s id, '
            f"and {wrong}. Rename it to lower-case letters, digits and hyphens, such as "
            f"{suggested(path.stem)}.yaml."
        )
    if path.stem in taken:
        raise RequestError(
            f'The file "{path.name}" has the name of a pack that comes with Storybank, so nobody '
            f"could tell them apart. Rename it, such as my-{path.name}."
        )
    return path.stem


def _wrong(name: str) -> str:
    if not name:
        return "the name is empty"
    if len(name) > LONGEST:
        return f"the name has {len(name)} characters"
    if "/" in name or "\\" in name:
        return "a name holds no folder (for the folder use --out)"
    if _RESERVED.fullmatch(name.lower()):
        return "Windows keeps this name for itself"
    if _ID.fullmatch(name):
        return ""
    odd = sorted({char for char in name if not re.fullmatch(r"[a-z0-9-]", char)})
    if not odd:
        return "a name begins with a letter and has single hyphens between its words"
    named = [
        "a space" if char == " " else char
        for char in odd
        if char.isprintable() and not char.isupper()
    ]
    if any(char.isupper() for char in odd):
        named.append("capital letters")
    return f"a name does not hold {', '.join(named) or 'invisible characters'}"


def _shown(name: str) -> str:
    plain = "".join(char if char.isprintable() else "?" for char in name)
    return plain if len(plain) <= 2 * LONGEST else plain[: 2 * LONGEST] + "..."
