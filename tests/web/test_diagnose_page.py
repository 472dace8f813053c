"""Answers looked into on the page: what the command finds, and nothing of it kept or addressed."""

import html
import io
import re
import tempfile
import zipfile
from pathlib import Path

import pytest
from diagnosis import answers
from starlette.testclient import TestClient
from web.filled import filled

from storybank import diagnosis
from storybank.cli import main
from storybank.diagnosis import read_set
from storybank.web import Home, create_app

A_SET = "a set"


@pytest.fixture
def client(tmp_path: Path) -> TestClient:
    return TestClient(
        create_app(Home(tmp_path / "home", tmp_path / "our.bank")),
        base_url="http://127.0.0.1:8420",
    )


@pytest.fixture
def table(tmp_path: Path) -> str:
    answered = read_set(answers.written(tmp_path, answers.set_text()))
    items = answered.items
    rows = [
        answers.row(items, "Wanda", answers.made(items, "ten-kept", 5)),
        answers.row(items, "Ben"),
        answers.row(items, "Fay", answers.made(items, "last-jump-left-out", 6)),
    ]
    return answers.table(answered, rows)


def words(text: str) -> str:
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", text)).split())


def sent(table: str) -> dict[str, tuple[str, bytes]]:
    return {
        "set-file": ("s.json", answers.set_text().encode()),
        "answers-file": ("../a.csv", table.encode()),
    }


def test_what_the_answers_agree_with_is_shown(
    client: TestClient, table: str, tmp_path: Path
) -> None:
    page = client.post("/diagnose", data={"do": "look"}, files=sent(table))
    assert page.status_code == 200
    file = answers.written(tmp_path, table, "answers.csv")
    found = diagnosis.diagnose(tmp_path / "set.json", file)
    assert len(found.rows) > 1
    said = words(page.text)
    for row in found.rows:
        assert f"{' or '.join(row.titles)} " in said
        assert f" {row.chances} {row.hits} " in said
    for child in found.children:
        assert f"{child.name} {child.right} of {child.answered} answers right." in said
        for wrong in child.wrong:
            assert f"wrote {wrong.given}, not {wrong.answer}" in said


def test_stories_to_give_next_are_a_link_to_the_form(client: TestClient, table: str) -> None:
    page = client.post("/diagnose", data={"do": "look"}, files=sent(table))
    links = re.findall(r'href="(/\?[^"]+)">Choose stories to give next', page.text)
    assert links
    assert "storybank make" not in page.text.partition('id="found"')[2]
    form = client.get(html.unescape(links[0]))
    assert form.status_code == 200
    wishes = filled(form.text, "/choose")
    assert wishes["situation"]
    assert wishes["strategy"]
    made = client.post("/choose", data=wishes)
    assert made.status_code == 200


def test_answers_may_be_pasted_from_a_spreadsheet(client: TestClient, table: str) -> None:
    pasted = table.replace(",", "\t")
    data = {"do": "look", "set-text": answers.set_text(), "answers-text": pasted}
    page = client.post("/diagnose", data=data)
    assert page.status_code == 200
    assert "Wanda" in page.text.partition('id="found"')[2]


def test_it_can_be_taken_from_what_the_page_holds(client: TestClient, table: str) -> None:
    page = client.post("/diagnose", data={"do": "look"}, files=sent(table))
    held = filled(page.text, "/diagnose/take")
    word = client.post("/diagnose/take", data={**held, "what": "docx"})
    with zipfile.ZipFile(io.BytesIO(word.content)) as archive:
        assert "Wanda" in archive.read("word/document.xml").decode()
    shown = client.post("/diagnose/take", data={**held, "what": "html"})
    assert "sandbox" in shown.headers["content-security-policy"]
    assert "Wanda" in shown.text


def test_nothing_is_stored_and_nothing_stands_in_an_address(
    client: TestClient, table: str, tmp_path: Path
) -> None:
    page = client.post("/diagnose", data={"do": "look"}, files=sent(table))
    assert not re.search(r'(?:href|action)="[^"]*Wanda', page.text)
    assert not (tmp_path / "home").exists()
    assert not (tmp_path / "our.bank").exists()
    assert page.url.query == b""


def test_the_table_to_fill_in_is_that_of_the_command(client: TestClient, tmp_path: Path) -> None:
    answer = client.post(
        "/diagnose/form", files={"set-file": ("s.json", answers.set_text().encode())}
    )
    assert answer.headers["content-type"].startswith("text/csv")
    file = answers.written(tmp_path, answers.set_text())
    assert main(["diagnose", str(file), "--form", "--out", str(tmp_path / "out")]) == 0
    assert answer.content == (tmp_path / "out" / "answers.csv").read_bytes()


def test_a_set_of_the_page_need_not_be_sent(client: TestClient) -> None:
    query = "strategy=tens-then-ones&count=6&seed=5&diagnose=yes"
    names = "\n".join(f"Wanda{letter}" for letter in "abcdefgh")
    assert f'href="/diagnose?{query}"' in html.unescape(client.get(f"/set?{query}").text)
    page = client.post(f"/diagnose?{query}", data={"names": names})
    assert page.status_code == 200
    assert "Tens, then ones" in page.text
    assert 'name="set-file"' not in page.text
    form = client.post(f"/diagnose/form?{query}", data={"names": names}).content
    codes = form.decode("utf-8-sig").strip().split(",")[1:]
    assert len(codes) == 6
    filled_in = f"Child,{','.join(codes)}\r\nZoe,{','.join('1' * 6)}\r\n"
    found = client.post(
        f"/diagnose?{query}", data={"names": names, "do": "look", "answers-text": filled_in}
    )
    assert "Zoe" in found.text.partition('id="found"')[2]
    assert not re.search(r'(?:href|action)="[^"]*(?:Wanda|Zoe)', found.text)


@pytest.mark.parametrize(
    ("problems", "told", "said"),
    [
        ("", "", "No set was given"),
        (A_SET, "", "No answers were given"),
        ("{}", "Child,A\nx,1\n", '"storybank-set/1" is wanted'),
        ("[" * 100_000, "Child,A\nx,1\n", "no JSON text"),
        ('{"format": "storybank-set/1", "problems": []}', "x", "1 to"),
        (A_SET, "Child,ZZZZZ\nx,1\n", "no code of the set"),
        (A_SET, "\0\1\2", "table of answers"),
        (A_SET, 'Child,"A\n', "table of answers"),
    ],
    ids=[
        "nothing", "no answers", "another JSON", "nested", "no problems", "other codes", "no text",
        "an open quote",
    ],
)  # fmt: skip
def test_what_cannot_be_read_is_explained(
    problems: str, told: str, said: str, client: TestClient
) -> None:
    text = answers.set_text() if problems == A_SET else problems
    data = {"do": "look", "set-text": text, "answers-text": told}
    page = client.post("/diagnose", data=data)
    assert page.status_code == 400
    assert said in words(page.text)
    assert tempfile.gettempdir() not in page.text


def test_a_workbook_in_place_of_a_table_is_named(client: TestClient) -> None:
    files = sent("") | {"answers-file": ("a.csv", b"PK\x03\x04" + b"\0" * 99)}
    page = client.post("/diagnose", data={"do": "look"}, files=files)
    assert page.status_code == 400
    assert "an Excel workbook" in words(page.text)
