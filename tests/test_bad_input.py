"""Bad input: each wish that cannot be met gets its message, exit 2, and leaves no file."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

from storybank.cli import main
from storybank.errors import near

MAKE = ["make", "--seed", "1"]


def run(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> tuple[int, str, str]:
    try:
        code = main(arguments)
    except SystemExit as stopped:
        code = int(stopped.code or 0)
    said = capsys.readouterr()
    return code, said.out, said.err


def test_the_nearest_choice_is_found_whatever_the_capitals() -> None:
    for value in ("2.nbt.55", "2.NBT.55", "2.Nbt.55"):
        assert near(value, ["2.OA.1", "2.NBT.5"]) == ' Did you mean "2.NBT.5"?'
    assert near("COUNT-UPP", ["Make-a-Ten", "Count-Up"]) == ' Did you mean "Count-Up"?'
    assert near("day-1", ["MONDAY"]) == ""


@pytest.mark.parametrize(
    ("wish", "words"),
    [
        (["--theme", "autum-harvest"], ["autum-harvest", 'Did you mean "autumn-harvest"?']),
        (["--strategy", "Count-Upp"], ["Count-Upp", 'Did you mean "count-up"?']),
        (["--situation", "JOIN-start-unknown"], ['Did you mean "join-start-unknown"?']),
        (["--festivals", "LUNAR new yaer"], ['Did you mean "Lunar New Year"?']),
        (["--strategy", "count-upp"], ["count-upp", 'Did you mean "count-up"?']),
        (["--situation", "join-result"], ["join-result", "join-result-unknown"]),
        (["--vocabulary", "level-5"], ["level-5", 'Did you mean "level-']),
        (["--vocabulary", "nowhere.yaml"], ["nowhere.yaml", "not there"]),
        (["--allow", "pasta"], ["pasta", 'Did you mean "past"?', "long-sentences"]),
        (["--forbid", "names"], ["names", "long-names"]),
        (["--allow", "past", "--forbid", "past"], ["past", "both allowed and forbidden"]),
        (["--allow", "past", "--levels-side-by-side"], ["level-1", "--levels-side-by-side"]),
        (["--without", "pet"], ["pet", 'Did you mean "pets"?', "birthdays"]),
        (["--festivals", "nothing such"], ["nothing such"]),
        (["--settings", "nowhere.yaml"], ["nowhere.yaml", "--settings"]),
        (["--format", "docs"], ["docs", "docx"]),
        (["--names-from", "owm"], ["owm", "own"]),
        (["--count", "0"], ["--count is 0", "1 to 2000"]),
        (["--count", "-3"], ["-3", "1 to 2000"]),
        (["--count", "100000"], ["100000", "1 to 2000"]),
        (["--within", "4"], ["--within is 4", "5 to 1000"]),
        (["--within", "1001"], ["1001", "5 to 1000"]),
        (["--crossing", "often"], ["often", "always"]),
        (["--crossing", "101"], ["101", "percentage"]),
        (["--crossing", "9" * 5000], ["999", "percentage"]),
        (["--strategy", "any", "count-up"], ["any", "count-up"]),
        (["--strategy", "make-a-ten", "--within", "10"], ["make-a-ten", "10", "--within"]),
        (["--strategy", "friendly-then-compensate", "--within", "20"], ["20"]),
        (
            ["--strategy", "near-doubles", "--situation", "separate-result-unknown"],
            ["near-doubles", "separate-result-unknown"],
        ),
        (["--strategy", "doubles", "--within", "5"], ["12", "largest count possible is 2"]),
        (["--pair", "46 + 138"], ["46 + 138", "184"]),
        (["--pair", "0 + 8"], ["0 + 8"]),
        (["--pair", "47 - 82"], ["47 - 82"]),
        (["--pair", "a lot"], ["a lot", "46 + 38"]),
        (
            ["--pair", "46 + 38", "--situation", "separate-result-unknown"],
            ["46 + 38", "separate-result-unknown"],
        ),
        (
            ["--strategy", "count-up", "--situation", "both-parts-unknown"],
            ["both-parts-unknown", "any"],
        ),
        (["--seed", "-1"], ["--seed is -1"]),
        (["--names", "class.txt", "--names-from", "own"], ["--names-from"]),
    ],
)
def test_a_wish_that_cannot_be_met(
    wish: list[str], words: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = tmp_path / "set"
    code, out, err = run([*MAKE, *wish, "--out", str(folder)], capsys)
    assert code == 2
    assert out == ""
    assert "Traceback" not in err
    for word in words:
        assert word in err
    assert not folder.exists()


def test_compensating_a_sought_difference_is_refused_for_diagnosis(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = tmp_path / "set"
    wish = ["--strategy", "count-on", "--diagnose", "--out", str(folder)]
    code, _, err = run([*MAKE, *wish], capsys)
    assert code == 2
    assert "count-on" in err
    assert not folder.exists()


def test_an_existing_file_is_kept_without_overwrite(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "set.json").write_text("mine", encoding="utf-8")
    wish = [*MAKE, "--count", "2", "--format", "json", "--out", str(tmp_path)]
    code, _, err = run(wish, capsys)
    assert code == 2
    assert "add --overwrite to replace" in err
    assert (tmp_path / "set.json").read_text(encoding="utf-8") == "mine"
    code, _, _ = run([*wish, "--overwrite"], capsys)
    assert code == 0
    assert len(json.loads((tmp_path / "set.json").read_text(encoding="utf-8"))["problems"]) == 2


def test_a_file_where_the_folder_should_be(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "set").write_text("mine", encoding="utf-8")
    code, _, err = run([*MAKE, "--out", str(tmp_path / "set")], capsys)
    assert code == 2
    assert "not a folder" in err


@pytest.mark.skipif(os.geteuid() == 0, reason="root may write anywhere; see the next test")
def test_a_folder_without_permission(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    tmp_path.chmod(0o500)
    code, _, err = run([*MAKE, "--out", str(tmp_path / "set")], capsys)
    assert code == 2
    assert "may not write" in err


def test_a_folder_that_the_system_refuses(capsys: pytest.CaptureFixture[str]) -> None:
    """/proc refuses new folders even to root."""
    code, _, err = run([*MAKE, "--count", "1", "--out", "/proc/storybank"], capsys)
    assert code == 2
    assert "/proc" in err
    assert "Traceback" not in err


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"\x89PNG\r\n\x1a\n\x00\x00", ["not a text"]),
        (b"\n\n  \n", ["no"]),
        (b"12\n3.\n", ["no"]),
    ],
)
def test_a_class_list_without_a_usable_name(
    content: bytes, words: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "class.txt"
    path.write_bytes(content)
    folder = tmp_path / "set"
    code, _, err = run([*MAKE, "--names", str(path), "--out", str(folder)], capsys)
    assert code == 2
    assert "class.txt" in err
    assert str(tmp_path) not in err
    for word in words:
        assert word in err
    assert not folder.exists()


HOSTILE = {
    "a 40-letter name": "Maximilianalexanderbartholomewchristophe",
    "two words": "Mary Ann",
    "hyphen and accent": "Zoé-Lou",
    "right to left": "\u05e0\u05d5\u05e2\u05d4",
    "control character": "Ki\u0007ra",
    "Hangul": "\uc11c\uc5f0",
}


@pytest.mark.parametrize("encoding", ["utf-8", "utf-16"])
def test_any_class_list_is_taken_and_each_child_comes_before_one_comes_twice(
    encoding: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "class.txt"
    path.write_bytes("\n".join(HOSTILE.values()).encode(encoding))
    code, _out, err = run(
        [*MAKE, "--situation", "compare-difference-unknown-more", "--count", "9",
         "--names", str(path), "--format", "docx,json,csv,html", "--out", str(tmp_path / "set")],
        capsys,
    )  # fmt: skip
    assert code == 0, err
    assert "control" in err
    made = json.loads((tmp_path / "set" / "set.json").read_text(encoding="utf-8"))
    assert made["request"]["names"] == "class.txt"
    dealt = [name for problem in made["problems"] for name in problem["people"]]
    expected = {name.replace("\u0007", "") for name in HOSTILE.values()}
    assert set(dealt) == expected
    for start in range(0, len(dealt) - len(expected) + 1, len(expected)):
        assert set(dealt[start : start + len(expected)]) == expected


def test_with_a_class_list_every_story_names_a_child(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "class.txt"
    path.write_text("\n".join(f"Kid{letter}" for letter in "ABCDEFGHIJ"), encoding="utf-8")
    wish = ["--strategy", "any", "--count", "20", "--names", str(path), "--format", "json"]
    code, out, err = run([*MAKE, *wish, "--out", "-"], capsys)
    assert code == 0, err
    dealt = [problem["people"] for problem in json.loads(out)["problems"]]
    assert all(dealt)
    assert len({name for people in dealt for name in people}) == 10


def test_a_class_list_from_a_spreadsheet_on_windows(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "class.csv"
    path.write_bytes("Name\r\nJosé\r\nZoë\r\n".encode("cp1252"))
    code, out, err = run(
        [*MAKE, "--count", "4", "--names", str(path), "--format", "json", "--out", "-"], capsys
    )
    assert code == 0, err
    people = {name for problem in json.loads(out)["problems"] for name in problem["people"]}
    assert people <= {"José", "Zoë"}
    assert people


GOOD_HEADER = (
    "title: T\nseason: any\nmonths: [1]\nclimate: any\nobservance: none\nsources: own\n"
    "read_by: nobody\n---\n"
)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        (GOOD_HEADER + "things:\n\tapple: {}\n", ["line 10", "tab"]),
        (GOOD_HEADER + "things: {}\nthings: {}\nscenes: {}\n", ["line 10", "twice"]),
        (GOOD_HEADER + "things: {}\nscenes: {}\ncolours: {}\n", ["line 11", "colours"]),
        (
            GOOD_HEADER + "things:\n  apple: {one: an apple, meaning: a fruit}\nscenes: {}\n",
            ["line 10", "many"],
        ),
        (GOOD_HEADER + "things: &all {}\nscenes: *all\n", ["line 9", "anchors"]),
        (GOOD_HEADER + "things: !!python/name:os.system {}\nscenes: {}\n", ["line 9", "tag"]),
        (GOOD_HEADER + "things: " + "[" * 100_000, ["line 9", "nesting"]),
        ("title: T\n", ["---"]),
        ("a: [\n", ["not valid YAML"]),
    ],
)
def test_a_faulty_theme_pack(
    text: str, words: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "pack.yaml"
    path.write_text(text, encoding="utf-8")
    code, _, err = run(["check-theme", str(path)], capsys)
    assert code == 2
    assert "pack.yaml" in err
    assert "Traceback" not in err
    for word in words:
        assert word in err


@pytest.mark.parametrize(
    ("content", "word"), [(b"x" * 10_000_000, "10,000,000"), (b"\xff\xfe\x00", "UTF-8")]
)
def test_a_theme_pack_that_is_too_large_or_no_text(
    content: bytes, word: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "pack.yaml"
    path.write_bytes(content)
    code, _, err = run(["check-theme", str(path)], capsys)
    assert code == 2
    assert word in err


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("my garden", ["my garden", "a space", "such as my-garden"]),
        ("My-Garden", ["My-Garden", "capital letters", "such as my-garden"]),
        ("../garden", ["../garden", "no folder", "--out", "such as garden"]),
        ("a\\b", ["no folder", "such as a-b"]),
        ("garden.yaml", ["garden.yaml", "does not hold .", "such as garden-yaml"]),
        ("-garden", ["begins with a letter", "such as garden"]),
        ("", ["the name is empty", "such as my-theme"]),
        ("g" * 41, ["41 characters", "at most 40"]),
        ("jardín", ["í", "such as jard-n"]),
        ("nul", ["Windows", "such as my-theme"]),
        ("bell\x07", ["invisible characters", "such as bell"]),
        ("winter-days", ["comes with Storybank", "such as my-winter-days"]),
    ],
)
def test_a_theme_name_that_cannot_be(
    name: str,
    words: list[str],
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.chdir(tmp_path)
    code, out, err = run(["new-theme", "--", name], capsys)
    assert (code, out) == (2, "")
    assert "\x07" not in err
    for word in words:
        assert word in err
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("target", "words"),
    [
        ("other.yaml", ["other.yaml", "my-garden", "my-garden.yaml"]),
        ("my-garden.txt", ["my-garden.txt", "does not end in .yaml"]),
        ("taken/my-garden.yaml", ["taken", "not a folder"]),
    ],
)
def test_a_place_where_no_theme_can_be_written(
    target: str,
    words: list[str],
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "taken").write_text("mine", encoding="utf-8")
    code, out, err = run(["new-theme", "my-garden", "--out", target], capsys)
    assert (code, out) == (2, "")
    for word in words:
        assert word in err
    assert [path.name for path in tmp_path.iterdir()] == ["taken"]


def test_a_theme_that_is_there_is_kept_without_overwrite(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "my-garden.yaml"
    path.write_text("mine", encoding="utf-8")
    wish = ["new-theme", "my-garden", "--out", str(tmp_path)]
    code, out, err = run(wish, capsys)
    assert (code, out) == (2, "")
    assert "my-garden.yaml" in err
    assert "--overwrite" in err
    assert path.read_text(encoding="utf-8") == "mine"
    assert [one.name for one in tmp_path.iterdir()] == ["my-garden.yaml"]
    code, _, _ = run([*wish, "--overwrite"], capsys)
    assert code == 0
    assert "THINGS" in path.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("theme", "words"),
    [
        ("nowhere.yaml", ["nowhere.yaml", "storybank new-theme nowhere"]),
        ("sub/nowhere", ["sub/nowhere", ".yaml"]),
        ("My Pack.yaml", ["My Pack.yaml", "such as my-pack.yaml"]),
        ("walk", ["walk", "its file: walk.yaml"]),
        ("./walk", ["walk", 'there is "walk.yaml"']),
        ("walk.yaml", ["walk.yaml, line 2", "autum", "autumn"]),
    ],
)
def test_a_pack_of_ones_own_that_cannot_be_used(
    theme: str,
    words: list[str],
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.chdir(tmp_path)
    header = GOOD_HEADER.replace("season: any", "season: autum")
    text = header + "things: {}\nscenes: {}\n"
    (tmp_path / "walk.yaml").write_text(text, encoding="utf-8")
    code, out, err = run([*MAKE, "--theme", theme, "--out", "set"], capsys)
    assert (code, out) == (2, "")
    assert "Traceback" not in err
    for word in words:
        assert word in err
    assert not (tmp_path / "set").exists()


def test_a_theme_to_be_checked_is_named_without_its_ending(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    assert run(["new-theme", "bicycle-workshop"], capsys)[0] == 0
    code, out, err = run(["check-theme", "bicycle-workshop"], capsys)
    assert (code, out) == (2, "")
    assert "storybank check-theme bicycle-workshop.yaml" in err
    code, out, err = run(["check-theme", "bicycle"], capsys)
    assert (code, out) == (2, "")
    assert 'There is no file "bicycle"' in err
    assert run(["check-theme", "bicycle-workshop.yaml"], capsys)[0] == 0


@pytest.mark.parametrize("sum_", ["0 + 8", "1001 - 4", "47 - 82", "many", "82 - 82", "900 + 200"])
def test_explain_refuses_what_it_cannot_explain(
    sum_: str, capsys: pytest.CaptureFixture[str]
) -> None:
    code, out, err = run(["explain", sum_], capsys)
    assert (code, out) == (2, "")
    assert sum_.split()[0] in err


def test_the_module_is_the_command() -> None:
    done = subprocess.run(
        [sys.executable, "-m", "storybank", "make", "--theme", "nowhere"],
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.returncode == 2
    assert "nowhere" in done.stderr
    assert "Traceback" not in done.stderr
