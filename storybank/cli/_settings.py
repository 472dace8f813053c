"""The settings file of a teacher, as options of every command that makes stories."""

import argparse
import sys
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from storybank.errors import RequestError


def add_to(command: Any) -> None:
    """Adds the options that name a settings file, or read none."""
    command.add_argument(
        "--settings", metavar="FILE", help="your settings (storybank.yaml here, or of your account)"
    )
    command.add_argument("--no-settings", action="store_true", help="read no settings file")


def merged(options: argparse.Namespace, wishes: Mapping[str, Any]) -> dict[str, Any]:
    """The wishes, with the settings file where they say nothing; says which file that is."""
    import os

    from storybank import settings

    if options.no_settings and options.settings is not None:
        raise RequestError(
            f"--settings {options.settings} and --no-settings were both given. Leave one out."
        )
    found = None if options.no_settings else settings.find(options.settings, Path(), os.environ)
    if found is not None:
        said = ", ".join(found.said) or "nothing"
        print(f"note: settings from {found.path}: {said}", file=sys.stderr)
    return settings.merged(found, wishes)
