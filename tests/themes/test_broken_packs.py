"""Broken packs: each fault is said with its line, its value and what to write instead."""

from pathlib import Path

import pytest
from themes.broken import BROKEN, GOOD

from storybank import themes
from storybank.errors import PackError
from storybank.theme_check import check_theme


def written(folder: Path, text: str) -> Path:
    path = folder / "my-walk.yaml"
    path.write_text(text, encoding="utf-8")
    return path


def test_the_good_pack_has_no_fault(tmp_path: Path) -> None:
    assert check_theme(written(tmp_path, GOOD)).faults == ()


@pytest.mark.parametrize("name", BROKEN)
def test_a_broken_pack(name: str, tmp_path: Path) -> None:
    broken = BROKEN[name]
    path = written(tmp_path, broken.text)
    expected = [f"my-walk.yaml, {fault}" for fault in broken.faults]
    assert list(check_theme(path).faults) == expected
    with pytest.raises(PackError) as raised:
        themes.get(str(path))
    assert str(raised.value) == "\n".join(expected)


def test_faults_stand_in_the_order_of_the_file(tmp_path: Path) -> None:
    first, second = BROKEN["season misspelt"], BROKEN["effect misspelt"]
    text = first.text.replace(second.old, second.new)
    faults = [*first.faults, *second.faults]
    assert list(check_theme(written(tmp_path, text)).faults) == [
        f"my-walk.yaml, {fault}" for fault in faults
    ]
