"""Coverage on paper: pictures whose labels never touch, and documents that can be used."""

import io
import re
import subprocess
from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise
from pathlib import Path
from random import Random

import docx
import pypdf
import pytest
from documents import word_checks
from drawings.faults import faults, labels_of, too_weak
from lxml import etree
from openxml_audit import FileFormat, OpenXmlValidator
from PIL import ImageFont

from storybank import Request, documents, make_set
from storybank.coverage import coverage
from storybank.documents import Layout, _coverage
from storybank.documents._coverage import blocks, page
from storybank.documents._page import Heading, Page, Paragraph, Picture, Table
from storybank.drawings import (
    LARGE,
    NORMAL,
    Drawing,
    Frame,
    Line,
    Measures,
    coverage_grid,
    text_width,
    to_png,
    to_svg,
)
from storybank.model.coverage import Coverage

SIZES = {"normal": NORMAL, "large": LARGE}
LOOKS = {
    f"{paper}-{'large' if large else 'normal'}": Layout(paper=paper, large_print=large)
    for paper in ("letter", "a4")
    for large in (False, True)
}
NEWEST = (FileFormat.OFFICE_2019, FileFormat.OFFICE_2021, FileFormat.MICROSOFT_365)
SETS = {
    "no wishes": coverage(make_set(Request(count=40, seed=3)).problems),
    "any": coverage(make_set(Request(strategy=["any"], count=40, seed=3)).problems),
}
ANY = SETS["any"]
KINDS = ("Join", "Separate", "Put together", "Compare, more", "Compare, fewer")


def rows_of(found: Coverage) -> list[tuple[str, list[tuple[str, int]]]]:
    return [
        (kind, [(one.unknown, one.count) for one in found.cells if one.kind == kind])
        for kind in KINDS
    ]


def grids(measures: Measures) -> list[Drawing]:
    """Grids of our situations with counts of one to four digits, and of rows of other lengths."""
    luck = Random(11)
    made = []
    for most in (0, 1, 9, 40, 320, 2000):
        rows = [
            (kind, [(name, luck.choice((0, 1, luck.randint(0, most), most))) for name, _ in cells])
            for kind, cells in rows_of(ANY)
        ]
        made.append(coverage_grid.grid(rows, measures=measures))
        made.append(coverage_grid.grid([*rows, ("Other", [("equal-groups", most)])],
                                       measures=measures))  # fmt: skip
    return made


def charts(measures: Measures) -> list[Drawing]:
    names = ["count on", "friendly, then compensate", "W" * 60, "a-very-long-name-" * 3]
    counts = (0, 1, 7, 40, 320, 2000)
    return [
        coverage_grid.bars("Strategies", [(name, most) for name in names[:many]] + [("ten", 0)],
                           measures=measures)
        for many in (0, 1, 2, 3, 4)
        for most in counts
    ]  # fmt: skip


@pytest.mark.parametrize("size", SIZES)
def test_labels_never_touch_and_nothing_is_thin_or_pale(size: str) -> None:
    pictures = [*grids(SIZES[size]), *charts(SIZES[size])]
    assert len(pictures) == 42
    for drawing in pictures:
        assert faults(drawing) == [], drawing.alt
        assert too_weak(drawing) == []
        assert drawing.width == SIZES[size].width
        assert {one.size for one in labels_of(drawing)} <= set(SIZES[size].sizes)


@pytest.mark.parametrize("size", SIZES)
def test_our_own_names_are_never_cut(size: str) -> None:
    for drawing in grids(SIZES[size])[::2]:
        assert not [one.text for one in labels_of(drawing) if "..." in one.text]
    named = [(one.replace("-", " "), 2) for one in ANY.strategies]
    drawing = coverage_grid.bars("Strategies", named, measures=SIZES[size])
    assert [one.text for one in labels_of(drawing)][::2] == [name for name, _ in named]


@pytest.mark.parametrize("name", SETS)
def test_a_grid_shows_every_count_in_its_cell_with_a_bar_as_long(name: str) -> None:
    rows = rows_of(SETS[name])
    drawing = coverage_grid.grid(rows)
    cells = [one.box for one in drawing.items if isinstance(one, Frame)]
    counts = [pair for _, row in rows for pair in row]
    assert len(cells) == len(counts) == 15
    most = max(number for _, number in counts)
    full = max(line.x2 - line.x1 for line in bars_of(drawing))
    for box, (unknown, number) in zip(cells, counts, strict=True):
        inside = [one.text for one in labels_of(drawing)
                  if box.left < one.x < box.right and box.top < one.y < box.bottom]  # fmt: skip
        assert inside == [unknown, str(number)]
        bars = [one for one in bars_of(drawing)
                if box.left < one.x1 < box.right and box.top < one.y1 < box.bottom]  # fmt: skip
        assert [round((one.x2 - one.x1) / full, 6) for one in bars] == (
            [round(number / most, 6)] if number else []
        )
        # The longest bar fills its cell, up to the room that is left at its side.
        assert all(number < most or 0 < box.right - one.x2 <= 6 for one in bars)
    for kind in KINDS:
        first, comma, second = kind.partition(", ")
        texts = [one.text for one in labels_of(drawing)]
        assert first + comma.strip() in texts and (not second or second in texts)


def bars_of(drawing: Drawing) -> list[Line]:
    return [one for one in drawing.items if isinstance(one, Line) and one.width > 5]


def test_alt_texts_tell_all_figures() -> None:
    rows = rows_of(ANY)
    alt = coverage_grid.grid(rows).alt
    for kind, row in rows:
        assert f"{kind}: {', '.join(f'{name} {number}' for name, number in row)}" in alt
    alt = coverage_grid.bars("Strategies", [("count on", 12), ("doubles", 0)]).alt
    assert alt == "Strategies: count on 12, doubles 0."
    long = coverage_grid.bars("Strategies", [("W" * 60, 3)])
    assert "W" * 60 in long.alt and labels_of(long)[0].text.endswith("...")


def test_pictures_need_something_to_show() -> None:
    for rows in ([], [("Join", [])]):
        with pytest.raises(ValueError, match="needs a row"):
            coverage_grid.grid(rows)
    with pytest.raises(ValueError, match="at least one entry"):
        coverage_grid.bars("Strategies", [])


@pytest.mark.parametrize("size", SIZES)
def test_both_writers_take_the_pictures(size: str) -> None:
    for drawing in (grids(SIZES[size])[4], charts(SIZES[size])[-1]):
        root = etree.fromstring(to_svg(drawing).encode())
        assert root.get("aria-label") == drawing.alt
        assert to_png(drawing).startswith(b"\x89PNG")


def test_small_letters_get_room_enough(needs_program: Callable[[str], str]) -> None:
    """No letter is wider in DejaVu Sans, which stands in where Verdana is missing."""
    found = subprocess.run(
        [needs_program("fc-match"), "-f", "%{file}", "DejaVu Sans:style=Book"],
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    if Path(found.stdout).name != "DejaVuSans.ttf":
        pytest.skip("DejaVu Sans is not installed, so this was not checked")
    font = ImageFont.truetype(found.stdout, 1000)
    for letter in "abcdefghijklmnopqrstuvwxyz":
        assert text_width(letter, 1000) >= round(font.getlength(letter))


# The document.


@pytest.mark.parametrize("look", LOOKS)
@pytest.mark.parametrize("name", SETS)
def test_schemas_and_own_checks_find_nothing(name: str, look: str, tmp_path: Path) -> None:
    made = _coverage.page(SETS[name], LOOKS[look])
    data = documents.render_pages({"coverage": made}, ["docx"], LOOKS[look])["coverage.docx"]
    path = tmp_path / "coverage.docx"
    path.write_bytes(data)
    for version in NEWEST:
        assert [str(one) for one in OpenXmlValidator(version).validate(path).errors] == []
    assert word_checks.faults(data) == []
    opened = docx.Document(io.BytesIO(data))
    width, height = LOOKS[look].size
    section = opened.sections[0]
    assert (section.page_width.pt, section.page_height.pt) == pytest.approx((width, height), abs=1)
    assert [one.text for one in opened.paragraphs if one.style.name == "Title"] == [made.title]
    again = documents.render_pages({"coverage": made}, ["docx"], LOOKS[look])["coverage.docx"]
    assert again == data


def test_nothing_in_large_print_is_smaller_than_18_points() -> None:
    for found in SETS.values():
        flat = page(found, LOOKS["letter-large"]).flat()
        drawn = [one.drawing for one in flat if isinstance(one, Picture)]
        assert len(drawn) == 2
        assert {label.size for one in drawn for label in labels_of(one)} == {18.0}


@pytest.mark.parametrize("name", SETS)
def test_tables_hold_every_count(name: str) -> None:
    found = SETS[name]
    tables = {one.header[0]: one for one in page(found, Layout()).flat() if isinstance(one, Table)}
    assert list(tables) == [
        "Kind", "Grade", "Solved by", "Largest number", "Strategy", "Code", "Word",
    ]  # fmt: skip
    assert [list(row) for row in tables["Kind"].rows] == [
        [kind, *(f"{unknown}: {number}" for unknown, number in row)] for kind, row in rows_of(found)
    ]
    assert column(tables["Grade"], -1) == list(found.grades.values())
    assert column(tables["Solved by"], 1) == list(found.operations.values())
    assert column(tables["Largest number"], 1) == list(found.sizes.values())
    assert column(tables["Strategy"], 1) == list(found.strategies.values())
    assert column(tables["Code"], -1) == [one.count for one in found.standards]
    assert column(tables["Word"], 1) == [one.stories for one in found.keywords]
    for table in tables.values():
        if "Share" in table.header:
            at = table.header.index("Share")
            for row in table.rows:
                assert row[at] == f"{int(100 * int(row[1]) / found.problems + 0.5)}%"


def test_a_states_codes_have_no_text_of_ours() -> None:
    problems = make_set(Request(count=3, seed=3)).problems
    found = coverage([replace(one, standards=("XX.2.7",)) for one in problems[:2]] + [
        replace(problems[2], standards=())
    ])  # fmt: skip
    flat = list(page(found, Layout()).flat())
    (table,) = [one for one in flat if isinstance(one, Table) and one.header[0] == "Code"]
    assert table.header == ("Code", "Grade", "Problems")
    assert table.rows == (("XX.2.7", "\N{EM DASH}", "2"),)
    notes = [one.text for one in flat if isinstance(one, Paragraph)]
    assert "A problem may practice several. 1 problem with no standard named." in notes


def column(table: Table, at: int) -> list[int]:
    return [int(row[at]) for row in table.rows]


def test_each_situation_stands_once_among_its_grade() -> None:
    tables = [one for one in blocks(ANY, Layout()) if isinstance(one, Table)]
    told = dict(row[:2] for row in next(one for one in tables if one.header[0] == "Grade").rows)
    # CCSS-M Table 1: four by the end of kindergarten, seven more in grade 1, four in grade 2.
    words = {grade: re.findall(r"[a-z ]+(?=[,;]|$)", text) for grade, text in told.items()}
    found = {grade: len([one for one in said if one.strip() not in ("more", "fewer", "compare")])
             for grade, said in words.items()}  # fmt: skip
    assert found == {"kindergarten": 4, "grade 1": 7, "grade 2": 4}


def test_no_tables_stand_against_each_other() -> None:
    """Word makes one table of two that have nothing between them."""
    for found in SETS.values():
        flat = list(page(found, Layout()).flat())
        assert not [
            one for one, other in pairwise(flat)
            if isinstance(one, Table) and isinstance(other, Table)
        ]  # fmt: skip
        assert [one.level for one in flat if isinstance(one, Heading)] == [1, 1, 1, 2, 1, 1, 1]


def test_the_web_page_holds_the_same(tmp_path: Path) -> None:
    made: Page = page(ANY, Layout())
    data = documents.render_pages({"coverage": made}, ["html"])["coverage.html"]
    text = data.decode("utf-8")
    assert text.count("<svg") == 2 and text.count("<table") == 7
    assert "result: 3" in text and "<script" not in text


@pytest.mark.parametrize("look", LOOKS)
def test_tagged_pdf_has_headings_pictures_and_no_broken_header(
    look: str, tmp_path: Path, needs_program: Callable[[str], str]
) -> None:
    made = _coverage.page(ANY, LOOKS[look])
    data = documents.render_pages({"coverage": made}, ["docx"], LOOKS[look])["coverage.docx"]
    (tmp_path / "coverage.docx").write_bytes(data)
    subprocess.run(
        [needs_program("soffice"), f"-env:UserInstallation={(tmp_path / 'profile').as_uri()}",
         "--headless", "--convert-to", "pdf", "--outdir", str(tmp_path),
         str(tmp_path / "coverage.docx")],
        check=True, capture_output=True, timeout=300,
    )  # fmt: skip
    pdf = pypdf.PdfReader(tmp_path / "coverage.pdf")
    assert len(pdf.pages) <= (7 if "large" in look else 4)
    text = "\n".join(one.extract_text() for one in pdf.pages)
    for word in ("Problems", "Grade", "Stories", "Share", "kindergarten", "altogether"):
        assert word in text, word
    # A word too long for its column is broken inside, its last letters on a line of their own.
    assert not re.search(r"^(s|e|es|ten|er)$", text, re.MULTILINE)
