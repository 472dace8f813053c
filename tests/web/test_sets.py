"""The page of a set: what it says of its changes, of another level, and of where it goes on."""

import html
import re
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from storybank import Request, make_set
from storybank.revision import KINDS
from storybank.web import Home, create_app
from storybank.web._cards import _TOLD, AT_ONCE, command
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
    assert "Story 9 was not swapped: there is no story 9" in found
    assert "was swapped" not in found
    assert found.count("Story 9 was not swapped") == 1
    assert "swap-9 was" not in found


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


NAMES = ("Ana, she", "José", "Mei", "Omar, he", "Lily-Marie", "Bartholomew", "Al")
KINDS_OF_SET = (
    "theme=winter-days&vocabulary=level-2&count=6",
    "theme=winter-days&count=8",
    "count=8&strategy=any",
    "vocabulary=level-1&count=8",
    "levels-side-by-side=yes&count=6",
    "steps=2&count=5",
    "addends=3&count=5",
    "fact-families=yes&count=8&within=20",
    "extra-number=yes&count=5",
)


def taken(page: TestClient, address: str, names: str) -> dict[str, Any]:
    """The set of an address as JSON, with the names of a class in the page."""
    answer = page.post(f"/take?{address}", data={"names": names, "what": "json"})
    assert answer.status_code == 200, answer.text
    found: dict[str, Any] = answer.json()
    return found


@pytest.mark.parametrize("asked", KINDS_OF_SET)
@pytest.mark.parametrize("change", ["", "&change=swap-2&change=numbers-3&change=more"])
def test_a_bookmark_gives_the_stories_of_a_class_with_our_names(
    page: TestClient, asked: str, change: str
) -> None:
    if "families" in asked and change:
        change = "&change=swap-2"
    address = f"{asked}&seed=31{change}"
    sets = [taken(page, address, "\n".join(NAMES[:many])) for many in (2, 5, 7)]
    ours = taken(page, f"{address}&class-list=yes", "")
    for one in sets:
        for told, kept in zip(one["problems"], ours["problems"], strict=True):
            assert told["code"] == kept["code"]
            assert told["numbers"] == kept["numbers"]
            assert told["answer"] == kept["answer"]
            assert (told["scene"], told["telling"]) == (kept["scene"], kept["telling"])
    said = {name.split(",")[0] for name in NAMES}
    assert not said & {name for one in ours["problems"] for name in one["people"]}
    assert said & {name for one in sets[1]["problems"] for name in one["people"]}


def test_a_page_with_names_has_the_address_that_gives_its_stories(page: TestClient) -> None:
    sent = {"theme": "winter-days", "seed": "4", "count": "3", "names": "Zofi\nQuim"}
    answer = page.post("/choose", data=sent, follow_redirects=False)
    assert answer.status_code == 307
    address = answer.headers["location"]
    assert "class-list=yes" in address
    assert "Zofi" not in address
    text = html.unescape(page.post(address, data=sent).text)
    assert "Zofi" in text
    assert re.findall(r'class="code">(\w+)<', text) == re.findall(
        r'class="code">(\w+)<', shown(page, address)
    )


def test_words_that_spoil_a_story_are_said_where_it_is_taken(page: TestClient) -> None:
    address = "/set?seed=5&count=3&change=words-2-1"
    said = "your words no longer go with the key"
    spoiled = page.post(address, data={"words-1": "There is a happy dog. How many?"}).text
    assert f"Story 2: {said}" in spoiled
    assert "Something no longer holds" in spoiled
    assert said not in shown(page, "/set?seed=5&count=3")


def test_a_picture_sent_as_a_list_of_names_leaves_all_choices(page: TestClient) -> None:
    picture = {"names-file": ("names.txt", b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR\0\0", "text/plain")}
    answer = page.post("/set?theme=winter-days&count=7&seed=1", files=picture)
    assert answer.status_code == 400
    assert 'value="winter-days" checked' in answer.text
    assert 'name="count" inputmode="numeric" size="6" value="7"' in answer.text
    assert re.search(r'id="fault-names"[^>]*>[^<]*the file of names', answer.text)


def test_a_swap_in_a_fact_family_is_said_of_all_four(page: TestClient) -> None:
    asked = "/set?fact-families=yes&within=20&count=8&seed=5"
    assert "with the three others of its fact family" in shown(page, f"{asked}&change=swap-2")
    found = shown(page, f"{asked}&change=numbers-2")
    assert "Story 2 has no other numbers: the four stories of a fact family" in found


def test_every_kind_of_change_is_told() -> None:
    assert set(_TOLD) == set(KINDS)
