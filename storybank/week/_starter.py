"""A plan to begin with, with notes that say what each part is."""

from pathlib import Path

_FILE = Path(__file__).parent / "_starter.yaml"


def starter(file_name: str) -> str:
    """The text of a commented plan, to be saved under `file_name`."""
    return _FILE.read_text(encoding="utf-8").replace("FILE", file_name)
