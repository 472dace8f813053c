"""Counting warm-ups on the page: those of the command, shown, taken, and refused kindly."""

import io
import zipfile
from pathlib import Path
from urllib.parse import parse_qs, urlsplit

import pytest
from starlette.testclient import TestClient

from storybank.cli import main
from storybank.web import Home, create_app


@pytest.fixture
def client(tmp_path: Path) -> TestClient:
    return TestClient(
        create_app(Home(tmp_path, tmp_path / "our.bank")), base_url="http://127.0.0.1:8420"
    )


def test_the_form_stands_alone_where_nothing_is_asked_for(client: TestClient) -> None:
    page = client.get("/count")
    assert page.status_code == 200
    assert "<svg" not in page.text
    assert "Show warm-ups" in page.text


def test_luck_is_drawn_and_stands_in_the_address(client: TestClient) -> None:
    page = client.get("/count?by=10&from=")
    assert parse_qs(urlsplit(str(page.url)).query)["seed"][0].isdigit()
    assert "3 warm-ups" in page.text


def test_what_to_say_and_the_strips_are_shown(client: TestClient) -> None:
    page = client.get("/count?by=10&from=37&seed=3")
    assert "1 warm-up" in page.text
    assert "1. Count by tens" in page.text
    assert "After 97 comes 107." in page.text
    assert page.text.count("<svg") == 5  # Two for the teacher; three for children, one to write on.
    assert 'value="37"' in page.text
    assert 'value="10" checked' in page.text


@pytest.mark.parametrize(
    ("query", "options"),
    [
        ("by=10&from=37&seed=3", "--by 10 --from 37 --seed 3"),
        ("by=5&by=10&from=37&count=4&seed=1", "--by 5 10 --from 37 --count 4 --seed 1"),
        ("by=1&back=yes&steps=6&within=120&count=5&seed=1",
         "--by 1 --back --steps 6 --within 120 --count 5 --seed 1"),
        ("seed=7", "--seed 7"),
    ],
)  # fmt: skip
def test_the_files_are_those_of_the_command(
    query: str, options: str, client: TestClient, tmp_path: Path
) -> None:
    answer = client.post(f"/count/take?{query}", data={"what": "all"})
    with zipfile.ZipFile(io.BytesIO(answer.content)) as archive:
        taken = {name: archive.read(name) for name in archive.namelist()}
    wish = [*options.split(), "--format", "docx,html", "--out", str(tmp_path / "out")]
    assert main(["count", *wish]) == 0
    assert taken == {path.name: path.read_bytes() for path in (tmp_path / "out").iterdir()}


def test_one_file_is_taken_in_the_looks_of_the_form(client: TestClient) -> None:
    looks = {"what": "count.docx", "paper": "a4", "large-print": "yes"}
    answer = client.post("/count/take?by=10&seed=1", data=looks)
    assert 'filename="count.docx"' in answer.headers["content-disposition"]
    with zipfile.ZipFile(io.BytesIO(answer.content)) as archive:
        assert 'w:w="11906"' in archive.read("word/document.xml").decode()
    page = client.post("/count/take?by=10&seed=1", data={"what": "count-key.html"})
    assert page.headers["content-type"].startswith("text/html")
    assert "sandbox" in page.headers["content-security-policy"]


@pytest.mark.parametrize(
    ("query", "said"),
    [
        ("by=2&seed=1", "Counting by 2 was asked for"),
        ("by=ten&seed=1", "is no whole number"),
        ("from=37&seed=1", "Choose what to count by"),
        ("by=10&from=37&within=20&seed=1", "from 0 to 20"),
        ("by=10&from=1200&seed=1", "from 0 to 1000"),
        ("by=10&steps=3&seed=1", "A count of 3 numbers"),
        ("within=5000&seed=1", "from 10 to 1000"),
        ("count=99&seed=1", "99 warm-ups"),
        ("seed=99999999999999999999", "is no whole number"),
        ("by=10&from=%3Cb%3E&seed=1", "&lt;b&gt;"),
    ],
)
def test_a_wish_that_cannot_be_met_is_explained(query: str, said: str, client: TestClient) -> None:
    page = client.get(f"/count?{query}")
    assert page.status_code == 400
    assert said in page.text
    assert "--by" not in page.text
    assert client.post(f"/count/take?{query}", data={"what": "all"}).status_code == 400


def test_no_other_file_can_be_taken(client: TestClient) -> None:
    answer = client.post("/count/take?by=10&seed=1", data={"what": "../count.docx"})
    assert answer.status_code == 400
    assert "There is no file to take" in answer.text
