"""The pages of a week: in both papers and sizes, whole, and those of one page on one page."""

import io
import re
import subprocess
from collections.abc import Callable
from pathlib import Path

import docx
import pytest
from documents import word_checks
from pypdf import PdfReader
from week.plans import GOOD

from storybank import documents
from storybank.documents import Layout
from storybank.documents import week as week_pages
from storybank.documents._page import Heading, Picture
from storybank.model.week import Week
from storybank.week import make_week, read_plan

LOOKS = {
    f"{paper}-{size}": Layout(paper=paper, large_print=size == "large")
    for paper in ("letter", "a4")
    for size in ("normal", "large")
}
ON_ONE_PAGE = ("overview", "note-home")


@pytest.fixture(scope="module")
def week(tmp_path_factory: pytest.TempPathFactory) -> Week:
    path = tmp_path_factory.mktemp("plan") / "plan.yaml"
    path.write_text(GOOD, encoding="utf-8")
    return make_week(read_plan(path))


@pytest.mark.parametrize("look", LOOKS)
def test_every_page_of_a_week_is_a_whole_word_file(week: Week, look: str) -> None:
    layout = LOOKS[look]
    pages = week_pages.pages(week, layout)
    assert tuple(pages) == week_pages.names(
        {one.id: one.pages for one in week.days}, week.groups, whole=True
    )
    for name, data in documents.render_pages(pages, ["docx"], layout).items():
        assert word_checks.faults(data) == [], name
        assert docx.Document(io.BytesIO(data)).core_properties.title == pages[name[:-5]].title


def test_web_pages_hold_the_same_texts(week: Week) -> None:
    made = documents.render_pages(week_pages.pages(week, Layout()), ["html"])
    sheet = made["1-monday-level-4.html"].decode("utf-8")
    for part in ("together", "alone", "home", "exit"):
        for problem in week.days[0].parts[part].problems:
            assert problem.levels[-1].code in sheet


def test_numbers_run_through_a_sheet_and_are_those_of_the_key(week: Week) -> None:
    for day in week.days:
        pages = week_pages.pages(week, Layout(), [day])
        key = numbers(pages[f"{day.id}-key"])
        sheets = [numbers(pages[f"{day.id}-{group}"]) for group in week.groups]
        aloud = {one.code for one in day.parts["model"].problems}
        for sheet in sheets:
            assert sheet == {code: number for code, number in key.items() if number is not None}
            assert sorted(sheet.values()) == list(range(1, len(sheet) + 1))
        assert {code for code, number in key.items() if number is None} == aloud
        assert set(key) == {one.code for one in day.problems}


def numbers(page: documents.Page) -> dict[str, int | None]:
    codes = {}
    for block in page.flat():
        if isinstance(block, Heading) and len(block.text) == 5 and block.text.isupper():
            codes[block.text] = block.number
    return codes


def test_no_sheet_for_children_names_level_strategy_or_answer(week: Week) -> None:
    titles = {one.title for one in week.ways}
    for day in week.days:
        for group in week.groups:
            page = week_pages.pages(week, Layout(), [day])[f"{day.id}-{group}"]
            data = documents.render_pages({"sheet": page}, ["docx"])["sheet.docx"]
            text = "\n".join(one for _, one in word_checks.paragraphs(data))
            assert "evel" not in text
            assert not any(title in text for title in titles)
            for problem in day.problems:
                assert problem.story.answer_sentence not in text


def test_the_note_home_draws_each_strategy_of_the_week(week: Week) -> None:
    page = week_pages.pages(week, Layout())["note-home"]
    alts = [one.drawing.alt for one in page.flat() if isinstance(one, Picture)]
    assert len(alts) == len(week.ways) == 4
    assert all(alt.startswith("Open number line: start at") for alt in alts)


def test_what_is_to_be_one_page_is_one_page(
    week: Week, tmp_path: Path, needs_program: Callable[[str], str]
) -> None:
    one_page = {
        name: page
        for name, page in week_pages.pages(week, Layout()).items()
        if name in ON_ONE_PAGE or name.endswith("-plan")
    }
    assert len(one_page) == 7
    pages = as_pdf(one_page, tmp_path, needs_program)
    assert {name: len(one) for name, one in pages.items()} == dict.fromkeys(one_page, 1)


def test_no_problem_of_a_sheet_is_torn_over_two_pages(
    week: Week, tmp_path: Path, needs_program: Callable[[str], str]
) -> None:
    path = tmp_path / "plan.yaml"
    levels = "groups: [level-1, level-2, level-3, level-4]"
    path.write_text(GOOD.replace("groups: [level-2, level-3, level-4]", levels), encoding="utf-8")
    four = make_week(read_plan(path))
    sheets = {
        name: page
        for name, page in week_pages.pages(four, Layout()).items()
        if name.partition("-level-")[1]
    }
    assert len(sheets) == 4 * 5
    for name, pages in as_pdf(sheets, tmp_path, needs_program).items():
        for text in pages:
            assert re.search(r"Problem \d+|Warm Up|Count (?:on|back|by)", text), (name, text)


def as_pdf(
    pages: dict[str, documents.Page], folder: Path, needs_program: Callable[[str], str]
) -> dict[str, list[str]]:
    """The text of each page of each document, as LibreOffice sets it."""
    files = []
    for name, data in documents.render_pages(pages, ["docx"]).items():
        files.append(folder / name)
        files[-1].write_bytes(data)
    subprocess.run(
        [needs_program("soffice"), f"-env:UserInstallation={(folder / 'profile').as_uri()}",
         "--headless", "--convert-to", "pdf", "--outdir", str(folder), *map(str, files)],
        check=True, capture_output=True, timeout=300,
    )  # fmt: skip
    return {
        name: [one.extract_text() for one in PdfReader(folder / f"{name}.pdf").pages]
        for name in pages
    }
