"""`storybank count`: files, the same by seed, and what is said of a wish that cannot be met."""

import re
from pathlib import Path

import pytest
from documents import word_checks

from storybank.cli import main


def run(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> tuple[int, str, str]:
    code = main(["count", *arguments])
    out, err = capsys.readouterr()
    return code, out, err


def names(folder: Path) -> list[str]:
    return sorted(one.name for one in folder.iterdir())


def test_a_count_from_37_by_tens(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    wish = ["--by", "10", "--from", "37", "--format", "docx,html", "--out", str(tmp_path / "a")]
    code, out, err = run([*wish, "--seed", "3"], capsys)
    assert (code, err) == (0, "")
    assert out.splitlines()[0] == "Count by tens, from 37 to 137"
    assert names(tmp_path / "a") == [
        "count-key.docx", "count-key.html", "count.docx", "count.html",
    ]  # fmt: skip
    key = " ".join(
        text for _, text in word_checks.paragraphs((tmp_path / "a" / "count-key.docx").read_bytes())
    )
    assert "After 97 comes 107." in key


def test_a_seed_is_drawn_and_said_and_gives_the_same_files(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code, first, err = run(["--out", str(tmp_path / "a")], capsys)
    assert code == 0
    said = re.match(r"seed (\d+): the same wish with --seed \1 gives these warm-ups again", err)
    assert said
    code, second, err = run(["--seed", said[1], "--out", str(tmp_path / "b")], capsys)
    assert (code, err) == (0, "")
    assert first.replace(str(tmp_path / "a"), "") == second.replace(str(tmp_path / "b"), "")
    assert first.count("Count ") == 3
    for name in names(tmp_path / "a"):
        assert (tmp_path / "a" / name).read_bytes() == (tmp_path / "b" / name).read_bytes()


def test_more_counts_go_on_from_the_same_number(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code, out, _ = run(
        ["--by", "5", "10", "--from", "37", "--count", "4", "--seed", "1", "--out", str(tmp_path)],
        capsys,
    )
    said = [one for one in out.splitlines() if one.startswith("Count ")]
    assert code == 0 and len(said) == 4 == len(set(said))
    assert said[:2] == ["Count by fives, from 37 to 87", "Count by tens, from 37 to 137"]
    assert any("back" in one for one in said)


def test_what_is_asked_for_is_kept(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    wish = ["--by", "1", "--back", "--steps", "6", "--within", "120", "--count", "5"]
    code, out, _ = run([*wish, "--seed", "1", "--out", str(tmp_path)], capsys)
    said = re.findall(r"Count back by ones, from (\d+) to (\d+)", out)
    assert code == 0 and len(said) == 5
    assert all(int(first) - int(last) == 5 and int(first) <= 120 for first, last in said)


def test_a_seed_of_make_is_one_of_count_too(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The same numbers are taken, and others are refused in the same words."""
    for at, seed in enumerate(("0", "4294967296", "9223372036854775807")):
        assert run(["--seed", seed, "--out", str(tmp_path / str(at))], capsys)[0] == 0
    for seed in ("-1", "9223372036854775808", "9" * 40):
        code, _, err = run(["--seed", seed, "--out", str(tmp_path / "new")], capsys)
        assert main(["make", "--no-settings", "--seed", seed, "--out", str(tmp_path / "new")]) == 2
        assert (code, err) == (2, capsys.readouterr().err)


BAD = [
    (["--by", "2"], "Counting by 2 was asked for.*Choose from: 1, 5, 10, 100"),
    (["--from", "37"], "--from 37 was asked for without --by"),
    (["--by", "10", "--from", "1200"], "begins at 1200, .* from 0 to 1000"),
    (["--by", "10", "--from", "-5"], "begins at -5"),
    (["--by", "10", "--from", "937", "--steps", "11"], "would end at 1037, above 1000.*say 7"),
    (["--by", "10", "--from", "25", "--back"], "4 numbers back by tens from 25 .* -5, below 0"),
    (["--by", "10", "--steps", "3"], "A count of 3 numbers .* from 4 to 20"),
    (["--within", "5000"], "within 5000 .* from 10 to 1000"),
    (["--by", "100", "--within", "120"], "By hundreds within 120 .*2 numbers.*300 or more"),
    (["--count", "0"], "0 warm-ups .* from 1 to 20"),
    (["--by", "10", "--from", "37", "--count", "0"], "0 warm-ups .* from 1 to 20"),
    (["--count", "99"], "99 warm-ups"),
    (["--seed", "-1"], "--seed is -1"),
    (["--paper", "a5"], 'no paper "a5"'),
    (["--format", "pdf"], 'no format of pages "pdf".*docx, html'),
    (["--format", ","], "--format is empty"),
]


@pytest.mark.parametrize(("wish", "said"), BAD, ids=[" ".join(wish) for wish, _ in BAD])
def test_a_wish_that_cannot_be_met_is_explained_and_nothing_is_written(
    wish: list[str], said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code, out, err = run([*wish, "--out", str(tmp_path / "new")], capsys)
    assert (code, out) == (2, "")
    assert re.search(said, err), err
    assert err.startswith("storybank: ") and err.count("\n") == 1
    assert not (tmp_path / "new").exists()


def test_files_that_are_there_stay(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "count.docx").write_text("mine")
    code, out, err = run(["--seed", "1", "--out", str(tmp_path)], capsys)
    assert (code, out) == (2, "") and "already holds count.docx" in err
    assert (tmp_path / "count.docx").read_text() == "mine" and names(tmp_path) == ["count.docx"]
    code, _, _ = run(["--seed", "1", "--out", str(tmp_path), "--overwrite"], capsys)
    assert code == 0 and names(tmp_path) == ["count-key.docx", "count.docx"]


@pytest.mark.parametrize("wish", [["--by", "ten"], ["--from", "3.5"], ["--count", "x"]])
def test_what_is_no_number_is_refused(wish: list[str], capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as stopped:
        main(["count", *wish])
    assert stopped.value.code == 2
    assert "invalid int value" in capsys.readouterr().err
