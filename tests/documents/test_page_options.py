"""The options of `make` that choose pages and their looks, as a teacher types them."""

import json
from pathlib import Path

import docx
import pytest
from documents import word_checks

from storybank import Request, make_set, write_document
from storybank.cli import main
from storybank.documents import Layout, kinds


def make(folder: Path, *options: str) -> int:
    return main(["make", "--seed", "5", "--count", "4", "--out", str(folder), *options])


def test_a_file_for_each_kind_of_page_in_every_way_of_asking(tmp_path: Path) -> None:
    wanted = {"exit.docx", "cards.docx"}
    for number, asked in enumerate((["--pages", "exit", "cards"], ["--pages", "exit,cards"],
                                    ["--pages", "exit", "--pages", "cards"])):  # fmt: skip
        folder = tmp_path / str(number)
        assert make(folder, *asked, "--format", "docx") == 0
        assert {path.name for path in folder.iterdir()} == wanted


def test_without_a_wish_there_are_student_pages_and_a_key(tmp_path: Path) -> None:
    assert make(tmp_path, "--format", "docx") == 0
    assert {path.name for path in tmp_path.iterdir()} == {"student.docx", "key.docx"}


def test_paper_print_lines_and_sign_reach_the_file(tmp_path: Path) -> None:
    options = ["--paper", "a4", "--large-print", "--lines", "none", "--unknown", "question-mark",
               "--font", "Lexend", "--format", "docx,html"]  # fmt: skip
    assert make(tmp_path, *options) == 0
    document = docx.Document(str(tmp_path / "student.docx"))
    assert document.sections[0].page_height.mm == pytest.approx(297, abs=0.5)
    assert document.styles["Story"].font.size.pt == 18
    body = word_checks.part((tmp_path / "student.docx").read_bytes())
    alts = [one.get("descr") for one in body.iterfind(".//wp:docPr", word_checks.NS)]
    assert alts and not any("number line" in one for one in alts)
    page = (tmp_path / "set.html").read_text(encoding="utf-8")
    assert 'font: 18pt "Lexend"' in page and "size: 595.3pt 841.9pt" in page
    assert "\N{WHITE SQUARE}" not in page


def test_the_set_itself_does_not_hang_on_its_looks(tmp_path: Path) -> None:
    assert make(tmp_path / "a") == make(tmp_path / "b", "--large-print", "--pages", "exit") == 0
    first, second = (tmp_path / one / "set.json" for one in "ab")
    assert json.loads(first.read_text()) == json.loads(second.read_text())


def test_side_by_side_each_sheet_for_children_has_its_levels(tmp_path: Path) -> None:
    assert make(tmp_path, "--levels-side-by-side", "--pages", "launch", "model", "--format",
                "docx") == 0  # fmt: skip
    levels = {f"launch-level-{level}.docx" for level in range(1, 5)}
    assert {path.name for path in tmp_path.iterdir()} == {"launch.docx", "model.docx", *levels}


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (["--pages", "poster"], 'There is no kind of page "poster". Choose from: student, key'),
        (["--pages", ","], "--pages is empty. Choose from: student, key"),
        (["--paper", "A5"], 'There is no paper "A5"'),
        (["--lines", "ruled"], 'There is no kind of lines "ruled"'),
        (["--unknown", "x"], 'There is no sign for the unknown "x"'),
        (["--template", "nowhere.docx"], 'The template "nowhere.docx" is not there'),
    ],
)
def test_a_wrong_wish_is_told_and_nothing_is_written(
    options: list[str], said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert make(tmp_path / "made", *options) == 2
    assert said in capsys.readouterr().err
    assert not (tmp_path / "made").exists()


def test_the_kinds_of_page_are_listed(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["list", "pages", "--json"]) == 0
    listed = json.loads(capsys.readouterr().out)
    assert [one["id"] for one in listed] == list(kinds.kinds())
    assert all(one["title"] for one in listed)


@pytest.mark.parametrize("kind", kinds.kinds())
def test_a_document_by_name_holds_the_kind_that_its_name_ends_in(kind: str, tmp_path: Path) -> None:
    made = make_set(Request(count=2, seed=1))
    path = write_document(made, tmp_path / f"monday-{kind}.docx", layout=Layout(paper="a4"))
    (title,) = (one.text for one in docx.Document(str(path)).paragraphs
                if one.style.name == "Title")  # fmt: skip
    assert title == kinds.page(kind, made, Layout()).title


def test_settings_say_how_pages_look_and_the_command_line_wins(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    settings = tmp_path / "mine.yaml"
    settings.write_text("paper: a4\nlarge_print: yes\nfont: Lexend\n", encoding="utf-8")
    asked = ["--settings", str(settings), "--format", "docx,html"]
    assert make(tmp_path / "a", *asked) == 0
    assert make(tmp_path / "b", *asked, "--paper", "letter") == 0
    first, second = (
        docx.Document(str(tmp_path / one / "key.docx")).sections[0].page_height.mm for one in "ab"
    )
    assert (first, second) == (pytest.approx(297, abs=0.5), pytest.approx(279.4, abs=0.5))
    assert 'font: 18pt "Lexend"' in (tmp_path / "a" / "set.html").read_text(encoding="utf-8")
    settings.write_text("large_print: maybe\ntemplate: none.docx\n", encoding="utf-8")
    capsys.readouterr()
    assert make(tmp_path / "c", *asked) == 2
    said = capsys.readouterr().err
    assert 'mine.yaml, line 1: large_print is "maybe". Write yes or no.' in said
    assert 'line 2: template: there is no file "none.docx" beside mine.yaml' in said
