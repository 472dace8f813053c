"""Sets and tables that cannot be read: each has its message, by row and column, and exit 2."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from diagnosis import answers

from storybank.cli import main
from storybank.diagnosis import read_set
from storybank.diagnosis._answered import Answered

Rows = list[list[str]]


def run(arguments: list[str], capsys: pytest.CaptureFixture[str]) -> tuple[int, str, str]:
    code = main(["diagnose", *arguments])
    said = capsys.readouterr()
    return code, said.out, said.err


def refused(
    arguments: list[str], words: list[str], folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before = {one: one.read_bytes() for one in folder.rglob("*") if one.is_file()}
    code, out, err = run(arguments, capsys)
    assert code == 2
    assert out == ""
    assert "Traceback" not in err
    for word in words:
        assert word in err, err
    after = {one: one.read_bytes() for one in folder.rglob("*") if one.is_file()}
    assert after == before


def no_problems(value: dict[str, Any]) -> None:
    value["problems"] = []


def worded(value: dict[str, Any]) -> None:
    value["problems"][2]["answer"] = "ten"


def unheard_of(value: dict[str, Any]) -> None:
    value["problems"][1]["watch_for"][0]["mistakes"] = ["slept"]


def right_one_watched(value: dict[str, Any]) -> None:
    value["problems"][1]["watch_for"][0]["answer"] = value["problems"][1]["answer"]


def twice(value: dict[str, Any]) -> None:
    value["problems"][3]["code"] = value["problems"][0]["code"]


def newer(value: dict[str, Any]) -> None:
    value["format"] = "storybank-set/2"


def unwatched(value: dict[str, Any]) -> None:
    del value["problems"][0]["watch_for"]


def codeless(value: dict[str, Any]) -> None:
    value["problems"][0]["code"] = "a b\n"


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (newer, ["storybank-set/2", "storybank-set/1", "storybank make"]),
        (no_problems, ["0 problems", "1 to 2,000"]),
        (worded, ["problem 3", '"answer"', '"ten"', "whole number"]),
        (unheard_of, ["problem 2", "slept", "forgot-to-fix"]),
        (right_one_watched, ["problem 2", "answer to watch for"]),
        (twice, ["problem 4", "problem 1 does not have"]),
        (unwatched, ["problem 1", "watch_for", "missing"]),
        (codeless, ["problem 1", '"code"', "letters and digits"]),
    ],
)
def test_a_set_that_was_changed(
    change: Callable[[dict[str, Any]], None],
    words: list[str],
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    path = answers.written(tmp_path, answers.changed(answers.set_text(), change))
    refused([str(path), "answers.csv"], ["set.json", *words], tmp_path, capsys)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("Child,K7QX\nAna,3\n", ["no JSON", "line 1", "set.json"]),
        ("[]", ['no "format"', "storybank-set/1"]),
        ('{"format": NaN}', ["no JSON"]),
        ("[" * 200_000, ["no JSON"]),
        ("", ["no JSON"]),
    ],
)
def test_a_file_that_is_no_set(
    text: str, words: list[str], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = answers.written(tmp_path, text)
    refused([str(path), "answers.csv"], words, tmp_path, capsys)


def test_a_set_that_asks_for_all_pairs_only(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    def lists(value: dict[str, Any]) -> None:
        for one in value["problems"]:
            one["answer"] = [[1, 2], [2, 1]]

    path = answers.written(tmp_path, answers.changed(answers.set_text(), lists))
    refused([str(path), "--form"], ["all pairs", "16 problems"], tmp_path, capsys)


@pytest.fixture
def answered(tmp_path: Path) -> Answered:
    return read_set(answers.written(tmp_path, answers.set_text()))


def with_cell(cell: str) -> Callable[[Rows], None]:
    def change(rows: Rows) -> None:
        rows[2][3] = cell

    return change


def header(column: int, text: str) -> Callable[[Rows], None]:
    def change(rows: Rows) -> None:
        rows[0][column] = text

    return change


def doubled_code(rows: Rows) -> None:
    rows[0][5] = rows[0][2].lower()


def doubled_child(rows: Rows) -> None:
    rows[2][0] = " ANA "


def nameless(rows: Rows) -> None:
    rows[2][0] = " "


def short(rows: Rows) -> None:
    del rows[2][9:]


def long(rows: Rows) -> None:
    rows[2].append("7")


def only_header(rows: Rows) -> None:
    del rows[1:]


def no_header(rows: Rows) -> None:
    del rows[0]


def code_first(rows: Rows) -> None:
    rows[0][0:2] = [rows[0][1], "x"]
    for one in rows[0][2:]:
        rows[0][rows[0].index(one)] = f"{one}?"


def empty_header(rows: Rows) -> None:
    rows[0][4] = ""


ROW_3 = ["answers.csv", "row 3", "Ben"]


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (with_cell("twelve"), [*ROW_3, '"twelve"', "column D", "no whole number", "empty"]),
        (with_cell("12.5"), [*ROW_3, '"12.5"', "column D", "no whole number"]),
        (with_cell("12 or 13"), [*ROW_3, "column D", "more than one number"]),
        (with_cell("-3"), [*ROW_3, "column D", "below 0"]),
        (with_cell("3-Apr"), [*ROW_3, "column D", "a date"]),
        (with_cell("#REF!"), [*ROW_3, "column D", "error of the spreadsheet"]),
        (with_cell("=B2+1"), [*ROW_3, "column D", "a formula"]),
        (with_cell("1234567"), [*ROW_3, "column D", "7 digits"]),
        (with_cell("1e3"), [*ROW_3, "column D", "number"]),
        (with_cell("?"), [*ROW_3, "column D", "leave the cell empty"]),
        (header(3, "K7Q!X"), ['"K7Q!X"', "row 1, column D", "Its codes are"]),
        (doubled_code, ["twice", "columns C and F", "row 1"]),
        (doubled_child, ["two rows", "ANA", "2 and 3", "Ana B."]),
        (nameless, ["no name", "row 3", "column A"]),
        (short, ["too few columns", *ROW_3, "9", "17"]),
        (long, ['"7"', *ROW_3, "column R"]),
        (only_header, ["no child", "answers.csv"]),
        (no_header, ["no code of the set", "row 1", "--form"]),
        (code_first, ["first column, where names go"]),
        (empty_header, [*["row 2", "Ana"], "column E", "header is empty"]),
    ],
)
def test_a_table_with_a_fault(
    change: Callable[[Rows], None],
    words: list[str],
    answered: Answered,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    rows = [
        ["Child", *(item.code for item in answered.items)],
        answers.row(answered.items, "Ana"),
        answers.row(answered.items, "Ben"),
    ]
    change(rows)
    path = answers.written(tmp_path, "".join(f"{','.join(one)}\n" for one in rows), "answers.csv")
    out = str(tmp_path / "page")
    refused([str(tmp_path / "set.json"), str(path), "--out", out], words, tmp_path, capsys)


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", ["is empty", "--form"]),
        (b"\n  \n", ["is empty"]),
        (b"PK\x03\x04 and so on", ["Excel workbook", "CSV (UTF-8)"]),
        (b"\xd0\xcf\x11\xe0 and so on", ["old Excel workbook"]),
        (b"%PDF-1.7", ["a PDF"]),
        (b"Child,K7QX\n\0\0", ["no text"]),
        (b"Child," + b"K" * 1_000_001, ["1,000,000 bytes"]),
        (b'Child,K7QX\n"Ana,3\n', ["quotation mark"]),
    ],
)
def test_a_file_that_is_no_table(
    data: bytes,
    words: list[str],
    answered: Answered,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    path = tmp_path / "answers.csv"
    path.write_bytes(data)
    refused([str(tmp_path / "set.json"), str(path)], ["answers.csv", *words], tmp_path, capsys)


def test_a_file_that_is_not_there(
    answered: Answered, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = str(tmp_path / "set.json")
    refused([path, str(tmp_path / "anwsers.csv")], ["anwsers.csv", "no table"], tmp_path, capsys)
    refused([path, str(tmp_path)], ["is a folder"], tmp_path, capsys)
    refused([f"{path}x", "answers.csv"], ["set.jsonx", "no set of problems"], tmp_path, capsys)


@pytest.mark.parametrize(
    ("options", "words"),
    [
        ([], ["No table of answers", "--form"]),
        (["answers.csv", "--form"], ["answers.csv", "--form"]),
        (["--form", "--json"], ["--json"]),
        (["--form", "--paper", "a4"], ["--paper"]),
        (["answers.csv", "--format", "html"], ["--format", "--out FOLDER"]),
        (["answers.csv", "--large-print"], ["--large-print", "--out FOLDER"]),
        (["answers.csv", "--out", "page", "--format", "csv"], ['"csv"', "docx, html"]),
        (["answers.csv", "--out", "page", "--format", ","], ["--format is empty"]),
        (["answers.csv", "--out", "page", "--paper", "a5"], ['"a5"', "letter, a4"]),
    ],
)
def test_options_that_do_not_go_together(
    options: list[str],
    words: list[str],
    answered: Answered,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    text = answers.table(answered, [answers.row(answered.items, "Ana")])
    answers.written(tmp_path, text, "answers.csv")
    monkeypatch.chdir(tmp_path)
    refused(["set.json", *options], words, tmp_path, capsys)


def test_a_page_that_exists_stays_as_it_is(
    answered: Answered, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = answers.table(answered, [answers.row(answered.items, "Ana")])
    path = answers.written(tmp_path, text, "answers.csv")
    folder = tmp_path / "page"
    folder.mkdir()
    (folder / "diagnosis.docx").write_bytes(b"mine")
    wish = [str(tmp_path / "set.json"), str(path), "--out", str(folder)]
    refused(wish, ["diagnosis.docx", "--overwrite"], tmp_path, capsys)
    assert run([*wish, "--overwrite"], capsys)[0] == 0
    assert (folder / "diagnosis.docx").read_bytes()[:2] == b"PK"


def test_the_samples_are_sets_and_tables_without_a_fault(
    answered: Answered, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    # So that each refusal above is for its own fault.
    text = answers.table(answered, [answers.row(answered.items, "Ana")])
    path = answers.written(tmp_path, text, "answers.csv")
    code, out, err = run([str(tmp_path / "set.json"), str(path), "--json"], capsys)
    assert (code, err) == (0, "")
    assert json.loads(out)["children"][0]["right"] == 16
