"""The themes on the page: listed by season; a teacher's own checked by line, kept, deleted."""

import json
import re
import time
from dataclasses import replace
from datetime import date
from html import unescape
from pathlib import Path

import pytest
from starlette.testclient import TestClient
from web.filled import filled

from storybank import themes
from storybank.bank import Bank
from storybank.errors import RequestError
from storybank.problem_set import make_set
from storybank.request import Request
from storybank.themes.starter import starter
from storybank.web import Home, _own_themes, create_app

NAME = "my-garden"
TEXT = starter(NAME)
WRONG = TEXT.replace("season: any ", "season: wet ").replace(
    "thing-a: {one: a leaf,", "thing-a: {one: leaf,"
)
QUICK = 20
"""Seconds, on a machine that does something else as well."""


@pytest.fixture
def client(tmp_path: Path) -> TestClient:
    app = create_app(Home(tmp_path, tmp_path / "our.bank"), today=lambda: date(2027, 1, 18))
    return TestClient(app, base_url="http://127.0.0.1:8420")


@pytest.fixture
def kept(client: TestClient) -> str:
    answer = client.post("/themes/keep", data={"name": NAME, "text": TEXT}, follow_redirects=False)
    assert answer.status_code == 303
    return answer.headers["location"]


def in_order(text: str, *found: str) -> bool:
    places = [text.index(one) for one in found]
    return places == sorted(places)


def test_all_themes_are_listed_those_in_season_first(client: TestClient) -> None:
    page = client.get("/themes")
    assert page.status_code == 200
    for head in themes.headers():
        assert f"<h3>{head.title}</h3>" in page.text
        assert f'href="/?theme={head.id}"' in page.text
    assert "December to February" in page.text
    assert in_order(page.text, "In season", "Winter days", "Other seasons", "Spring garden")


def test_the_best_for_a_day(client: TestClient) -> None:
    page = client.get("/themes?day=2027-04-15")
    assert in_order(page.text, "In season", "Spring garden", "Other seasons", "Winter days")
    assert 'value="2027-04-15"' in page.text


def test_a_day_that_is_none_is_said(client: TestClient) -> None:
    page = client.get("/themes?day=2027-02-30")
    assert page.status_code == 400
    assert "2027-02-30" in page.text


def test_themes_of_an_observance_can_be_hidden(client: TestClient) -> None:
    assert "Lantern nights" in client.get("/themes").text
    client.post("/observances")
    assert "Lantern nights" not in client.get("/themes").text


def test_a_theme_to_begin_with_has_no_faults_and_tells_stories(client: TestClient) -> None:
    page = client.get(f"/themes/own?name={NAME}")
    sent = filled(page.text, "/themes/check")
    assert sent["text"] == [TEXT]
    report = client.post("/themes/check", data=sent)
    assert report.status_code == 200
    assert "No faults." in report.text
    assert report.text.count('<p class="level">scene-') == 3
    assert "Keep on this machine" in report.text


def test_faults_stand_beside_their_lines(client: TestClient) -> None:
    answer = client.post("/themes/check", data={"name": NAME, "text": WRONG})
    assert answer.status_code == 400
    named = {int(one) for one in re.findall(rf"<li>{NAME}\.yaml, line (\d+): ", answer.text)}
    lines = WRONG.split("\n")
    season = next(at for at, line in enumerate(lines, 1) if line.startswith("season: wet"))
    leaf = next(at for at, line in enumerate(lines, 1) if "thing-a: {one: leaf," in line)
    assert {season, leaf} <= named
    shown = re.findall(r"<li( class=\"wrong\"[^>]*)?><code>([^<]*)</code>", answer.text)
    assert [unescape(line) for _, line in shown] == [line or " " for line in lines]
    assert {at for at, (mark, _) in enumerate(shown, 1) if mark} == named
    assert f'href="#line-{leaf}"' in answer.text
    assert f'id="line-{leaf}"' in answer.text
    assert "Keep on this machine" not in answer.text
    assert filled(answer.text, "/themes/check")["text"] == [WRONG]


def test_a_file_is_checked_in_place_of_the_text(client: TestClient) -> None:
    answer = client.post(
        "/themes/check",
        data={"name": NAME, "text": TEXT},
        files={"file": ("../../other.yaml", WRONG.encode())},
    )
    assert answer.status_code == 400
    assert "season: wet" in answer.text


def test_a_theme_without_faults_is_kept(client: TestClient, kept: str, tmp_path: Path) -> None:
    assert [path.name for path in (tmp_path / "themes").iterdir()] == [f"{NAME}.yaml"]
    assert (tmp_path / "themes" / f"{NAME}.yaml").read_text(encoding="utf-8") == TEXT
    page = client.get(kept)
    assert "is kept" in page.text
    assert f"/?theme={NAME}" in page.text
    assert TEXT.split("\n")[2] in unescape(client.get(f"/themes/own?name={NAME}").text)


def test_a_theme_with_faults_is_not_kept(client: TestClient, tmp_path: Path) -> None:
    answer = client.post("/themes/keep", data={"name": NAME, "text": WRONG})
    assert answer.status_code == 400
    assert not (tmp_path / "themes").exists()


@pytest.mark.parametrize(
    "name",
    [
        "../my-garden",
        "/etc/x",
        "a/b",
        "a\\b",
        "My Garden",
        "",
        "con",
        "winter-days",
        "..",
        "x" * 41,
    ],
)
def test_a_name_that_is_none_keeps_nothing(name: str, client: TestClient, tmp_path: Path) -> None:
    before = set(tmp_path.parent.rglob("*.yaml"))
    answer = client.post("/themes/keep", data={"name": name, "text": TEXT})
    assert answer.status_code == 400
    assert "A theme cannot be called" in answer.text
    assert set(tmp_path.parent.rglob("*.yaml")) == before
    assert filled(answer.text, "/themes/check")["text"] == [TEXT]


@pytest.mark.usefixtures("kept")
def test_a_kept_theme_is_replaced_only_where_that_is_said(
    client: TestClient, tmp_path: Path
) -> None:
    other = TEXT.replace("title: My garden", "title: Our garden")
    refused = client.post("/themes/keep", data={"name": NAME, "text": other})
    assert refused.status_code == 400
    assert "replace the one of this name" in refused.text
    file = tmp_path / "themes" / f"{NAME}.yaml"
    assert file.read_text(encoding="utf-8") == TEXT
    done = client.post("/themes/keep", data={"name": NAME, "text": other, "replace": "yes"})
    assert done.status_code == 200
    assert file.read_text(encoding="utf-8") == other


@pytest.mark.usefixtures("kept")
def test_a_kept_theme_is_deleted_once_it_is_confirmed(client: TestClient, tmp_path: Path) -> None:
    file = tmp_path / "themes" / f"{NAME}.yaml"
    assert client.post("/themes/delete", data={"name": NAME}).status_code == 400
    assert file.exists()
    assert client.get(f"/set?theme={NAME}&count=1&strategy=any&seed=1").status_code == 200
    answer = client.post("/themes/delete", data={"name": NAME, "sure": "yes"})
    assert answer.status_code == 200
    assert "was deleted" in answer.text
    assert not file.exists()
    assert client.get(f"/set?theme={NAME}&count=1&strategy=any&seed=1").status_code == 400


@pytest.mark.parametrize("name", ["winter-days", "../our", "nothing", ""])
def test_nothing_else_can_be_deleted(name: str, client: TestClient, tmp_path: Path) -> None:
    (tmp_path / "our.yaml").write_text("", encoding="utf-8")
    answer = client.post("/themes/delete", data={"name": name, "sure": "yes"})
    assert answer.status_code == 400
    assert (tmp_path / "our.yaml").exists()
    assert (themes.folder() / "winter-days.yaml").exists()


def test_getting_a_page_keeps_and_deletes_nothing(client: TestClient, tmp_path: Path) -> None:
    for place in ("keep", "delete", "check"):
        assert client.get(f"/themes/{place}?name={NAME}&sure=yes").status_code == 405
    client.get(f"/themes/own?name={NAME}")
    assert not (tmp_path / "themes").exists()


@pytest.mark.usefixtures("kept")
def test_a_set_with_a_kept_theme_names_it_without_its_folder(
    client: TestClient, tmp_path: Path
) -> None:
    form = client.get(f"/?theme={NAME}")
    assert re.search(rf'value="{NAME}" checked', form.text)
    query = f"theme={NAME}&count=3&strategy=any&seed=1"
    page = client.get(f"/set?{query}")
    assert page.status_code == 200
    assert str(tmp_path) not in page.text
    assert f"--theme {NAME}.yaml" in unescape(page.text)
    taken = client.post(f"/take?{query}", data={"what": "json"})
    assert str(tmp_path) not in taken.text
    told = json.loads(taken.text)
    assert told["request"]["theme"] == [NAME]
    assert {one["theme"] for one in told["problems"]} == {NAME}
    week = client.get(f"/week?theme={NAME}&1-name=monday&2-name=tuesday&3-name=friday")
    assert re.search(rf'value="{NAME}" checked', week.text)


@pytest.mark.usefixtures("kept")
def test_own_words_are_judged_by_a_kept_theme(client: TestClient) -> None:
    query = f"theme={NAME}&count=2&strategy=any&seed=1"
    page = client.get(f"/set?{query}")
    forms = re.findall(r'<form class="reword" method="post" action="([^"]+)"', page.text)
    sent = filled(page.text, unescape(forms[0]))
    good = client.post(unescape(forms[0]).partition("#")[0], data=sent)
    assert good.status_code == 200
    assert "Your own words" in good.text
    assert "What no longer holds" not in good.text
    number = re.search(r"\d+", sent["words-1"][0])
    assert number is not None
    other = sent["words-1"][0].replace(number[0], "97", 1)
    bad = client.post(unescape(forms[0]).partition("#")[0], data={**sent, "words-1": other})
    assert "What no longer holds" in bad.text
    assert "not on this machine" not in bad.text


@pytest.mark.usefixtures("kept")
def test_a_problem_of_the_bank_is_judged_by_a_kept_theme(
    client: TestClient, tmp_path: Path
) -> None:
    wish = Request(theme=[str(tmp_path / "themes" / f"{NAME}.yaml")], strategy=["any"], seed=1)
    with Bank(tmp_path / "our.bank") as bank:
        bank.add(make_set(replace(wish, count=2)))
    themes.forget(NAME)  # As after a start, when no set was made with it yet.
    page = client.get("/set?kept=1&kept=2")
    assert page.status_code == 200
    action = unescape(re.findall(r'class="reword" method="post" action="([^"]+)"', page.text)[0])
    sent = filled(page.text, action)
    themes.forget(NAME)
    told = client.post(action.partition("#")[0], data=sent)
    assert told.status_code == 200
    assert "Your own words" in told.text
    assert "not on this machine" not in told.text
    assert "What no longer holds" not in told.text


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b"a: &x [1]\nb: *x\n" * 3, "anchors"),
        (b"[" * 1_000_000, "nesting"),
        (b"- " * 500_000, "nesting"),
        (b"{a: " * 200_000, "nesting"),
        (b"".join(b"k%d: 1\n" % n for n in range(80_000)), "two parts"),
        (b"title: x\n---\n" + b"".join(b"k%d: 1\n" % n for n in range(80_000)), "faults"),
        (b"title: a\0b\n---\n", "not valid YAML"),
        (b"title: \xff\xfe\n---\n", "UTF-8"),
        (b"x" * 1_000_000, "line 1"),
        (b"x" * 1_000_001, "bytes"),
        (b"", "two parts"),
        (b"---\n" * 200_000, "two parts"),
    ],
    ids=[
        "anchors", "brackets", "lists", "braces", "keys", "keys behind a header", "NUL",
        "no UTF-8", "junk", "too large", "empty", "many documents",
    ],
)  # fmt: skip
def test_what_is_no_theme_is_refused_kindly_and_quickly(
    data: bytes, said: str, client: TestClient
) -> None:
    began = time.perf_counter()
    answer = client.post(
        "/themes/check", data={"name": NAME}, files={"file": ("a.yaml", data, "text/plain")}
    )
    assert answer.status_code == 400
    assert said in unescape(answer.text)
    assert time.perf_counter() - began < QUICK
    assert "Traceback" not in answer.text


def test_a_theme_that_takes_too_long_to_check_is_refused() -> None:
    with pytest.raises(RequestError, match="could not be checked within"):
        _own_themes.checked(NAME, TEXT.encode(), seconds=0.01)
