"""The starter: a small pack with notes, to be turned into a theme of one's own."""

from pathlib import Path

FOLDER = Path(__file__).parent
SCHEMA = "pack.schema.json"


def starter(name: str) -> str:
    """The text of a starter pack for the file `name`.yaml, with a title made of the name."""
    text = (FOLDER / "_starter.yaml").read_text(encoding="utf-8")
    title = name.replace("-", " ")
    return text.replace("NAME", name).replace("TITLE", title[0].upper() + title[1:])


def schema() -> bytes:
    """The JSON Schema of packs, which editors read; it is written beside a starter."""
    return (FOLDER / SCHEMA).read_bytes()
