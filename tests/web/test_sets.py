"""The page of a set: what it says of its changes, of another level, and of where it goes on."""

import html
import re
from pathlib import Path

import pytest
from starlette.testclient import TestClient

from storybank import Request, make_set
from storybank.web import Home, create_app
from storybank.web._cards import AT_ONCE, command
from storybank.web._wishes import Wishes


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> TestClient:
    folder = tmp_path_factory.mktemp("home")
    return TestClient(
        create_app(Home(folder, folder / "our.bank")), base_url="http://127.0.0.1:8420"
    )


def shown(page: TestClient, address: str) -> str:
    """The page at an address as a reader sees its text."""
    answer = page.get(address)
    assert answer.status_code == 200
    return html.unescape(answer.text)


def texts(text: str) -> list[str]:
    """The stories of a page, each in one line."""
    stories = re.findall(r'<div class="text">\n(.*?)</div>', text, re.DOTALL)
    return [" ".join(re.findall(r"<p>(.*?)</p>", one)) for one in stories]


def test_the_page_shows_the_set_that_the_library_makes(page: TestClient) -> None:
    made = make_set(Request(seed=5, count=4, vocabulary="level-2"))
    found = texts(shown(page, "/set?seed=5&count=4&vocabulary=level-2"))
    assert found == [one.text.replace("\n", " ") for one in made.problems]


def test_beside_a_story_stands_another_level_or_why_not(page: TestClient) -> None:
    found = shown(page, "/set?theme=autumn-harvest&seed=7&count=3&beside=level-2")
    assert found.count("Use this version: story") == 2
    assert "Level 2 has no words for this story with these numbers." in found


def test_undo_leads_to_the_set_before_the_last_change(page: TestClient) -> None:
    first = texts(shown(page, "/set?seed=5&count=3"))
    swapped = shown(page, "/set?seed=5&count=3&change=swap-2")
    assert texts(swapped)[1] != first[1]
    undo = re.search(r'href="(/set\?[^"]*)"[^>]*>Undo</a>', swapped)
    assert undo is not None
    assert texts(shown(page, undo[1])) == first


def test_a_change_that_was_not_made_is_not_said_to_be(page: TestClient) -> None:
    found = shown(page, "/set?seed=5&count=3&change=swap-9")
    assert "swap-9 was not done: there is no story 9" in found
    assert "was swapped" not in found
    assert found.count("swap-9 was not done") == 1


def test_a_large_set_goes_on_on_further_pages(page: TestClient) -> None:
    asked = f"seed=5&count={AT_ONCE + 5}"
    first, last = shown(page, f"/set?{asked}"), shown(page, f"/set?{asked}&from={AT_ONCE + 1}")
    assert (len(texts(first)), len(texts(last))) == (AT_ONCE, 5)
    assert f"from={AT_ONCE + 1}" in first
    assert "Stories before these" in last
    assert not set(texts(first)) & set(texts(last))


def test_the_command_line_shown_makes_the_same_set(page: TestClient, tmp_path: Path) -> None:
    said = "theme=winter-days&pair=46 + 38&pair=82 - 47&large-print=yes&seed=5&count=4"
    wishes = Wishes.of(one.split("=", 1) for one in said.split("&"))  # type: ignore[misc]
    assert command(wishes.changed("swap-2")) == (
        'storybank make --theme winter-days --pair "46 + 38" "82 - 47" --count 4 --seed 5 '
        "--large-print --change swap-2"
    )
    assert command(wishes) in shown(page, f"/set?{wishes.query}")
