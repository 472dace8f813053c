"""The finished sets in output_examples, made again by their own commands and compared."""

import io
import shlex
import struct
import zipfile
from pathlib import Path

import pytest

from storybank.cli import main

FOLDER = Path(__file__).parents[2] / "output_examples"
COMMANDS = {path.parent.name: path for path in sorted(FOLDER.glob("*/command.txt"))}


def parts(path: Path) -> dict[str, bytes]:
    """What is compared: the parts of a Word file, of pictures only their size in dots.

    Other versions of the picture and zip libraries may pack the same dots otherwise.
    """
    if path.suffix != ".docx":
        return {path.name: path.read_bytes()}
    with zipfile.ZipFile(io.BytesIO(path.read_bytes())) as package:
        found = {name: package.read(name) for name in package.namelist()}
    for name, data in found.items():
        if name.endswith(".png"):
            found[name] = repr(struct.unpack(">II", data[16:24])).encode()
    return found


def test_there_are_at_least_six_examples_and_each_tells_its_command() -> None:
    assert len(COMMANDS) >= 6
    assert {path.name for path in FOLDER.iterdir() if path.is_dir()} == set(COMMANDS)


@pytest.mark.parametrize("name", COMMANDS)
def test_the_command_makes_the_same_set(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    words = shlex.split(COMMANDS[name].read_text(encoding="utf-8"))
    assert words[0] == "storybank" and words[1] in ("make", "week")
    assert words[-2:] == ["--out", f"output_examples/{name}"]
    monkeypatch.chdir(FOLDER.parent)
    assert main([*words[1:-1], str(tmp_path)]) == 0
    kept = {path.name for path in COMMANDS[name].parent.iterdir()} - {"command.txt", "plan.yaml"}
    assert {path.name for path in tmp_path.iterdir()} == kept
    for file in kept:
        assert parts(tmp_path / file) == parts(FOLDER / name / file), file
