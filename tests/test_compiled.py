"""What is kept between runs: the same value, made anew when anything it is made from changes."""

import os
import subprocess
import sys
from pathlib import Path
from types import MappingProxyType

import pytest

from storybank import themes
from storybank.compiled import cache_folder, compiled
from storybank.model.words import Noun, Range

SOURCE_TIME = 1_700_000_000


@pytest.fixture
def source(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A file that a value is made from, with an empty cache folder."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    monkeypatch.setattr(sys, "dont_write_bytecode", False)
    path = tmp_path / "source.yaml"
    path.write_text("one", encoding="utf-8")
    os.utime(path, (SOURCE_TIME, SOURCE_TIME))
    return path


def kept(tmp_path: Path) -> list[Path]:
    return sorted((tmp_path / "cache" / "storybank").glob("*"))


def test_a_value_is_made_once_and_read_afterwards(source: Path, tmp_path: Path) -> None:
    made = []

    def make() -> dict[str, object]:
        made.append(1)
        return {"nouns": (Noun("an apple", "apples"),), "map": MappingProxyType({"a": (1, 2)})}

    first = compiled("value", [source], make)
    second = compiled("value", [source], make)
    assert first == second
    assert first is not second
    assert len(made) == 1
    assert len(kept(tmp_path)) == 1


@pytest.mark.parametrize("change", ["text", "time", "another file"])
def test_a_change_of_a_source_makes_it_anew(source: Path, change: str) -> None:
    assert compiled("value", [source], lambda: "before") == "before"
    sources = [source]
    if change == "text":
        source.write_text("two more", encoding="utf-8")
        os.utime(source, (SOURCE_TIME, SOURCE_TIME))
    elif change == "time":
        os.utime(source, (SOURCE_TIME, SOURCE_TIME + 1))
    else:
        sources.append(source.with_name("added.yaml"))
        sources[1].write_text("one", encoding="utf-8")
    assert compiled("value", sources, lambda: "after") == "after"


@pytest.mark.parametrize("spoiled", [b"", b"nonsense", "cut", "ends"])
def test_a_spoiled_file_is_made_anew(source: Path, tmp_path: Path, spoiled: bytes | str) -> None:
    compiled("value", [source], lambda: ["before"])
    (file,) = kept(tmp_path)
    content = file.read_bytes()
    if isinstance(spoiled, str):
        spoiled = content[:-3] if spoiled == "cut" else content[:-12] + b"\x00" * 12
    file.write_bytes(spoiled)
    assert compiled("value", [source], lambda: ["after"]) == ["after"]
    assert compiled("value", [source], lambda: ["never"]) == ["after"]


def test_nothing_is_kept_where_python_keeps_nothing(
    source: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "dont_write_bytecode", True)
    assert compiled("value", [source], lambda: 1) == 1
    assert kept(tmp_path) == []


def test_a_folder_that_cannot_be_made_hinders_nothing(source: Path, tmp_path: Path) -> None:
    (tmp_path / "cache").write_text("in the way", encoding="utf-8")
    assert compiled("value", [source], lambda: 1) == 1
    assert compiled("value", [source], lambda: 2) == 2


def test_the_folder_is_that_of_the_base_directory_specification(tmp_path: Path) -> None:
    """Source: XDG Base Directory Specification 0.8: relative paths are to be ignored."""
    there = cache_folder({"XDG_CACHE_HOME": str(tmp_path)})
    assert there == tmp_path / "storybank"
    assert cache_folder({"XDG_CACHE_HOME": "cache"}) is None


def test_every_pack_read_from_what_was_kept_tells_the_same(tmp_path: Path) -> None:
    """The same set in three processes: nothing kept, keeping, and reading what was kept."""
    sets = []
    for writes in ("1", "", ""):
        environment = {
            **os.environ,
            "XDG_CACHE_HOME": str(tmp_path),
            "PYTHONDONTWRITEBYTECODE": writes,
        }
        command = ["make", "--seed", "3", "--count", "60", "--strategy", "any", "--out", "-"]
        done = subprocess.run(
            [sys.executable, "-m", "storybank", *command],
            env=environment,
            capture_output=True,
            check=True,
        )
        sets.append(done.stdout)
        names = {path.name.partition(".")[0] for path in tmp_path.glob("storybank/*")}
        assert names == set() if writes else {"tellings", "headers"} <= names
    assert sets[0] == sets[1] == sets[2]
    assert b'"problems"' in sets[0]


def test_a_pack_by_path_is_never_kept(source: Path, tmp_path: Path) -> None:
    pack = tmp_path / "my-walk.yaml"
    shipped = themes.folder() / "forest-walk.yaml"
    pack.write_bytes(shipped.read_bytes())
    theme = themes.get(str(pack))
    limits: Range = (1, 2)
    assert themes.made_of(theme, "test", lambda: limits) == limits
    assert [path for path in kept(tmp_path) if "my-walk" in path.name] == []
