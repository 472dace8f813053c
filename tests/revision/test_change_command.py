"""`storybank make --change`: the set that was made, changed; kept in a bank as any other."""

import json
from importlib.resources import files
from pathlib import Path

import jsonschema
import pytest

from storybank import Request
from storybank.bank import Bank
from storybank.cli import main
from storybank.finished import judge, read_set, request_from_json
from storybank.revision import changes_of, revise

SCHEMA = json.loads(
    files("storybank").joinpath("documents", "set_schema.json").read_text(encoding="utf-8")
)
WISH = ["make", "--strategy", "any", "--count", "5", "--seed", "7"]
CHANGES = ["swap-3", "down-2", "numbers-1", "level-5-level-1", "more", "remove-4"]


def printed(capsys: pytest.CaptureFixture[str], *more: str) -> dict:
    assert main([*WISH, *more, "--out", "-"]) == 0
    return json.loads(capsys.readouterr().out)


def test_it_is_the_changed_set(capsys: pytest.CaptureFixture[str]) -> None:
    node = printed(capsys, "--change", *CHANGES[:2], "--change", *CHANGES[2:])
    revised = revise(Request(strategy=["any"], count=5, seed=7), changes_of(CHANGES))
    assert node == json.loads(revised.problem_set.to_text())
    assert node["request"]["change"] == CHANGES
    assert request_from_json(node["request"], "")["change"] == CHANGES
    jsonschema.validate(node, SCHEMA, cls=jsonschema.Draft202012Validator)


def test_another_third_story_and_all_else_as_it_was(capsys: pytest.CaptureFixture[str]) -> None:
    before, after = printed(capsys), printed(capsys, "--change", "swap-3")
    assert "change" not in before["request"]
    same = [one == other for one, other in zip(before["problems"], after["problems"], strict=True)]
    assert same == [True, True, False, True, True]


def test_what_was_not_done_is_printed(capsys: pytest.CaptureFixture[str]) -> None:
    assert main([*WISH, "--change", "swap-8", "--out", "-"]) == 0
    said = capsys.readouterr().err
    assert said == "note: swap-8 was not done: there is no story 8, the last one is 5.\n"


def test_a_seed_is_drawn_for_a_changed_set(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["make", "--count", "2", "--change", "swap-1", "--out", "-"]) == 0
    said = capsys.readouterr()
    seed = json.loads(said.out)["request"]["seed"]
    assert f"seed {seed}: " in said.err
    assert main(
        ["make", "--count", "2", "--change", "swap-1", "--seed", str(seed), "--out", "-"]
    ) == 0  # fmt: skip
    assert capsys.readouterr().out == said.out


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        (["--change", "swap"], 'The change "swap" cannot be read. Write it like swap-3'),
        (["--change", "swop-1"], 'There is no change "swop-1".'),
        (["--change", "words-1-1"], "--change words-1-1 is about words of your own, and a command"),
        (["--change", "swap-1", "--bank", "our.bank"], "--change swap-1 was given with --bank"),
    ],
)
def test_wrong_use_is_refused_before_anything_is_written(
    wrong: list[str],
    said: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.chdir(tmp_path)
    assert main([*WISH, *wrong]) == 2
    assert said in capsys.readouterr().err
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize(
    "wish",
    [
        ["--strategy", "any"],
        ["--strategy", "any", "--keywords", "none"],
        ["--fact-families", "--within", "50"],
        ["--number-sets", "20", "100"],
        ["--steps", "2"],
        ["--missing"],
    ],
)
def test_a_bank_keeps_and_finds_a_changed_set(
    wish: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    changes = ["swap-3", "level-1-level-2", "numbers-2", "down-1", "remove-4"]
    out = tmp_path / "set"
    made = [*wish, "--count", "8", "--seed", "3", "--format", "json,docx", "--out", str(out)]
    assert main(["make", *made, "--change", *changes]) == 0
    problem_set = read_set(out / "set.json")
    assert len(problem_set.problems) == 7 and problem_set.request["change"] == changes
    for problem in problem_set.problems:
        assert judge(problem, problem_set.request) == ()
    bank = tmp_path / "our.bank"
    assert main(["bank", "add", str(bank), str(out / "set.json")]) == 0
    capsys.readouterr()
    assert main(["bank", "find", str(bank), "--code", problem_set.problems[2].code]) == 0
    assert problem_set.problems[2].code in capsys.readouterr().out
    assert main(["bank", "check", str(bank)]) == 0
    capsys.readouterr()
    with Bank(bank) as opened:
        assert len(opened.find()) == 7
    lines = tmp_path / "all.jsonl"
    assert main(["bank", "export", str(bank), "--out", str(lines)]) == 0
    kept = [json.loads(line) for line in lines.read_text(encoding="utf-8").splitlines()]
    requests = [one["request"] for one in kept if "request" in one]
    assert requests and all(one["change"] == changes for one in requests)
    assert main(["bank", "import", str(tmp_path / "other.bank"), str(lines)]) == 0
    assert main(["bank", "check", str(tmp_path / "other.bank")]) == 0
