"""What somebody may try at the pages themselves: scripts, paths and formulas where texts go.

The sources of the kinds of attack: OWASP Cheat Sheet Series (cross-site scripting, path traversal,
file upload, CSV injection), from memory.
"""

import csv
import io
import zipfile
from pathlib import Path
from xml.etree import ElementTree

import pytest
from starlette.testclient import TestClient

from storybank.web import Home, create_app
from storybank.web._guard import access
from storybank.web._layers import served

ORIGIN = {"Origin": "http://127.0.0.1:8420"}
SCRIPT = "<script>alert(1)</script>"
NAMES = (
    SCRIPT,
    '"><img src=x onerror=alert(1)>',
    "</textarea><script>alert(1)</script>",
    "' onfocus='alert(1)",
    "{{ 7*7 }}{% raw %}",
    '=HYPERLINK("http://example.invalid")',
    "&lt;b&gt;",
    "\N{RIGHT-TO-LEFT OVERRIDE}nosirrah",
)
_PATHS = (
    "../student", "..\\student", "/etc/passwd", "student/../../key", "student%00.docx", "CON", "",
    "docx", "set.html", "student.docx",
)  # fmt: skip


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> TestClient:
    """The pages behind all layers."""
    folder = tmp_path_factory.mktemp("home")
    app = create_app(Home(folder, folder / "our.bank"))
    return TestClient(
        served(app, access(8420, "127.0.0.1")), base_url="http://127.0.0.1:8420", headers=ORIGIN
    )


def plain(text: str) -> bool:
    """Whether a page holds nothing that a browser would take for a part of its own."""
    return not any(
        bad in text for bad in ("<script>alert", "<img src=x", "' onfocus", ' onfocus="alert', "49")
    )


@pytest.mark.parametrize("name", NAMES)
def test_scripts_in_names_stay_text_everywhere(page: TestClient, name: str) -> None:
    seed = "seed=1&count=4&within=20&strategy=any"
    typed = {"names": f"{name}\nBea\nCal"}
    for address in (f"/set?{seed}", f"/board?{seed}&story=1&step=1", f"/?{seed}"):
        answer = page.post(address, data=typed)
        assert answer.status_code == 200
        assert "<script>alert" not in answer.text
        assert "<img src=x" not in answer.text
        assert "onfocus='alert" not in answer.text
        assert "49{%" not in answer.text
    printed = page.post(f"/take?{seed}", data={**typed, "what": "html"})
    assert "<script" not in printed.text
    assert "sandbox" in printed.headers["content-security-policy"]
    table = page.post(f"/take?{seed}", data={**typed, "what": "csv"}).text
    cells = [cell for row in csv.reader(io.StringIO(table)) for cell in row]
    assert not any(cell.startswith(("=", "+", "-", "@")) for cell in cells)
    word = page.post(f"/take?{seed}", data={**typed, "what": "student"})
    with zipfile.ZipFile(io.BytesIO(word.content)) as archive:
        ElementTree.fromstring(archive.read("word/document.xml"))


@pytest.mark.parametrize("text", [SCRIPT, "<b>5</b> & 'six' \"seven\"", "{{ 7*7 }}", "\0\1\2 5"])
def test_scripts_in_a_teachers_words_stay_text(page: TestClient, text: str) -> None:
    typed = {"words-1": f"{text} How many?", "answer-1": f"{text} 9."}
    address = "seed=1&count=3&change=words-1-1"
    answer = page.post(f"/set?{address}", data=typed)
    assert answer.status_code == 200
    assert "<script>alert" not in answer.text
    assert "<b>5</b>" not in answer.text
    assert "49 How many" not in answer.text
    word = page.post(f"/take?{address}", data={**typed, "what": "key"})
    with zipfile.ZipFile(io.BytesIO(word.content)) as archive:
        ElementTree.fromstring(archive.read("word/document.xml"))
    kept = page.post(f"/bank/keep?{address}", data=typed)
    assert kept.status_code == 400
    assert "<script>alert" not in kept.text


@pytest.mark.parametrize("what", _PATHS)
def test_what_is_taken_is_no_path(page: TestClient, what: str) -> None:
    answer = page.post("/take?seed=1&count=2", data={"what": what})
    if what == "":
        assert answer.headers["content-disposition"] == 'attachment; filename="storybank-set.zip"'
    else:
        assert answer.status_code == 400
        assert "root:" not in answer.text


@pytest.mark.parametrize(
    "path",
    [
        "/static/../__init__.py",
        "/static/..%2f__init__.py",
        "/static/%2e%2e/%2e%2e/version.py",
        "/static//etc/passwd",
        "/static/..%5c..%5cversion.py",
        "/static/page.css%00.py",
        "/templates/base.html",
    ],
)
def test_static_files_are_ours_alone(page: TestClient, path: str) -> None:
    answer = page.get(path)
    assert answer.status_code in (400, 404)
    assert "VERSION" not in answer.text


@pytest.mark.parametrize(
    "name", ["../../names.txt", "C:\\x\\names.txt", "a\0b.txt", f"{SCRIPT}.txt"]
)
def test_names_of_uploaded_files_are_not_used(page: TestClient, name: str) -> None:
    answer = page.post(
        "/set?seed=1&count=3&within=20&strategy=any",
        files={"names-file": (name, b"Ana\nBen\nCal\n", "text/plain")},
    )
    assert answer.status_code == 200
    assert "<script>alert" not in answer.text
    assert "Ana" in answer.text


@pytest.mark.parametrize("data", [b"\xff\xfe\0\0", bytes(5000), b"%PDF-1.7 no names", b"PK\3\4"])
def test_a_file_that_is_no_list_of_names_is_told(page: TestClient, data: bytes) -> None:
    answer = page.post("/set?seed=1&count=2", files={"names-file": ("x.txt", data, "text/plain")})
    assert answer.status_code in (200, 400)
    assert "Traceback" not in answer.text


@pytest.mark.parametrize("data", [b"PK\3\4 broken", b"<?xml?>", bytes(100), b"\xd0\xcf\x11\xe0"])
def test_a_file_that_is_no_word_file_is_told(page: TestClient, data: bytes) -> None:
    answer = page.post(
        "/take?seed=1&count=2",
        data={"what": "student"},
        files={"template": ("school.docx", data, "application/octet-stream")},
    )
    assert answer.status_code == 400
    assert "school.docx" in answer.text


def test_nothing_was_written_by_all_of_this(page: TestClient, tmp_path: Path) -> None:
    """Own folders hold only what was kept on purpose: here nothing."""
    folder = tmp_path / "home"
    client = TestClient(
        served(create_app(Home(folder, folder / "our.bank")), access(8420, "127.0.0.1")),
        base_url="http://127.0.0.1:8420",
        headers=ORIGIN,
    )
    for name in NAMES:
        client.post("/set?seed=1&count=2", data={"names": name})
    client.post("/take?seed=1&count=2", data={"what": "all"})
    assert not folder.exists()
