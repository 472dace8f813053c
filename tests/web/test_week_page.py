"""The week on the page: the form says the plan, the page shows the week, the files are the same."""

import io
import time
import zipfile
from pathlib import Path
from urllib.parse import parse_qsl, urlsplit

import pytest
from starlette.testclient import TestClient
from web.filled import filled
from week.plans import GOOD, SHORT

from storybank.cli import main
from storybank.settings import read as read_settings
from storybank.themes.starter import starter
from storybank.web import Home, create_app
from storybank.web._house import House
from storybank.web._week_fields import WeekFields, fields_of
from storybank.week import read_plan_text

FULL = """\
title: "Zehner & more: <b>"
theme: [winter-days]
seed: 5
groups: [level-1, level-4]
people: 5
before: [count-on]
within: 60
crossing: "50"
keywords: none
without: [sweets, pets]
home_language: [es, vi]
names_from: own
each_day: {review: 0, model: 1, together: 0, alone: 2, home: 0, exit: 0}
days:
  monday: {strategy: count-up, goal: I can count up., again: {alone: 2}, pages: [facts, cards]}
  tuesday: {strategy: none, steps: 2, then: [separate-result-unknown], warm_up: []}
  wednesday: {strategy: none, addends: 3, within: 20, warm_up: [1, 100]}
  thursday: {strategy: none, units: [lengths, money], crossing: always, keywords: mixed}
  day-5: {strategy: none, number_sets: [10, 20], situations: [join-result-unknown]}
"""
FURTHER = """\
theme: [winter-days]
days:
  monday: {extra_number: yes}
  tuesday: {missing: yes}
  wednesday: {strategy: any, review: 0}
"""


@pytest.fixture
def home(tmp_path: Path) -> Home:
    return Home(tmp_path, tmp_path / "our.bank")


@pytest.fixture
def client(home: Home) -> TestClient:
    return TestClient(create_app(home), base_url="http://127.0.0.1:8420")


def address(plan: str) -> str:
    return fields_of(read_plan_text(plan)).query


@pytest.mark.parametrize("text", [GOOD, SHORT, FULL, FURTHER])
def test_the_fields_of_a_plan_say_the_same_plan(text: str, home: Home) -> None:
    plan = read_plan_text(text)
    fields = WeekFields.of(parse_qsl(fields_of(plan).query))
    again = fields.plan(House(home)).to_json()
    # What is usual need not be said: a day's own "mixed" goes where the week says "none".
    told = plan.to_json()
    for one in (told, again):
        for day in one["days"].values():
            day.pop("keywords", None)
    assert again == told
    assert read_plan_text(fields.as_yaml()).to_json() == fields.plan(House(home)).to_json()


@pytest.mark.parametrize("text", [GOOD, FULL, FURTHER])
def test_the_form_sends_back_what_it_was_given(text: str, client: TestClient) -> None:
    query = address(text)
    page = client.get(f"/week?{query}")
    assert page.status_code == 200
    sent = filled(page.text, "/week/choose")
    seed = {} if "seed" in sent and sent["seed"] != [""] else {"seed": ["1"]}
    answer = client.post("/week/choose", data={**sent, **seed}, follow_redirects=False)
    assert answer.status_code == 303
    found = urlsplit(answer.headers["location"])
    assert found.path == "/week/made"
    assert {*parse_qsl(found.query)} - {("seed", "1")} == {*parse_qsl(query)}


def test_a_week_to_begin_with_can_be_made_as_it_stands(client: TestClient) -> None:
    page = client.get("/week")
    answer = client.post("/week/choose", data=filled(page.text, "/week/choose"))
    assert answer.status_code == 200
    assert "All that was asked is met" in answer.text
    for day in ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday"):
        assert f"<h2>{day}" in answer.text
    for part in ("Look Back", "Worked Aloud", "Together", "On Your Own", "Exit Ticket", "At Home"):
        assert f"<h3>{part}</h3>" in answer.text


def test_the_files_are_those_of_the_command(client: TestClient, tmp_path: Path) -> None:
    answer = client.post(f"/week/take?{address(SHORT)}", data={"what": "all"})
    assert answer.headers["content-type"] == "application/zip"
    with zipfile.ZipFile(io.BytesIO(answer.content)) as archive:
        taken = {name: archive.read(name) for name in archive.namelist()}
    plan = tmp_path / "plan.yaml"
    plan.write_text(SHORT, encoding="utf-8")
    assert main(["week", str(plan), "--out", str(tmp_path / "out")]) == 0
    written = {path.name: path.read_bytes() for path in (tmp_path / "out").iterdir()}
    assert taken == written


@pytest.mark.parametrize(
    ("what", "kind"),
    [("html", "zip"), ("json", "zip"), ("plan", "yaml"), ("overview", "wordprocessingml")],
)
def test_what_can_be_taken(what: str, kind: str, client: TestClient) -> None:
    answer = client.post(f"/week/take?{address(SHORT)}", data={"what": what})
    assert answer.status_code == 200
    assert kind in answer.headers["content-type"]
    assert answer.content


def test_what_cannot_be_taken_is_named(client: TestClient) -> None:
    answer = client.post(f"/week/take?{address(SHORT)}", data={"what": "../plan<"})
    assert answer.status_code == 400
    assert "There is no file to take" in answer.text


def test_the_looks_are_those_of_the_form(client: TestClient) -> None:
    query = address(SHORT)
    plain = client.post(f"/week/take?{query}", data={"what": "overview"})
    looks = {"what": "overview", "paper": "a4", "large-print": "yes", "font": "Georgia"}
    other = client.post(f"/week/take?{query}", data=looks)
    with zipfile.ZipFile(io.BytesIO(other.content)) as archive:
        document = archive.read("word/document.xml").decode()
        every = b"".join(archive.read(name) for name in archive.namelist())
    assert 'w:w="11906"' in document
    assert b"Georgia" in every
    assert plain.content != other.content


@pytest.mark.parametrize(
    ("changed", "field", "said"),
    [
        ({"2-strategy": "count-upp"}, "2-strategy", "count-up"),
        ({"3-alone": "40"}, "3-alone", "from 0 to 12"),
        ({"people": "six"}, "people", "no whole number"),
        ({"2-name": "monday"}, "2-name", "there twice"),
        ({"theme": ""}, "theme", "lacks"),
        ({"seed": "-1"}, "seed", "whole number"),
        ({"1-goal": "g" * 300}, "1-goal", "too long"),
        ({"1-number_sets": "10, twelve"}, "1-number_sets", "no whole number"),
        ({"1-name": "", "2-name": "", "3-name": "friday"}, "1-name", "3 to 5"),
    ],
)
def test_a_fault_stands_beside_its_field_and_nothing_typed_is_lost(
    changed: dict[str, str], field: str, said: str, client: TestClient
) -> None:
    sent = filled(client.get(f"/week?{address(SHORT)}").text, "/week/choose")
    answer = client.post("/week/choose", data={**sent, **changed, "names": "Wanda"})
    assert answer.status_code == 400
    place = answer.text.partition(f'id="fault-{field}">')[2].partition("</p>")[0]
    assert said in place
    assert "Wanda" in answer.text


def test_a_week_that_cannot_be_made_says_the_day_and_the_wish(client: TestClient) -> None:
    query = f"{address(SHORT)}&within=5"
    answer = client.get(f"/week/made?{query}")
    assert answer.status_code == 400
    assert "cannot be made as the plan has it" in answer.text
    assert 'value="5"' in answer.text


def test_a_plan_can_be_pasted(client: TestClient) -> None:
    answer = client.post("/week/choose", data={"plan": GOOD}, follow_redirects=False)
    assert answer.headers["location"] == f"/week/made?{address(GOOD)}"
    upload = {"plan-file": ("x.yaml", GOOD.encode())}
    again = client.post("/week/choose", files=upload, follow_redirects=False)
    assert again.headers["location"] == answer.headers["location"]


def test_faults_of_a_pasted_plan_are_named_by_line(client: TestClient) -> None:
    text = GOOD.replace("count-up", "count-upp").replace("people: 6", "people: six")
    answer = client.post("/week/choose", data={"plan": text})
    assert answer.status_code == 400
    assert "plan, line 5: people:" in answer.text
    assert "plan, line 15: strategy:" in answer.text
    assert answer.text.count('<li class="wrong"') == 2
    assert "Five days of tens" in answer.text


@pytest.mark.parametrize(
    "line",
    [
        "names: class.txt",
        "names_from: other.csv",
        "translations: ours.csv",
        "standards: /etc/hosts",
    ],
)
def test_a_pasted_plan_names_no_file_of_the_machine(
    line: str, client: TestClient, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    for name in ("class.txt", "other.csv", "ours.csv", "mine.yaml"):
        (tmp_path / name).write_text("Secretia\n", encoding="utf-8")
    answer = client.post("/week/choose", data={"plan": f"{GOOD}{line}\n"})
    assert answer.status_code == 400
    assert f"{line.partition(':')[0]}:" in answer.text
    assert "Secretia" not in answer.text
    assert "127.0.0.1" not in answer.text


@pytest.mark.parametrize("name", ["mine.yaml", "/etc/mine.yaml", "../mine", "a\\b"])
def test_neither_themes_nor_levels_are_files_of_the_machine(
    name: str, client: TestClient, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "mine.yaml").write_text("secret: yes\n", encoding="utf-8")
    sent = filled(client.get(f"/week?{address(SHORT)}").text, "/week/choose")
    for field in ("theme", "groups"):
        answer = client.post("/week/choose", data={**sent, field: name})
        assert answer.status_code == 400
        assert "secret" not in answer.text
        assert f'id="fault-{field}"' in answer.text


def test_names_stand_in_no_address(client: TestClient) -> None:
    sent = filled(client.get(f"/week?{address(SHORT)}").text, "/week/choose")
    names = "\n".join(f"Wanda{letter}" for letter in "abcdefgh")
    answer = client.post("/week/choose", data={**sent, "names": names}, follow_redirects=False)
    assert answer.status_code == 307
    assert "Wanda" not in answer.headers["location"]
    page = client.post("/week/choose", data={**sent, "names": names})
    assert "Wandaa" in page.text
    text = page.text
    assert not [one for one in text.split('href="')[1:] if "Wanda" in one.partition('"')[0]]
    assert not [one for one in text.split('action="')[1:] if "Wanda" in one.partition('"')[0]]
    taken = client.post(
        f"/week/take?{urlsplit(answer.headers['location']).query}",
        data={"what": "json", "names": names},
    )
    with zipfile.ZipFile(io.BytesIO(taken.content)) as archive:
        week = archive.read("week.json").decode()
        day = archive.read("1-monday.json").decode()
    assert '"names": "class-list.txt"' in week
    assert "Person(" not in week
    assert "Wanda" in day


def test_themes_of_an_observance_stay_hidden(client: TestClient) -> None:
    assert 'value="lantern-nights"' in client.get("/week").text
    client.post("/observances")
    assert 'value="lantern-nights"' not in client.get("/week").text
    assert 'value="lantern-nights" checked' in client.get("/week?theme=lantern-nights").text


def test_a_theme_of_her_own_is_named_without_its_folder(tmp_path: Path) -> None:
    (tmp_path / "themes").mkdir()
    (tmp_path / "themes" / "my-garden.yaml").write_text(starter("my-garden"), encoding="utf-8")
    client = TestClient(
        create_app(Home(tmp_path, tmp_path / "our.bank")), base_url="http://127.0.0.1:8420"
    )
    plan = SHORT.replace("winter-days", "my-garden")
    answer = client.post("/week/choose", data={"plan": plan}, follow_redirects=False)
    found = urlsplit(answer.headers["location"])
    assert ("theme", "my-garden") in parse_qsl(found.query)
    page = client.get(answer.headers["location"])
    assert page.status_code == 200
    assert str(tmp_path) not in page.text
    taken = client.post(f"/week/take?{found.query}", data={"what": "json"})
    with zipfile.ZipFile(io.BytesIO(taken.content)) as archive:
        texts = [archive.read(name).decode() for name in archive.namelist()]
    assert len(texts) == 4
    assert not [one for one in texts if str(tmp_path) in one]
    assert any('"my-garden.yaml"' in one for one in texts)


def test_other_stories_for_a_part_leave_the_rest(client: TestClient) -> None:
    page = client.get(f"/week/made?{address(SHORT)}").text
    assert "1-again-alone=1" in page
    before = client.post(f"/week/take?{address(SHORT)}", data={"what": "json"})
    after = client.post(f"/week/take?{address(SHORT)}&1-again-alone=1", data={"what": "json"})
    sets = []
    for one in (before, after):
        with zipfile.ZipFile(io.BytesIO(one.content)) as archive:
            sets.append({name: archive.read(name) for name in archive.namelist()})
    assert sets[0]["1-monday.json"] != sets[1]["1-monday.json"]
    assert sets[0]["2-tuesday.json"] == sets[1]["2-tuesday.json"]


def test_the_settings_hold_where_the_plan_says_nothing(tmp_path: Path) -> None:
    file = tmp_path / "storybank.yaml"
    file.write_text("vocabulary: level-2\nwithin: 20\npaper: a4\n", encoding="utf-8")
    home = Home(tmp_path, tmp_path / "our.bank", read_settings(file))
    client = TestClient(create_app(home), base_url="http://127.0.0.1:8420")
    plan = "theme: winter-days\ndays: {monday: {}, tuesday: {}, wednesday: {}}\n"
    sent = filled(client.get(f"/week?{address(plan)}").text, "/week/choose")
    sent.pop("groups")
    answer = client.post("/week/choose", data=sent)
    assert "up to 20" in answer.text
    assert "level 2" in answer.text


@pytest.mark.parametrize(
    "text",
    [
        "a: &x [1]\nb: *x\n",
        "[" * 100_000,
        "- " * 100_000,
        "".join(f"k{n}: {n}\n" for n in range(60_000)),
        "theme: \0\n",
        "x" * 900_000,
    ],
    ids=["anchors", "nested", "lists", "keys", "NUL", "junk"],
)
def test_what_is_no_plan_is_refused_quickly(text: str, client: TestClient) -> None:
    began = time.perf_counter()
    answer = client.post("/week/choose", files={"plan-file": ("plan.yaml", text.encode())})
    assert answer.status_code == 400
    assert "cannot be used yet" in answer.text
    assert time.perf_counter() - began < 5
    assert len(answer.text) < 2_000_000


def test_a_plan_that_is_no_utf_8_is_refused(client: TestClient) -> None:
    answer = client.post("/week/choose", files={"plan-file": ("plan.yaml", b"title: \xff\xfe\n")})
    assert answer.status_code == 400
