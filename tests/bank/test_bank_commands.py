"""The commands of README as a teacher types them, and every wrong use: a message, nothing half."""

import json
import os
import shlex
import subprocess
import sys
from pathlib import Path

import pytest
from bank.kept import rows

from storybank.cli import main

README = Path(__file__).parents[2] / "README.md"


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def said(capsys: pytest.CaptureFixture[str], *words: str) -> str:
    """What a command prints that must work."""
    code = main(list(words))
    printed = capsys.readouterr()
    assert code == 0, printed.err
    return printed.out


def refused(capsys: pytest.CaptureFixture[str], *words: str) -> str:
    """The message of a command that must not work."""
    try:
        code = main(list(words))
    except SystemExit as error:
        code = int(error.code or 0)
    printed = capsys.readouterr()
    assert code == 2, printed
    assert "Traceback" not in printed.err
    return printed.err


def files() -> list[str]:
    return sorted(str(one) for one in Path().rglob("*") if not one.name.endswith(("-wal", "-shm")))


def readme() -> list[list[str]]:
    """The commands that README's part about the bank prints, as a shell reads them."""
    part = README.read_text(encoding="utf-8").split("\n## The bank")[1].split("\n## ")[0]
    lines = [line.strip() for line in part.splitlines() if line.startswith("    storybank ")]
    return [shlex.split(line.split("   ")[0])[1:] for line in lines]


def test_readme_tells_a_way_that_can_be_gone(capsys: pytest.CaptureFixture[str]) -> None:
    """From an empty folder, in its order; its codes and its neighbour's bank are put in."""
    said(capsys, "make", "--seed", "3", "--bank", "next-door.bank", "--out", "theirs")
    codes: list[str] = []
    printed = {}
    for words in readme():
        if codes:
            words = [
                {"623QF": codes[0], "JV92L": codes[1]}.get(one, one)
                for one in words
            ]  # fmt: skip
        printed[" ".join(words[:2])] = said(capsys, *words)
        if not codes:
            made = json.loads(Path("storybank-set/set.json").read_text(encoding="utf-8"))
            codes = [one["code"] for one in made["problems"]]
            assert len(codes) == 12
    assert len(printed) == 12
    assert printed["bank add"] == "set.json: 0 problems kept, 12 were there already\n"
    assert printed["bank star"] == "1 problem starred\n"
    assert printed["bank note"] == "note kept\n"
    # The class has had them already, so nothing new is recorded.
    assert printed["bank used"] == ("0 problems recorded for 2B; it has had 2 of them before\n")
    assert printed["bank had"].count("\n") == 13
    assert codes[0] in printed["bank undo"] and "retire" in printed["bank undo"]
    assert printed["bank export"] == "1 problem written to liked.jsonl\n"
    assert printed["bank import"] == "liked.jsonl: 1 problem kept\n"
    assert printed["bank merge"] == "next-door.bank: 12 of 12 problems new\n"


def test_what_goes_to_a_new_bank_is_the_same(capsys: pytest.CaptureFixture[str]) -> None:
    said(capsys, "make", "--bank", "our.bank", "--class", "2B", "--seed", "5", "--out", "a")
    code = json.loads(Path("a/set.json").read_text(encoding="utf-8"))["problems"][3]["code"]
    said(capsys, "bank", "star", "our.bank", code, "#1")
    said(capsys, "bank", "note", "our.bank", code, "good for partners")
    said(capsys, "bank", "retire", "our.bank", "#2")
    digest = said(capsys, "bank", "check", "our.bank")
    assert digest.endswith("all is sound\n")
    for name in ("all.jsonl", "all.csv"):
        said(capsys, "bank", "export", "our.bank", "--retired", "--out", name)
        said(capsys, "bank", "import", f"{name}.bank", name)
        assert said(capsys, "bank", "check", f"{name}.bank") == digest
        said(capsys, "bank", "export", f"{name}.bank", "--retired", "--out", f"again-{name}")
        assert Path(f"again-{name}").read_bytes() == Path(name).read_bytes()
    said(capsys, "bank", "merge", "new.bank", "our.bank")
    assert said(capsys, "bank", "check", "new.bank") == digest
    assert said(capsys, "bank", "merge", "new.bank", "our.bank") == (
        "our.bank: 0 of 12 problems new\n"
    )
    assert "--retired" not in said(capsys, "bank", "log", "new.bank")
    assert len(said(capsys, "bank", "log", "new.bank").splitlines()) == 1
    said(capsys, "bank", "export", "our.bank", "--out", "pages")
    assert {"pages/student.docx", "pages/key.docx"} <= set(files())


WRONG = {
    "a bank that is not there": ("bank find no.bank", 'no bank "no.bank"'),
    "a bank that is a folder": ("bank find a", "is a folder"),
    "a bank that is none": ("bank find a/set.json", "is no bank"),
    "a code that is not there": ("bank star our.bank ZZZZZ", 'no problem "ZZZZZ"'),
    "a code that is none": ("bank star our.bank the-first", "neither a code nor a number"),
    "a number that is not there": ("bank star our.bank #999", 'no problem "#999"'),
    "no code": ("bank star our.bank", "required: CODE"),
    "a good code and a bad one": ("bank retire our.bank #1 ZZZZZ", 'no problem "ZZZZZ"'),
    "a class that is not there": ("bank had our.bank --class 9Z", "Its classes: 2B"),
    "a class that had nothing": ("bank find our.bank --had-by 9Z", "Its classes: 2B"),
    "a label of names": (
        "bank used our.bank #1 --class 'Ana, Ben, Chen, Dara, Eli, Fay, Gus, Hana'",
        "names are never kept",
    ),
    "an empty label": ("bank used our.bank #1 --class ''", "no label"),
    "no class": ("bank used our.bank #1", "required: --class"),
    "a day of another form": ("bank used our.bank #1 --class 2B --day 14.9.2026", "2027-01-18"),
    "no day": ("bank used our.bank #1 --class 2B --day 2026-02-30", "in no calendar"),
    "a long note": (f"bank note our.bank #1 {'x' * 501}", "more than 500 letters"),
    "a set that is not there": ("bank add new.bank no.json", 'no file "no.json"'),
    "a file that is not there": ("bank import new.bank no.jsonl", 'no file "no.jsonl"'),
    "a neighbour that is not there": ("bank merge new.bank no.bank", 'no bank "no.bank"'),
    "a neighbour that is none": ("bank merge new.bank a/set.json", "is no bank"),
    "itself": ("bank merge our.bank our.bank", "is this bank itself"),
    "a backup that is none": ("bank restore our.bank a/set.json", "no whole bank"),
    "a file that is there": ("bank export our.bank --out there.jsonl", "already holds"),
    "a file of another kind": ("bank export our.bank --out x.docx", ".jsonl or .csv"),
    "a folder that cannot be": ("bank export our.bank --out a/set.json/x.csv", "not a folder"),
    "none at all": ("bank export our.bank --out x.csv --most 0", "--most is 0"),
    "fewer than none": ("bank export our.bank --out x.jsonl --most -5", "--most is -5"),
    "none found": ("bank find our.bank --most 0", "--most is 0"),
    "a theme that is not there": ("bank find our.bank --theme wintr-days", "winter-days"),
    "a class without a bank": ("make --class 2B", "without --bank"),
    "a day without a bank": ("make --day 2026-09-14", "without --bank"),
    "all new without a bank": ("make --all-new", "without --bank"),
    "a day without a class": ("make --bank new.bank --day 2026-09-14", "Name it"),
    "a set of an empty class": ("make --bank new.bank --class ''", "no label"),
    "a set on no day": ("make --bank new.bank --class 2B --day 2026-13-01", "in no calendar"),
    "a set of no theme": ("make --bank new.bank --class 2B --theme x", 'no theme "x"'),
    "a set of no format": ("make --bank new.bank --class 2B --format xlsx", 'no format "xlsx"'),
    "a bank in no folder": ("make --bank no/new.bank --class 2B", 'no folder "no"'),
    "a set into a file": ("make --bank our.bank --class 2B --out a/set.json", "set.json"),
}


@pytest.mark.parametrize(("words", "message"), WRONG.values(), ids=WRONG)
def test_a_wrong_use_is_said_and_nothing_is_written(
    words: str, message: str, capsys: pytest.CaptureFixture[str]
) -> None:
    said(capsys, "make", "--bank", "our.bank", "--class", "2B", "--seed", "5", "--out", "a",
         "--format", "json")  # fmt: skip
    Path("there.jsonl").write_text("")
    before, log = files(), said(capsys, "bank", "log", "our.bank")
    digest = said(capsys, "bank", "check", "our.bank", "--quick")
    assert message in refused(capsys, *shlex.split(words))
    assert files() == before
    assert said(capsys, "bank", "log", "our.bank") == log
    assert said(capsys, "bank", "check", "our.bank", "--quick") == digest


@pytest.mark.parametrize("option", ["--within", "--most", "--skip"])
def test_a_number_beyond_all_is_none_too_many(
    option: str, capsys: pytest.CaptureFixture[str]
) -> None:
    said(capsys, "make", "--bank", "our.bank", "--seed", "5", "--out", "a", "--format", "json")
    found = said(capsys, "bank", "find", "our.bank", option, "9" * 30)
    assert found.endswith("12 problems found\n") or option == "--skip"
    assert said(capsys, "bank", "log", "our.bank", "--most", "9" * 30)


def _in_a_process(*words: str, out: str) -> "subprocess.CompletedProcess[bytes]":
    with Path(out).open("wb") as stream:
        return subprocess.run(
            [sys.executable, "-m", "storybank", *words],
            stdout=stream,
            stderr=subprocess.PIPE,
            env={**os.environ, "PYTHONPATH": str(README.parent)},
            check=False,
        )


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="a device that is full is needed")
def test_what_cannot_be_printed_is_recorded_for_nobody() -> None:
    words = ("make", "--bank", "our.bank", "--class", "2B", "--count", "2", "--out", "-")
    done = _in_a_process(*words, out="/dev/full")
    assert done.returncode != 0
    assert rows(Path("our.bank"), "SELECT count(*) FROM handed") == [(0,)]
    assert rows(Path("our.bank"), "SELECT count(*) FROM problem") == [(0,)]


def test_a_set_that_cannot_be_written_is_given_up_whatever_came_after(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Another program may have written into the bank meanwhile; what it did stays."""
    from storybank import Bank, documents
    from storybank.errors import OutputError

    said(capsys, "make", "--bank", "our.bank", "--class", "2A", "--seed", "5", "--out", "a")

    def full(*_: object) -> None:
        with Bank("our.bank") as other:
            other.star(["#1"])
        raise OutputError("The disk is full.")

    monkeypatch.setattr(documents, "write", full)
    words = ("make", "--bank", "our.bank", "--class", "2B", "--count", "20", "--out", "b")
    assert "The disk is full." in refused(capsys, *words)
    assert rows(Path("our.bank"), "SELECT count(*) FROM handed") == [(12,)]
    assert said(capsys, "bank", "had", "our.bank") == "2A\n"
    assert said(capsys, "bank", "find", "our.bank", "--starred").endswith("1 problem found\n")


def test_what_changes_nothing_is_nothing_to_undo(capsys: pytest.CaptureFixture[str]) -> None:
    said(capsys, "make", "--bank", "our.bank", "--class", "2B", "--seed", "5", "--out", "a")
    said(capsys, "bank", "star", "our.bank", "#1")
    said(capsys, "bank", "star", "our.bank", "#1")
    said(capsys, "bank", "add", "our.bank", "a/set.json")
    said(capsys, "bank", "used", "our.bank", "#1", "--class", "2B")
    assert said(capsys, "bank", "note", "our.bank", "#1", " ") == "the note stood so already\n"
    assert "star" in said(capsys, "bank", "undo", "our.bank")
    assert "make" in said(capsys, "bank", "undo", "our.bank")
    assert said(capsys, "bank", "had", "our.bank") == "no class has had anything\n"
    assert "nothing to undo" in refused(capsys, "bank", "undo", "our.bank")
