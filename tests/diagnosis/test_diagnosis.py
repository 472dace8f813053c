"""The whole of a diagnosis: what is found, what is advised, the page, the text and the command."""

import io
import json
import re
import shlex
from dataclasses import replace
from pathlib import Path

import docx
import jsonschema
import pytest
from diagnosis import answers
from documents import word_checks

from storybank import diagnosis, documents, mistakes, situations
from storybank.cli import main
from storybank.diagnosis import HINT, _wish, read_set
from storybank.diagnosis._answered import Answered, Item, Watched
from storybank.diagnosis._table import Child
from storybank.documents import _diagnosis
from storybank.model.diagnosis import Diagnosis
from storybank.problem_set import make_set
from storybank.request import Request


@pytest.fixture
def answered(tmp_path: Path) -> Answered:
    return read_set(answers.written(tmp_path, answers.set_text()))


@pytest.fixture
def table(answered: Answered, tmp_path: Path) -> Path:
    items = answered.items
    rows = [
        answers.row(items, "Ana", answers.made(items, "ten-kept", 5)),
        answers.row(items, "Ben"),
        answers.row(items, "Chen", answers.made(items, "ten-kept", 4)),
        answers.row(items, "Dia", {0: 300}),
        ["Eli", *("" for _ in items)],
        answers.row(items, "Fay", answers.made(items, "last-jump-left-out", 6)),
        answers.row(items, "Gil", answers.made(items, "ten-dropped", 1)),
    ]
    return answers.written(tmp_path, answers.table(answered, rows), "answers.csv")


@pytest.fixture
def found(table: Path) -> Diagnosis:
    return diagnosis.diagnose(table.parent / "set.json", table)


def test_what_each_child_s_answers_agree_with(found: Diagnosis) -> None:
    named = {
        child.name: [one.candidates[0].mistakes for one in child.findings]
        for child in found.children
    }
    assert named == {
        "Ana": [("ten-kept",)], "Ben": [], "Chen": [("ten-kept",)], "Dia": [], "Eli": [],
        "Fay": [("last-jump-left-out",)], "Gil": [],
    }  # fmt: skip
    ana = found.children[0]
    assert (ana.answered, ana.right) == (16, 11)
    assert ana.findings[0].candidates[0].hits == 5
    assert ana.findings[0].clear
    assert [one.found for one in ana.wrong] == [1] * 5
    assert found.children[3].wrong[0].titles == ()


def test_the_class_has_those_found_with_most_children_first(found: Diagnosis) -> None:
    first = found.rows[0]
    assert (first.mistakes, first.children, first.hits) == (("ten-kept",), ("Ana", "Chen"), 9)
    assert [len(row.children) for row in found.rows] == sorted(
        (len(row.children) for row in found.rows), reverse=True
    )
    (together,) = found.next
    assert together.title == mistakes.get("ten-kept").TITLE
    assert "2 of 7 children" in together.talk


def test_what_to_do_next_fits_each_child(found: Diagnosis) -> None:
    ana, ben, _, dia, eli, _, gil = found.children
    assert "opened ten" in ana.next[0].talk and "Ask:" in ana.next[0].talk
    assert ana.next[0].command and "--diagnose" in ana.next[0].command
    assert ben.next == ()
    assert "No known mistake" in dia.next[0].talk
    assert "too few" in eli.next[0].talk
    assert "Too little" in gil.next[0].talk and gil.next[0].command is None


@pytest.mark.parametrize("mistake", mistakes.ids())
def test_the_command_makes_problems_with_chances(mistake: str) -> None:
    command = _wish.command(mistake, (), 100)
    assert command is not None
    words = shlex.split(command)
    assert words[:2] == ["storybank", "make"]
    without = ("counted-the-start", "stopped-after-step-one", "addend-left-out")
    assert ("--diagnose" in words) == (mistake not in without)

    def after(option: str) -> list[str]:
        if option not in words:
            return []
        rest = words[words.index(option) + 1 :]
        return rest[: next((at for at, one in enumerate(rest) if one[:2] == "--"), len(rest))]

    made = make_set(
        Request(
            strategy=after("--strategy"),
            situation=after("--situation"),
            crossing=(after("--crossing") or ["any"])[0],
            count=int(after("--count")[0]),
            diagnose="--diagnose" in words,
            steps=int((after("--steps") or ["1"])[0]),
            addends=int((after("--addends") or ["2"])[0]),
            seed=11,
        )
    )
    chances = [
        one for one in made.problems if any(mistake in entry.mistakes for entry in one.watch_for)
    ]
    assert len(chances) >= 4


def test_the_word_of_a_comparison_is_that_of_its_situation() -> None:
    """Whatever the situation is called."""
    for one in situations.in_grade_order():
        word = (one.wording,) if one.family == "compare" else ()
        assert _wish._keywords(replace(one, id="another")) == word
        assert word in ((), ("more",), ("fewer",))


@pytest.mark.parametrize("within", [50, 500])
def test_the_command_keeps_to_the_limit_of_the_set(answered: Answered, within: int) -> None:
    command = _wish.command("ten-kept", answered.items, within)
    assert command is not None and f"--within {within}" in command


def test_the_command_keeps_to_what_gave_the_chances(answered: Answered) -> None:
    command = _wish.command("ten-kept", answered.items, 100)
    assert command is not None and "--strategy tens-then-ones" in command
    told = {one.situation for one in answered.items}
    assert set(re.findall(r"[a-z]+-[a-z-]+-unknown[a-z-]*", command)) <= told


def test_a_set_without_chances_says_what_it_can_hardly_show(tmp_path: Path) -> None:
    text = answers.set_text(diagnose=False)
    answered = read_set(answers.written(tmp_path, text))
    path = answers.written(
        tmp_path, answers.table(answered, [answers.row(answered.items, "Ana")]), "a.csv"
    )
    found = diagnosis.diagnose(tmp_path / "set.json", path)
    assert found.seldom
    assert all(0 < chances < 4 for _, chances in found.seldom)
    assert "gives only" in diagnosis.as_text(found)


def test_every_text_begins_with_the_hint(found: Diagnosis) -> None:
    assert " ".join(diagnosis.as_text(found).split()).startswith(HINT)
    assert "not a test result" in HINT
    page = _diagnosis.page(found)
    assert "not a test result" in getattr(page.blocks[1], "text", "")
    assert found.to_json()["hint"] == HINT


def test_the_same_answers_give_the_same_bytes(found: Diagnosis) -> None:
    pages = {"diagnosis": _diagnosis.page(found)}
    once, again = (documents.render_pages(pages, ["docx", "html"]) for _ in range(2))
    assert list(once) == ["diagnosis.docx", "diagnosis.html"]
    assert once == again


@pytest.mark.parametrize(
    "layout", [documents.Layout(paper="a4", large_print=True), documents.USUAL]
)
def test_the_page_opens_and_holds_each_child(found: Diagnosis, layout: documents.Layout) -> None:
    pages = {"diagnosis": _diagnosis.page(found)}
    files = documents.render_pages(pages, ["docx", "html"], layout)
    document = docx.Document(io.BytesIO(files["diagnosis.docx"]))
    headings = [one.text for one in document.paragraphs if one.style.name == "Heading 2"]
    assert [one.name for one in found.children] == [
        one for one in headings if one not in ("With the class", "To bear in mind")
    ]
    assert len(document.tables[0].rows) == 1 + len(found.rows)
    told = "\n".join(one.text for one in document.paragraphs)
    for child in found.children:
        for one in child.wrong:
            assert f"{one.code} " in told and f"wrote {one.given}, not {one.answer}" in told
    html = files["diagnosis.html"].decode()
    assert html.index("not a test result") < html.index("The class") < html.index("Ana")
    assert word_checks.faults(files["diagnosis.docx"]) == []


def test_a_child_whose_name_is_markup_or_runs_from_right_to_left(
    answered: Answered, tmp_path: Path
) -> None:
    names = ["<b>Ana</b>&amp;", "\u05d3\u05e0\u05d4", "=cmd|x"]
    rows = [answers.row(answered.items, name) for name in names]
    path = answers.written(tmp_path, answers.table(answered, rows), "a.csv")
    found = diagnosis.diagnose(tmp_path / "set.json", path)
    html = documents.render_pages({"d": _diagnosis.page(found)}, ["html"])["d.html"]
    assert b"<b>Ana" not in html
    assert "\u05d3\u05e0\u05d4".encode() in html


def test_without_out_nothing_is_written(
    table: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(table.parent)
    before = sorted(table.parent.iterdir())
    assert main(["diagnose", "set.json", "answers.csv"]) == 0
    said = capsys.readouterr()
    assert "Ana" in said.out and said.err == ""
    assert sorted(table.parent.iterdir()) == before


def test_with_out_only_the_pages_are_written(
    table: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = table.parent / "page"
    wish = ["diagnose", str(table.parent / "set.json"), str(table), "--out", str(folder)]
    assert main([*wish, "--format", "docx,html", "--json"]) == 0
    said = capsys.readouterr()
    assert json.loads(said.out)["format"] == "storybank-diagnosis/1"
    assert sorted(one.name for one in folder.iterdir()) == ["diagnosis.docx", "diagnosis.html"]


def test_the_form_names_every_problem_and_can_be_filled_in(
    answered: Answered, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = str(tmp_path / "set.json")
    assert main(["diagnose", path, "--form"]) == 0
    header = capsys.readouterr().out
    assert header == "Child," + ",".join(one.code for one in answered.items) + "\n"
    folder = tmp_path / "form"
    assert main(["diagnose", path, "--form", "--out", str(folder)]) == 0
    form = folder / "answers.csv"
    assert form.read_bytes() == b"\xef\xbb\xbf" + header.replace("\n", "\r\n").encode()
    with form.open("a", encoding="utf-8") as stream:
        stream.write(",".join(answers.row(answered.items, "Ana")) + "\r\n")
    capsys.readouterr()
    assert main(["diagnose", path, str(form)]) == 0
    assert "Ana: 16 of 16 right" in capsys.readouterr().out


def test_a_form_leaves_out_lists_and_says_so(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = answers.written(tmp_path, answers.mixed_text())
    lists = read_set(path).lists
    assert main(["diagnose", str(path), "--form"]) == 0
    said = capsys.readouterr()
    assert all(code in said.err and code not in said.out for code in lists)


def test_mistakes_that_the_problems_do_not_tell_apart_are_both_said() -> None:
    def item(number: int, *watched: tuple[int, str]) -> Item:
        entries = {wrong: Watched((name,), "") for wrong, name in watched}
        if len({wrong for wrong, _ in watched}) < len(watched):
            entries = {watched[0][0]: Watched(tuple(name for _, name in watched), "")}
        return Item(number, f"C{number}", "40 - 15 = ?", 25, entries, "count-up", None)

    one, other = "landing-not-jumps", "number-from-story"
    items = (
        item(1, (40, one), (40, other)), item(2, (40, one), (40, other)),
        item(3, (47, one)), item(4, (48, other)), item(5),
    )  # fmt: skip
    answered = Answered("set.json", items, (), 100)
    found = diagnosis.judged(answered, [Child("Ana", {0: 40, 1: 40, 2: 25, 3: 25, 4: 25})])
    (finding,) = found.children[0].findings
    assert finding.open and not finding.clear
    assert [row.perhaps for row in found.rows] == [("Ana",), ("Ana",)]
    text = " ".join(diagnosis.as_text(found).split())
    assert "agree with one of:" in text and "perhaps Ana" in text
    assert "do not tell which" in found.children[0].next[0].talk
    page = _diagnosis.page(found)
    leads = [getattr(block, "lead", "") for block in page.flat()]
    assert "One of these, the problems do not tell which:" in leads


def test_what_is_read_follows_the_schema_of_sets(tmp_path: Path) -> None:
    # The sample sets of these tests are sets as make writes them, not look-alikes.
    schema = json.loads((Path(documents.__file__).parent / "set_schema.json").read_text())
    jsonschema.validate(json.loads(answers.set_text()), schema, cls=jsonschema.Draft202012Validator)
