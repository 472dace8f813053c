"""The same request gives the same bytes under any hash seed and time zone; an added thing moves
only the problems that it may."""

import hashlib
import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from storybank import Request, make_set, themes

SETTINGS = [("0", "UTC"), ("4711", "Pacific/Apia")]


def digests(folder: Path, hash_seed: str, zone: str) -> dict[str, str]:
    environment = {**os.environ, "PYTHONHASHSEED": hash_seed, "TZ": zone}
    subprocess.run(
        [sys.executable, "-m", "storybank", "make", "--seed", "12", "--count", "6",
         "--vocabulary", "level-1", "--strategy", "any", "--format", "docx,json,csv,html",
         "--out", str(folder)],
        check=True, env=environment, capture_output=True,
    )  # fmt: skip
    return {path.name: hashlib.sha256(path.read_bytes()).hexdigest() for path in folder.iterdir()}


def test_every_file_is_the_same_under_other_hash_seeds_and_time_zones(tmp_path: Path) -> None:
    first, second = (digests(tmp_path / str(at), *setting) for at, setting in enumerate(SETTINGS))
    assert len(first) == 5
    assert first == second


def test_a_set_made_again_from_its_stored_request_is_the_same() -> None:
    made = make_set(Request(count=9, strategy=["any"], crossing="50"))
    stored = json.loads(made.to_text())["request"]
    names = stored.pop("names")
    assert names is None
    again = make_set(Request(**stored))
    assert again.to_text() == made.to_text()


THEME = "autumn-harvest"


@pytest.fixture
def added(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> str:
    """The pack with a thing added in the middle of its list and of every holder of one scene."""
    text = (themes.folder() / f"{THEME}.yaml").read_text(encoding="utf-8")
    thing = (
        '  plum: {one: a plum, many: plums, picture: "🍑", meaning: a small fruit, es: ciruela}\n'
    )
    text = text.replace("  leaf: {one:", f"{thing}  leaf: {{one:", 1)
    text, changed = re.subn(
        r"things: \[apple, pear\]", "things: [apple, plum, pear]", text, count=1
    )
    assert changed == 1
    start = text.index("things: [apple, plum, pear]")
    end = text.index("acts:", start)
    holders = re.sub(r"apple: ([\d-]+)", r"apple: \1, plum: \1", text[start:end])
    text = text[:start] + holders + text[end:]
    path = tmp_path / f"{THEME}.yaml"
    path.write_text(text, encoding="utf-8")
    return str(path)


def test_an_added_thing_moves_only_the_problems_that_take_it_or_lost_their_numbers(
    added: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    request = Request(theme=[THEME], strategy=["any"], count=40, seed=2)
    before = make_set(request).problems
    pack = themes.read(Path(added))
    monkeypatch.setattr(themes, "get", lambda name: pack)
    after = make_set(request).problems
    taken = {index for index, problem in enumerate(after) if "plum" in problem.text}
    assert taken, "the new thing should be told at least once in forty problems"
    moved = {
        index for index, (old, new) in enumerate(zip(before, after, strict=True))
        if old.text != new.text
    }  # fmt: skip
    new_triples = {tuple(sorted(after[index].numbers.values())): index for index in sorted(moved)}
    for index in moved - taken:
        lost = tuple(sorted(before[index].numbers.values()))
        assert lost in new_triples and new_triples[lost] < index, before[index].text
