"""The list of what there is: the same as the command lists."""

import json
import re
from html import unescape
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from storybank.cli import main
from storybank.web import Home, create_app

KINDS = (
    "strategies", "situations", "vocabulary", "rules", "mistakes", "pages", "standards", "names",
)  # fmt: skip


@pytest.mark.parametrize("kind", KINDS)
def test_all_that_the_command_lists_stands_there(
    kind: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    app = create_app(Home(tmp_path, tmp_path / "our.bank"))
    page = TestClient(app, base_url="http://127.0.0.1:8420").get("/words")
    assert page.status_code == 200
    section = page.text.partition(f'<section id="{kind}">')[2].partition("</section>")[0]
    assert main(["list", kind, "--json"]) == 0
    listed = [one["id"] for one in json.loads(capsys.readouterr().out)]
    assert listed
    assert [unescape(one) for one in re.findall(r"<code>([^<]+)</code>", section)] == listed


def test_every_page_leads_there(tmp_path: Path) -> None:
    client = TestClient(
        create_app(Home(tmp_path, tmp_path / "our.bank")), base_url="http://127.0.0.1:8420"
    )
    for address in ("/", "/week", "/themes", "/count", "/explain", "/diagnose", "/words"):
        page = client.get(address)
        assert page.status_code == 200
        assert 'href="/words"' in page.text
        assert page.text.count("<h1") == 1
