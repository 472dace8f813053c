"""HTML, CSV and JSON: complete, in order, harmless, described by the schema."""

import copy
import csv
import io
import json
from dataclasses import replace
from typing import Any

import jsonschema
import pytest
from documents import samples
from lxml import etree

from storybank import documents
from storybank.documents import Layout, kinds
from storybank.documents._page import Group, Heading
from storybank.documents.csv import COLUMNS, harmless
from storybank.documents.json import SCHEMA
from storybank.errors import RequestError
from storybank.model import SET_FORMAT


def render(format_id: str) -> bytes:
    (data,) = documents.render(samples.sample_set(), format_id).values()
    return data


def test_formats_are_found_by_file_with_title_and_files() -> None:
    found = {name: one.files(Layout().pages) for name, one in documents.formats().items()}
    assert found == {
        "csv": ("set.csv",),
        "docx": ("student.docx", "key.docx"),
        "html": ("set.html",),
        "json": ("set.json",),
    }
    assert all(one.title for one in documents.formats().values())
    with pytest.raises(RequestError, match=r'no format "dox"\. Did you mean "docx"\?'):
        documents.render(samples.sample_set(), "dox")


def test_html_is_one_page_without_scripts_or_outside_parts() -> None:
    text = render("html").decode()
    page = etree.HTML(text)
    assert page.get("lang") == "en-US"
    tags = {one.tag for one in page.iter() if isinstance(one.tag, str)}
    assert not tags & {"script", "link", "img", "iframe", "object"}
    assert "http://" not in text.replace("http://www.w3.org/2000/svg", "")
    assert "https://" not in text
    assert all(one.get("aria-label") for one in page.iter("svg"))
    # For children a line, boxes and writing lines (none where the whole answer is printed), a bar
    # at level 1, and lines for all ways; in the key the lines of jumps, the bars, and one of tens
    # and ones.
    printed = sum("answer-frame" in one.story.support for one in samples.PROBLEMS)
    assert len(list(page.iter("svg"))) == 3 * 11 - printed + 1 + 1 + (7 + 5 + 1)
    codes = [one.code for one in samples.PROBLEMS]
    headings = ["".join(one.itertext()) for one in page.iter("h2", "h3")]
    named = [one.rpartition(" ")[2] for one in headings if one.startswith("Problem ")]
    assert named == codes * 2


def test_html_begins_each_printed_page_of_students_with_the_line_for_the_name() -> None:
    page = etree.HTML(render("html").decode())
    (student,) = page.iter("main")
    lines = [one for one in student.iter("p") if (one.text or "").startswith("Name ___")]
    repeated = lines[1:]
    assert all(one.get("class") == "top again new-page" for one in repeated)
    followed = ["".join(one.getnext().find("h2").itertext()) for one in repeated]
    breaks = [
        block.blocks[0].number
        for block in kinds.page("student", samples.sample_set(), Layout()).blocks
        if isinstance(block, Group)
        and isinstance(block.blocks[0], Heading)
        and block.blocks[0].new_page
    ]
    assert len(breaks) > 3
    assert [int(one.split()[1]) for one in followed] == breaks


def test_html_drawings_have_the_size_of_print() -> None:
    page = etree.HTML(render("html").decode())
    assert {one.get("width") for one in page.iter("svg")} == {"460pt", "285.66pt"}


def test_html_escapes_outside_text() -> None:
    first = samples.PROBLEMS[0]
    story = replace(first.story, text='<script>alert("x")</script> & more')
    evil = replace(samples.sample_set(), problems=(replace(first, story=story),))
    text = documents.render(evil, "html")["set.html"].decode()
    assert "<script" not in text
    assert "&lt;script&gt;alert(&quot;x&quot;)&lt;/script&gt; &amp; more" in text


def test_html_sets_a_right_to_left_name_apart() -> None:
    assert render("html").decode().count(f'<bdi dir="rtl">{samples.HEBREW_NAME}</bdi> has 67') == 2


def test_csv_has_one_row_a_problem_and_a_mark_for_excel() -> None:
    data = render("csv")
    assert data.startswith(b"\xef\xbb\xbf")
    rows = list(csv.DictReader(io.StringIO(data.decode("utf-8-sig"), newline="")))
    assert tuple(rows[0]) == COLUMNS
    assert [row["code"] for row in rows] == [one.code for one in samples.PROBLEMS]
    assert rows[0]["steps"] == "46 + 40 = 86, 86 - 2 = 84"
    assert rows[2]["text"] == samples.PROBLEMS[2].text
    assert rows[4]["answer"].startswith("0 and 12; 1 and 11")
    assert None not in rows[0] and None not in rows[0].values()


@pytest.mark.parametrize("cell", ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1"])
def test_csv_makes_a_formula_harmless(cell: str) -> None:
    assert harmless(cell) == f"'{cell}"
    first = samples.PROBLEMS[0]
    story = replace(first.story, text=cell, people=(cell,))
    evil = replace(samples.sample_set(), problems=(replace(first, story=story),))
    data = documents.render(evil, "csv")["set.csv"].decode("utf-8-sig")
    row = next(csv.DictReader(io.StringIO(data, newline="")))
    assert row["text"] == row["people"] == f"'{cell}"
    assert harmless("7 - 3") == "7 - 3"


def schema() -> dict[str, Any]:
    loaded: dict[str, Any] = json.loads(SCHEMA.read_text("utf-8"))
    return loaded


def test_json_keeps_the_published_schema() -> None:
    jsonschema.Draft202012Validator.check_schema(schema())
    loaded = json.loads(render("json"))
    assert loaded["format"] == SET_FORMAT
    jsonschema.Draft202012Validator(schema()).validate(loaded)
    assert [one["code"] for one in loaded["problems"]] == [one.code for one in samples.PROBLEMS]


def test_schema_names_every_key_that_a_problem_has() -> None:
    problem = samples.PROBLEMS[0].to_json()
    added_later = {"support"}  # Sets of earlier versions have none and still follow the schema.
    assert {*schema()["$defs"]["problem"]["required"], *added_later} == set(problem)


SPOILED = [
    (("format",), "storybank-set/2"),
    (("problems", 0, "answer"), "84"),
    (("problems", 0, "strategy"), None),
    (("problems", 0, "solution", "jumps"), []),
    (("problems", 0, "solution", "answer_is"), "last line"),
    (("problems", 0, "numbers"), {"start": 46, "change": 38}),
    (("problems", 0, "related_facts", 0), "46 + 38"),
    (("problems", 4, "strategy"), "count-on"),
    (("problems", 4, "solution", "lines"), []),
    (("problems", 5, "solution", "start"), 34),
    (("request", "count"), 0),
]


@pytest.mark.parametrize(("path", "value"), SPOILED, ids=[str(path) for path, _ in SPOILED])
def test_schema_refuses_a_spoiled_set(path: tuple[Any, ...], value: Any) -> None:
    loaded = copy.deepcopy(json.loads(render("json")))
    place = loaded
    for key in path[:-1]:
        place = place[key]
    place[path[-1]] = value
    validator = jsonschema.Draft202012Validator(schema())
    assert not validator.is_valid(loaded)


@pytest.mark.parametrize("format_id", ["docx", "html"])
def test_pages_of_something_else_are_files_by_their_names(format_id: str) -> None:
    pages = {name: kinds.page(name, samples.sample_set(), Layout()) for name in ("key", "cards")}
    made = documents.render_pages(pages, [format_id])
    assert list(made) == [f"key.{format_id}", f"cards.{format_id}"]
    assert all(made.values()) and made[f"key.{format_id}"] != made[f"cards.{format_id}"]


def test_a_table_holds_no_pages() -> None:
    with pytest.raises(RequestError, match=r'format of pages "csv".*Choose from: docx, html\.'):
        documents.render_pages({}, ["csv"])
