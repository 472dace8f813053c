"""A teacher's own themes: checked in a process of its own, kept in her folder, taken away again."""

import json
import subprocess
import sys
import tempfile
from pathlib import Path

from storybank import catalog, themes
from storybank.documents import write_files
from storybank.errors import RequestError
from storybank.theme_check import ThemeReport
from storybank.web._house import House

SECONDS = 60.0
"""How long a theme may take to be checked; the largest that comes with Storybank takes four."""


def checked_name(name: str) -> str:
    """The name, if a theme of one's own may have it. Raises RequestError."""
    return themes.checked_name(name.strip(), themes.ids())


def checked(name: str, data: bytes, seconds: float = SECONDS) -> ThemeReport:
    """What is found in a theme of a name that was checked; nothing is kept of it.

    Raises RequestError where it is larger than a pack may be, or takes longer to check than it may.
    """
    if len(data) > catalog.MAX_BYTES:
        raise RequestError(
            f"The theme has {len(data):,} bytes, and at most {catalog.MAX_BYTES:,} are read. "
            "Split it into several themes."
        )
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / f"{name}.yaml"
        path.write_bytes(data)
        try:
            done = subprocess.run(
                [sys.executable, "-m", "storybank.theme_check", str(path)],
                stdin=subprocess.DEVNULL,
                capture_output=True,
                timeout=seconds,
                check=True,
            )
        except subprocess.TimeoutExpired as error:
            raise RequestError(
                f"The theme could not be checked within {seconds:g} seconds: it has too many "
                "things, holders and acts that go together. Make several smaller themes of it."
            ) from error
        except subprocess.CalledProcessError as error:
            raise RequestError(
                "The theme could not be checked: its text is not one that the checker can work "
                "through. Begin again with the text to begin with, and change it part by part."
            ) from error
    found = json.loads(done.stdout)
    return ThemeReport(tuple(found["faults"]), tuple(found["warnings"]), tuple(found["samples"]))


def text_of(house: House, name: str) -> str:
    """The text of a theme that is kept. Raises RequestError where there is none of that name."""
    path = _kept(house, name)
    return path.read_text(encoding="utf-8-sig", errors="replace")


def keep(house: House, name: str, data: bytes, *, overwrite: bool) -> None:
    """Nothing; the theme lies in the teacher's folder afterwards, all of it or nothing.

    Raises RequestError where one of that name is kept already and is not to be replaced, and
    OutputError where the folder cannot be written.
    """
    if name in house.own_themes() and not overwrite:
        raise RequestError(
            f'You keep a theme called "{name}" already, and it was not changed. Check "replace the '
            'one of this name", or give this one another name.'
        )
    write_files(house.home.themes, {f"{name}.yaml": data}, overwrite=True)
    themes.forget(name)


def take_away(house: House, name: str) -> None:
    """Nothing; the theme of that name is kept no more. Raises RequestError where there is none."""
    path = _kept(house, name)
    try:
        path.unlink()
    except OSError as error:
        raise RequestError(
            f'The theme "{name}" could not be deleted ({error.strerror}). Check the permissions '
            "of your folder of themes."
        ) from error
    themes.forget(name)


def _kept(house: House, name: str) -> Path:
    kept = house.own_themes()
    if name not in kept:
        listed = f" You keep: {', '.join(kept)}." if kept else ""
        raise RequestError(f"You keep no theme of this name.{listed}")
    return Path(kept[name])
