"""The settings file of a teacher, as options of every command that makes stories."""

import argparse
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any

from storybank.errors import RequestError

if TYPE_CHECKING:
    from storybank.settings import Settings


def add_to(command: Any) -> None:
    """Adds the options that name a settings file, or read none."""
    command.add_argument(
        "--settings", metavar="FILE", help="your settings (storybank.yaml here, or of your account)"
    )
    command.add_argument("--no-settings", action="store_true", help="read no settings file")


def found(options: argparse.Namespace) -> "Settings | None":
    """The settings file that holds, or None; says which file that is."""
    import os

    from storybank import settings

    if options.no_settings and options.settings is not None:
        raise RequestError(
            f"--settings {options.settings} and --no-settings were both given. Leave one out."
        )
    file = None if options.no_settings else settings.find(options.settings, Path(), os.environ)
    if file is not None:
        said = ", ".join(file.said) or "nothing"
        print(f"note: settings from {file.path}: {said}", file=sys.stderr)
    return file


def merged(options: argparse.Namespace, wishes: Mapping[str, Any]) -> dict[str, Any]:
    """The wishes, with the settings file where they say nothing; says which file that is."""
    from storybank import settings

    return settings.merged(found(options), wishes)
