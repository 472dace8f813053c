"""The coverage of a set on the page: the counts of the command, of the set as it was changed."""

import html
import json
import re
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from storybank import coverage
from storybank.cli import main
from storybank.settings import read as read_settings
from storybank.web import Home, create_app

QUERY = "theme=winter-days&strategy=any&count=8&seed=3"


@pytest.fixture
def client(tmp_path: Path) -> TestClient:
    return TestClient(
        create_app(Home(tmp_path, tmp_path / "our.bank")), base_url="http://127.0.0.1:8420"
    )


def words(text: str) -> list[str]:
    """The words of a page or of a table on the terminal."""
    plain = html.unescape(re.sub(r"<[^>]+>", " ", text)).replace("\N{NO-BREAK SPACE}", " ")
    return plain.split()


def rows(page: str) -> list[list[str]]:
    """The rows of all tables of a page, each as its words."""
    return [words(row) for row in re.findall(r"<tr>(.*?)</tr>", page)]


def test_the_counts_are_those_of_the_command(
    client: TestClient, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    page = client.get(f"/set/coverage?{QUERY}")
    assert page.status_code == 200
    taken = client.post(f"/take?{QUERY}", data={"what": "json"})
    file = tmp_path / "set.json"
    file.write_bytes(taken.content)
    assert main(["coverage", str(file)]) == 0
    told = words(capsys.readouterr().out)
    found = rows(page.text)
    assert len(found) > 30
    for row in found:
        joined = " ".join(row)
        if len(row) < 8:  # Longer cells stand in several lines on a terminal.
            assert joined in " ".join(told)
    counted = coverage.count(coverage.read_sets([file]))
    cells = {(one.kind, one.unknown): one.count for one in counted.cells}
    assert sum(cells.values()) == 8
    for (kind, unknown), count in cells.items():
        row = next(one for one in found if " ".join(one).startswith(f"{kind} "))
        assert f"{unknown}: {count}" in " ".join(row)


def test_it_is_the_set_as_it_was_changed(client: TestClient) -> None:
    page = client.get(f"/set/coverage?{QUERY}&change=remove-1&change=remove-1")
    assert "6 story problems." in page.text
    assert f"/set?{QUERY.replace('&seed=3', '')}" in html.unescape(page.text).replace("&seed=3", "")


def test_the_set_leads_to_it_and_it_leads_back(client: TestClient) -> None:
    page = client.get(f"/set?{QUERY}").text
    link = re.search(r'href="(/set/coverage\?[^"]+)"', page)
    assert link
    back = client.get(html.unescape(link[1])).text
    assert re.search(r'href="/set\?[^"]+"', back)


def test_names_go_on_in_the_body(client: TestClient) -> None:
    names = "\n".join(f"Wanda{letter}" for letter in "abcdefgh")
    page = client.post(f"/set/coverage?{QUERY}", data={"names": names})
    assert page.status_code == 200
    assert "Wandaa" in page.text
    assert not re.search(r'(?:href|action)="[^"]*Wanda', page.text)
    assert re.search(r'<button class="action" form="open" formaction="/set\?', page.text)


@pytest.mark.parametrize(("what", "kind"), [("docx", "wordprocessingml"), ("html", "text/html")])
def test_it_can_be_taken(what: str, kind: str, client: TestClient) -> None:
    answer = client.post(f"/set/coverage/take?{QUERY}", data={"what": what})
    assert answer.status_code == 200
    assert kind in answer.headers["content-type"]
    assert len(answer.content) > 5000


def test_the_codes_of_a_state_stand_there(tmp_path: Path) -> None:
    (tmp_path / "state.yaml").write_text(
        "- {code: XX.2.7, grade: 2, situations: [join, separate], within: [1, 1000]}\n"
        "- {code: XX.2.9, grade: 2, situations: [compare], within: [900, 1000]}\n",
        encoding="utf-8",
    )
    file = tmp_path / "storybank.yaml"
    file.write_text("standards: state.yaml\n", encoding="utf-8")
    home = Home(tmp_path, tmp_path / "our.bank", read_settings(file))
    client = TestClient(create_app(home), base_url="http://127.0.0.1:8420")
    page = client.get(f"/set/coverage?{QUERY}")
    counts = {row[0]: row[-1] for row in rows(page.text) if row[0].startswith("XX")}
    told = json.loads(client.post(f"/take?{QUERY}", data={"what": "json"}).text)["problems"]
    assert counts["XX.2.7"] == str(sum("XX.2.7" in one["standards"] for one in told))
    assert counts["XX.2.9"] == "0"


def test_a_set_that_cannot_be_made_is_explained(client: TestClient) -> None:
    page = client.get("/set/coverage?within=4&seed=1")
    assert page.status_code == 400
    assert "within" in page.text
