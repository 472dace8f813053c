"""Where a teacher's page keeps things, and how it is ended."""

import sys
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from storybank.settings import Settings

BANK = "our.bank"
THEMES = "themes"
_FOLDER = "storybank"


@dataclass(frozen=True, slots=True)
class Home:
    """What the pages work with; nothing of it is created before something is kept.

    `folder` holds what the teacher keeps: the bank, unless another file was named, and her own
    themes. `stop` ends the server, or is None where it is not the page's to end.
    """

    folder: Path
    bank: Path
    settings: "Settings | None" = None
    stop: Callable[[], None] | None = None

    @property
    def themes(self) -> Path:
        """The folder of the teacher's own themes."""
        return self.folder / THEMES


def folder_of_account(
    environment: Mapping[str, str], home: Path, platform: str = sys.platform
) -> Path:
    """The folder in which this account's programs keep data, with our own folder in it.

    XDG_DATA_HOME where it is an absolute path (XDG Base Directory Specification: others are
    passed over), on Windows APPDATA or LOCALAPPDATA, on macOS `Library/Application Support`, else
    `.local/share` in the home folder.
    """
    named = [environment.get("XDG_DATA_HOME")]
    if platform == "win32":
        named += [environment.get("APPDATA"), environment.get("LOCALAPPDATA")]
    for base in named:
        if base and Path(base).is_absolute():
            return Path(base) / _FOLDER
    if platform == "darwin":
        return home / "Library" / "Application Support" / _FOLDER
    return home / ".local" / "share" / _FOLDER
