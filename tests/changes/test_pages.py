"""Pages of changed stories: sound Word files, whole web pages, and a table with a column more."""

import csv
import io
import re

import pytest
from documents import word_checks
from lxml import etree
from openxml_audit import FileFormat, OpenXmlValidator

from storybank import Request, documents, make_set
from storybank.documents import Layout, kinds
from storybank.documents._changes import told
from storybank.documents._page import Heading
from storybank.documents.csv import CHANGES, COLUMNS
from storybank.model import ProblemSet

WISHES = {
    "number_sets": {"number_sets": (10, 20, 100)},
    "extra": {"extra_number": True},
    "missing": {"missing": True},
}
LEVELS = ("level-1", "level-4")


def made(change: str, level: str, count: int = 4) -> ProblemSet:
    return make_set(
        Request(vocabulary=level, strategy=["any"], count=count, seed=14, **WISHES[change])  # type: ignore[arg-type]
    )


@pytest.mark.parametrize("large", [False, True])
@pytest.mark.parametrize("level", LEVELS)
@pytest.mark.parametrize("change", WISHES)
def test_word_files_are_sound(change: str, level: str, large: bool, tmp_path: object) -> None:
    layout = Layout(pages=tuple(kinds.ids()), large_print=large)
    for name, data in documents.render(made(change, level), "docx", layout).items():
        path = tmp_path / name  # type: ignore[operator]
        path.write_bytes(data)
        assert [
            str(e) for e in OpenXmlValidator(FileFormat.OFFICE_2021).validate(path).errors
        ] == []
        assert word_checks.faults(data) == [], name


@pytest.mark.parametrize("change", WISHES)
def test_every_problem_has_its_heading_in_order_on_the_web_page(change: str) -> None:
    chosen = made(change, "level-3", 6)
    (data,) = documents.render(chosen, "html", Layout(pages=("student",))).values()
    page = etree.HTML(data.decode())
    headings = ["".join(one.itertext()) for one in page.iter("h2")]
    assert [one.rpartition(" ")[2] for one in headings] == [one.code for one in chosen.problems]
    for problem in chosen.problems:
        paragraphs = ["".join(one.itertext()) for one in page.iter("p")]
        assert told(problem, problem.text).split("\n")[0] in paragraphs


@pytest.mark.parametrize("change", WISHES)
def test_the_table_has_a_column_more_where_there_is_something_to_tell(change: str) -> None:
    chosen = made(change, "level-4")
    (data,) = documents.render(chosen, "csv").values()
    rows = list(csv.DictReader(io.StringIO(data.decode("utf-8-sig"), newline="")))
    assert tuple(rows[0]) == (*COLUMNS, change)
    for row, problem in zip(rows, chosen.problems, strict=True):
        if change == "number_sets":
            assert row[change].count("to ") == 3
        elif change == "extra":
            assert row[change] == problem.extra[0].told
        else:
            assert problem.missing is not None
            assert row[change].endswith(problem.missing.ask)
    plain = make_set(Request(count=1, seed=1))
    (data,) = documents.render(plain, "csv").values()
    assert tuple(next(csv.reader(io.StringIO(data.decode("utf-8-sig"))))) == COLUMNS
    assert set(WISHES) == set(CHANGES)


def test_numbers_in_brackets_are_those_of_the_sets_in_the_place_of_the_own_ones() -> None:
    for level in LEVELS:
        for problem in made("number_sets", level, 8).problems:
            shown = told(problem, problem.text)
            brackets = [
                list(map(int, re.findall(r"\d+", one))) for one in re.findall(r"\[[^]]*\]", shown)
            ]
            assert brackets == [
                list(numbers)
                for numbers in zip(*(one.given for one in problem.number_sets[::-1]), strict=True)
            ]
            assert re.sub(r"\[[^]]*?(\d+)\]", r"\1", shown) == problem.text
            (question, *_) = reversed(problem.story.sentences)
            assert told(problem, question) == question


def test_a_bar_for_children_has_no_number_before_it_is_chosen_or_asked_for() -> None:
    for change in ("number_sets", "missing"):
        page = kinds.page("student", made(change, "level-1", 8), Layout())
        for block in page.flat():
            drawing = getattr(block, "drawing", None)
            if drawing is not None and not isinstance(block, Heading):
                assert not re.search(r"\d", drawing.alt), drawing.alt
