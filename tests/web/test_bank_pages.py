"""The bank on the page: found, marked, kept, handed out, undone, taken out and in, cared for."""

import io
import json
import re
import sqlite3
import tempfile
import zipfile
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from bank.kept import two_banks
from starlette.testclient import TestClient

from storybank import Bank, Request, make_set
from storybank.bank import Wanted
from storybank.settings import Settings
from storybank.web import Home, _bank_care, _bank_open, _once, create_app

TODAY = date(2026, 9, 14)
SET = "strategy=any&within=50&count=6&seed=5"


@pytest.fixture
def home(tmp_path: Path) -> Home:
    """A teacher's home in which nothing is kept yet."""
    return Home(tmp_path / "home", tmp_path / "home" / "our.bank")


@pytest.fixture
def page(home: Home) -> Iterator[TestClient]:
    """The pages of that home; what answers with an address is not followed."""
    app = create_app(home, lambda: TODAY)
    with TestClient(app, base_url="http://127.0.0.1:8420", follow_redirects=False) as client:
        yield client


@pytest.fixture
def kept(page: TestClient) -> TestClient:
    """The pages with the six stories of `SET` in the bank."""
    assert page.post(f"/bank/keep?{SET}").status_code == 200
    return page


def numbers_on(text: str) -> list[int]:
    """The numbers of the stories that a page of the bank shows, in its order."""
    return [int(one) for one in re.findall(r'id="problem-([0-9]+)"', text)]


def alert(text: str) -> str:
    """What the page says went wrong."""
    found = re.search(r'<p class="fault" role="alert">(.*?)</p>', text, re.DOTALL)
    assert found is not None, text
    return found[1]


def test_an_empty_bank_says_how_one_comes_about_and_looking_makes_none(
    page: TestClient, home: Home
) -> None:
    for address in ("/bank", "/bank/classes", "/bank/files", "/bank?words=apples"):
        assert page.get(address).status_code == 200
    assert "Nothing is kept yet" in page.get("/bank").text
    assert not home.bank.exists()
    for address in ("/bank/undo", "/bank/check", "/bank/back-up", "/bank/mark", "/bank/take-out"):
        sent = {"action": "1", "number": "1", "do": "star", "what": "csv"}
        assert page.post(address, data=sent).status_code == 400
    assert not home.bank.exists()


def test_keeping_is_told_and_kept_once(page: TestClient, home: Home) -> None:
    first, second = (page.post(f"/bank/keep?{SET}").text for _ in range(2))
    assert "6 stories are new in the bank." in first
    assert "0 stories are new in the bank; 6 stories were there already." in second
    made = make_set(Request(strategy=["any"], within=50, count=6, seed=5))
    with Bank(home.bank, create=False) as bank:
        assert [one.text for one in bank.find()] == [one.text for one in made.problems]
    link = re.search(r'href="(/set\?kept=[^"]*)"', first)
    assert link is not None
    again = page.get(link[1].replace("&amp;", "&")).text
    assert all(one.code in again for one in made.problems)


def test_own_words_are_kept(page: TestClient, home: Home) -> None:
    asked = Request(situation=["join-result-unknown"], count=1, seed=3)
    story = make_set(asked).problems[0]
    told = story.text.replace("There were", "At first, there were", 1)
    assert told != story.text
    words = {"words-1": told, "answer-1": story.story.answer_sentence}
    address = "situation=join-result-unknown&count=1&seed=3&change=words-1-1"
    answer = page.post(f"/bank/keep?{address}", data=words)
    assert answer.status_code == 200, alert(answer.text)
    with Bank(home.bank, create=False) as bank:
        assert [one.text for one in bank.find()] == [told]


def test_names_of_children_are_not_kept(page: TestClient, home: Home) -> None:
    names = ("Zebediah", "Quillon", "Xochiquetzal")
    sent = {"names": "\n".join(names)}
    assert any(one in page.post(f"/set?{SET}", data=sent).text for one in names)
    answer = page.post(f"/bank/keep?{SET}", data=sent).text
    assert "6 stories are new in the bank." in answer
    assert "The names of your class stay in the open page" in answer
    with Bank(home.bank, create=False) as bank:
        whole = json.dumps([[one.text, one.node, bank.recipe_of(one)] for one in bank.find()])
    assert not any(one in whole for one in names)


def test_a_class_list_of_the_settings_names_the_children_of_a_kept_set(
    kept: TestClient, home: Home, tmp_path: Path
) -> None:
    names = tmp_path / "class.txt"
    names.write_text("Zebediah\nQuillon\nXochiquetzal\n")
    settings = Settings(tmp_path / "storybank.yaml", names=str(names))
    named = create_app(replace(home, settings=settings))
    address = "/set?" + "&".join(f"kept={one}" for one in range(1, 7))
    with TestClient(named, base_url="http://127.0.0.1:8420") as client:
        shown = client.get(address).text
        assert "Zebediah" in shown or "Quillon" in shown
        again = client.post(f"/bank/keep?{address.partition('?')[2]}").text
    assert "0 stories are new in the bank; 6 stories were there already." in again
    assert "from a class list became" in again


def test_a_story_with_a_fault_is_not_kept(page: TestClient, home: Home) -> None:
    words = {"words-1": "There were apples. How many apples were there?", "answer-1": "Apples."}
    answer = page.post(f"/bank/keep?{SET}&change=words-1-1", data=words)
    assert answer.status_code == 400
    assert "in story 1 your words no longer go with the key" in alert(answer.text)
    assert not home.bank.exists()
    # The page with her words is not lost: from here she goes back to it.
    assert "There were apples. How many apples were there?" in answer.text
    page.post(f"/bank/keep?{SET}")
    with Bank(home.bank, create=False) as bank:
        before = bank.count(Wanted(retired=True))
    assert page.post(f"/bank/keep?{SET}&change=words-1-1", data=words).status_code == 400
    with Bank(home.bank, create=False) as bank:
        assert bank.count(Wanted(retired=True)) == before


def test_a_search_finds_what_the_bank_finds_and_its_address_keeps_it(
    kept: TestClient, home: Home
) -> None:
    with Bank(home.bank, create=False) as bank:
        all_kept = bank.find()
    theme, situation = all_kept[0].theme, all_kept[1].situation
    for query, wanted in (
        ("", Wanted()),
        (f"theme={theme}", Wanted(theme=[theme])),
        (f"situation={situation}", Wanted(situation=[situation])),
        ("strategy=count-on&strategy=doubles", Wanted(strategy=["count-on", "doubles"])),
        ("within=30", Wanted(within=30)),
        ("vocabulary=level-4", Wanted(vocabulary=["level-4"])),
        ("season=winter", Wanted(season=["winter"])),
        ("words=how+many", Wanted(words="how many")),
        (f"scene={all_kept[2].scene}", Wanted(scene=[all_kept[2].scene])),
        ("code=%232+%233", Wanted(code=["#2", "#3"])),
        ("like=%232", Wanted(like="#2")),
        ("new-to=2B", Wanted(new_to="2B")),
        ("starred=yes", Wanted(starred=True)),
    ):
        with Bank(home.bank, create=False) as bank:
            found = [one.number for one in bank.find(wanted)]
        assert numbers_on(kept.get(f"/bank?{query}").text) == found, query
    text = kept.get("/bank?words=how+many&within=30&retired=yes").text
    assert 'name="words" value="how many"' in text
    assert 'name="within" inputmode="numeric" size="6" value="30"' in text
    assert 'name="retired" value="yes" checked' in text


@pytest.mark.parametrize(
    ("query", "said"),
    [
        ("theme=unheard-of", "unheard-of"),
        ("had-by=9Z", "No class &#34;9Z&#34; is in this bank"),
        ("within=ten", "Write a whole number in digits."),
        ("colour=red", "This address looks for &#34;colour&#34;"),
        ("like=nonsense", "neither a code nor a number"),
        ("page=x", "Write a whole number in digits."),
    ],
)
def test_a_search_for_what_nothing_can_be_is_said(kept: TestClient, query: str, said: str) -> None:
    answer = kept.get(f"/bank?{query}")
    assert answer.status_code == 400
    assert said in alert(answer.text)
    assert 'name="words"' in answer.text


def test_twenty_a_page_in_order_with_no_story_twice_or_left_out(page: TestClient) -> None:
    page.post("/bank/keep?strategy=any&count=45&seed=2")
    pages = [page.get(f"/bank?words=how&page={at}").text for at in (1, 2, 3)]
    assert [len(numbers_on(one)) for one in pages] == [20, 20, 5]
    assert [one for text in pages for one in numbers_on(text)] == list(range(1, 46))
    assert 'rel="next" href="/bank?words=how&amp;page=3"' in pages[1]
    assert 'rel="prev" href="/bank?words=how"' in pages[1]
    assert 'rel="next"' not in pages[2]
    assert 'rel="prev"' not in pages[0]
    assert numbers_on(page.get("/bank?page=99").text) == list(range(41, 46))


def test_marks_come_and_go_and_lead_back_to_the_search(kept: TestClient, home: Home) -> None:
    for do, more, check in (
        ("star", {}, Wanted(starred=True)),
        ("note", {"note": " good for  partners "}, Wanted(noted=True)),
    ):
        sent = {"number": "2", "do": do, **more}
        answer = kept.post("/bank/mark?words=how&page=1", data=sent)
        assert answer.status_code == 303
        assert answer.headers["location"] == f"/bank?words=how&page=1&done={do}-2#problem-2"
        with Bank(home.bank, create=False) as bank:
            assert [one.number for one in bank.find(check)] == [2]
    assert "#2 has a star." in kept.get("/bank?done=star-2").text
    assert "good for partners" in kept.get("/bank?noted=yes").text
    kept.post("/bank/mark", data={"number": "2", "do": "unstar"})
    gone = kept.post("/bank/mark", data={"number": "2", "do": "note", "note": ""})
    assert gone.headers["location"].endswith("done=no-note-2#problem-2")
    kept.post("/bank/mark", data={"number": "3", "do": "retire"})
    assert numbers_on(kept.get("/bank").text) == [1, 2, 4, 5, 6]
    assert numbers_on(kept.get("/bank?retired=yes").text) == [1, 2, 3, 4, 5, 6]
    kept.post("/bank/mark", data={"number": "3", "do": "bring-back"})
    with Bank(home.bank, create=False) as bank:
        assert not any(one.star or one.note or one.retired for one in bank.find())
        assert bank.count() == 6


def test_a_note_too_long_stays_typed_and_nothing_changes(kept: TestClient, home: Home) -> None:
    note = "very " * 400 + "long"
    answer = kept.post("/bank/mark", data={"number": "2", "do": "note", "note": note})
    assert answer.status_code == 400
    assert "Write a shorter one" in alert(answer.text)
    assert note in answer.text
    for sent in ({"number": "77", "do": "star"}, {"number": "2", "do": "burn"}, {"do": "star"}):
        assert kept.post("/bank/mark", data=sent).status_code == 400
    with Bank(home.bank, create=False) as bank:
        assert [one.what for one in bank.actions()] == ["add"]


def test_the_chosen_become_a_set_or_are_recorded(kept: TestClient, home: Home) -> None:
    answer = kept.post("/bank/chosen", data={"kept": ["5", "2"], "do": "set"})
    assert answer.headers["location"] == "/set?kept=5&kept=2"
    assert kept.get("/set?kept=5&kept=2").status_code == 200
    assert "No story is chosen" in alert(kept.post("/bank/chosen", data={"do": "set"}).text)
    without = kept.post("/bank/chosen", data={"kept": ["5"], "do": "used", "class": " "})
    assert "Which class?" in alert(without.text)
    assert 'name="kept" value="5" form="chosen" checked' in without.text
    sent = {"kept": ["5", "2"], "do": "used", "class": "2B", "day": "2026-09-01"}
    assert kept.post("/bank/chosen", data=sent).headers["location"] == "/bank?done=used-2"
    kept.post("/bank/mark", data={"number": "1", "do": "used", "class": "2B"})
    with Bank(home.bank, create=False) as bank:
        had = [(one.day, [number for number, *_ in one.problems]) for one in bank.history("2B")]
    assert had == [("2026-09-01", [2, 5]), ("2026-09-14", [1])]
    bad = kept.post("/bank/chosen", data={**sent, "day": "2026-02-30"})
    assert "is in no calendar" in alert(bad.text)
    assert "2B had 1 of these on 2026-09-14" in kept.get("/set?kept=1&kept=3").text


def test_a_class_is_never_given_the_same_twice(
    page: TestClient, home: Home, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(_once, "AGAIN", 0.0)
    page.post("/bank/keep?count=8&seed=4")
    sent = {"count": "5", "class": "2B", "from": "bank", "seed": "1", "paper": "a4"}
    places = [page.post("/bank/hand-out", data=sent).headers["location"] for _ in range(3)]
    given = [[int(one) for one in re.findall(r"kept=([0-9]+)", place)] for place in places]
    assert [len(one) for one in given] == [5, 5, 5]
    assert len({one for some in given for one in some}) == 15
    assert set(given[0]) <= set(range(1, 9))
    assert all("paper=a4" in place for place in places)
    new = page.post("/bank/hand-out", data={"count": "3", "class": "3C", "from": "new"})
    assert all(int(one) > 15 for one in re.findall(r"kept=([0-9]+)", new.headers["location"]))
    with Bank(home.bank, create=False) as bank:
        had = [[number for number, *_ in one.problems] for one in bank.history("2B")]
        assert had == [sorted(one) for one in given]
    shown = page.get(places[1]).text
    assert "2B had these stories on 2026-09-14" in shown


def test_the_order_of_the_set_is_that_of_the_hand_out(tmp_path: Path) -> None:
    with Bank(tmp_path / "a.bank") as bank:
        bank.add(make_set(Request(strategy=["any"], count=20, seed=8)))
        for seed in range(4):
            asked = Request(strategy=["any"], count=8, crossing="50", seed=seed)
            made = bank.hand_out(asked, "2B")
            named = bank.named([f"#{one}" for one in bank.handed])
            assert [one.text for one in named] == [one.text for one in made.problems]


def test_a_button_pressed_twice_hands_out_once(page: TestClient, home: Home) -> None:
    sent = {"count": "2", "class": "2B", "strategy": "count-on"}
    first, second = (page.post("/bank/hand-out", data=sent) for _ in range(2))
    assert first.headers["location"] == second.headers["location"]
    page.post("/bank/hand-out", data={**sent, "class": "3C"})
    with Bank(home.bank, create=False) as bank:
        assert [len(bank.history(one)) for one in ("2B", "3C")] == [1, 1]


def test_names_go_along_in_the_body_and_stand_in_no_address(page: TestClient, home: Home) -> None:
    sent = {"count": "3", "class": "2B", "names": "Zebediah\nQuillon", "situation": "whole-unknown"}
    answer = page.post("/bank/hand-out", data=sent)
    assert answer.status_code == 307
    assert "Zebediah" not in answer.headers["location"]
    shown = page.post(answer.headers["location"], data=sent)
    assert shown.status_code == 200
    assert b"Zebediah" not in b"".join(one.read_bytes() for one in home.folder.iterdir())


@pytest.mark.parametrize(
    ("sent", "said"),
    [
        ({"class": ""}, "Which class?"),
        ({"class": "x" * 60}, "longer than 40 letters"),
        ({"class": "2B", "day": "soon"}, "The day &#34;soon&#34; cannot be read"),
        ({"class": "2B", "within": "4"}, "4"),
        ({"class": "2B", "strategy": "count-up", "situation": "nowhere"}, "nowhere"),
        ({"class": "2B", "count": "501"}, "at most 500 stories"),
        ({"class": "2B", "pair": "3 + 4", "count": "500"}, "could be found"),
    ],
)
def test_a_hand_out_that_cannot_be_is_said_and_nothing_is_recorded(
    page: TestClient, home: Home, sent: dict[str, str], said: str
) -> None:
    answer = page.post("/bank/hand-out", data=sent)
    assert answer.status_code == 400
    assert said in re.sub(r"<[^>]*>", "", answer.text)
    assert f'name="class" value="{sent["class"]}"' in answer.text
    if home.bank.exists():
        with Bank(home.bank) as bank:
            assert not bank.actions()
            assert not bank.classes()


def test_classes_show_what_they_had_and_the_last_thing_is_undone_once(
    kept: TestClient, home: Home
) -> None:
    for number, day in (("1", "2026-09-01"), ("2", "2026-09-02")):
        sent = {"number": number, "do": "used", "class": "2B & co", "day": day}
        kept.post("/bank/mark", data=sent)
    text = kept.get("/bank/classes?class=2B+%26+co").text
    assert text.index('<a href="/set?kept=2">') < text.index('<a href="/set?kept=1">')
    action = re.search(r'name="action" value="([0-9]+)"', text)
    assert action is not None
    undone = kept.post("/bank/undo", data={"action": action[1]})
    assert undone.status_code == 303
    assert "Taken back: recorded for a class" in kept.get(undone.headers["location"]).text
    again = kept.post("/bank/undo", data={"action": action[1]})
    assert again.status_code == 400
    assert "is not the last thing done to this bank any more" in alert(again.text)
    with Bank(home.bank, create=False) as bank:
        assert [len(one.problems) for one in bank.history("2B & co")] == [1]
    assert "No class" in alert(kept.get("/bank/classes?class=4D").text)
    assert kept.post("/bank/undo", data={"action": "last"}).status_code == 400


def test_what_was_found_comes_out_and_back_in_whole(kept: TestClient, tmp_path: Path) -> None:
    kept.post("/bank/mark", data={"number": "2", "do": "star"})
    kept.post("/bank/mark", data={"number": "2", "do": "used", "class": "2B"})
    lines = kept.post("/bank/take-out", data={"what": "jsonl"})
    assert 'filename="storybank-bank.jsonl"' in lines.headers["content-disposition"]
    assert len(lines.text.splitlines()) == 6
    table = kept.post("/bank/take-out?starred=yes", data={"what": "csv"})
    assert table.content.startswith("\ufeffnumber,code,star".encode())
    assert table.text.count("\r\n") == 2
    word = kept.post("/bank/take-out?code=%232", data={"what": "docx"})
    with zipfile.ZipFile(io.BytesIO(word.content)) as archive:
        assert any(name.endswith(".docx") for name in archive.namelist())
    assert kept.post("/bank/take-out?words=zebra", data={"what": "csv"}).status_code == 400
    assert kept.post("/bank/take-out", data={"what": "exe"}).status_code == 400
    other = Home(tmp_path / "other", tmp_path / "other" / "our.bank")
    with TestClient(create_app(other), base_url="http://127.0.0.1:8420") as theirs:
        for name, data, said in (
            ("all.jsonl", lines.content, "6 stories kept; 0 were there already."),
            ("Again.CSV", table.content, "0 stories kept; 1 were there already."),
        ):
            sent = theirs.post("/bank/take-in", files={"file": (name, data)})
            assert said in sent.text
        assert theirs.post("/bank/take-out", data={"what": "jsonl"}).content == lines.content


def test_a_set_and_another_bank_are_taken_in(page: TestClient, home: Home, tmp_path: Path) -> None:
    taken = page.post(f"/take?{SET}", data={"what": "json"}).content
    done = page.post("/bank/take-in", files={"file": ("../set.json", taken)})
    assert "6 stories kept" in done.text
    ours, _ = two_banks(tmp_path)
    done = page.post("/bank/take-in", files={"file": ("whatever.bin", ours.read_bytes())})
    assert "16 of 16 stories of the other bank are new here." in done.text
    with Bank(home.bank, create=False) as bank:
        assert bank.count() == 22
        assert bank.classes() == ["2b"]
    assert [one.name for one in home.folder.iterdir()] == ["our.bank"]


def test_bad_lines_are_named_or_passed_over(kept: TestClient, home: Home) -> None:
    lines = kept.post("/bank/take-out", data={"what": "jsonl"}).text.splitlines()
    home.bank.unlink()
    node = json.loads(lines[1])
    node["problem"]["answer"] = 99
    data = "\n".join([lines[0], json.dumps(node), "nonsense", *lines[2:]]).encode()
    files = {"file": ("lines.jsonl", data)}
    refused = kept.post("/bank/take-in", files=files)
    assert refused.status_code == 400
    assert "line 2" in alert(refused.text)
    with Bank(home.bank) as bank:
        assert bank.count() == 0
    passed = kept.post("/bank/take-in", files=files, data={"skip-bad": "yes"}).text
    assert "5 stories kept; 0 were there already. 2 bad ones were passed over." in passed
    assert "<li>Line 2: " in passed
    assert "<li>Line 3: it is not valid JSON" in passed


def test_other_files_are_refused_without_a_trace(
    page: TestClient, home: Home, monkeypatch: pytest.MonkeyPatch
) -> None:
    database = io.BytesIO()
    with closing(sqlite3.connect(":memory:")) as connection:
        connection.execute("CREATE TABLE mine (one)")
        database.write(connection.serialize())
    for name, data, said in (
        ("a.docx", b"PK\x03\x04", "neither a bank nor a file whose name ends in"),
        ("a.bank", database.getvalue(), "is a database of another program, not a bank"),
        ("a.bank", b"SQLite format 3\x00" + b"\xff" * 5000, "uploaded.bank"),
        ("a.json", b"[1]", "is no set of problems"),
        ("a.jsonl", b"", "No file came, or an empty one."),
    ):
        answer = page.post("/bank/take-in", files={"file": (name, data)})
        assert answer.status_code == 400, name
        assert said in alert(answer.text)
        assert "Traceback" not in answer.text
        assert tempfile.gettempdir() not in alert(answer.text)
        assert not home.bank.exists()
    from storybank.web import _bank_files

    monkeypatch.setattr(_bank_files, "MOST_TEXT", 100)
    large = page.post("/bank/take-in", files={"file": ("a.jsonl", b"x" * 101)})
    assert "storybank bank import" in alert(large.text)


def test_the_bank_is_checked_and_backed_up(
    kept: TestClient, home: Home, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert "All is sound: 6 stories, 6 judged afresh." in kept.post("/bank/check").text
    written = kept.post("/bank/back-up")
    assert written.status_code == 303
    (backup,) = home.folder.glob("our.bank.backup-*")
    assert f"The backup is written: {backup.name}" in kept.get(written.headers["location"]).text
    with Bank(backup) as bank:
        assert bank.count() == 6
    with closing(sqlite3.connect(home.bank)) as connection:
        connection.execute("UPDATE problem SET text = 'other' WHERE id = 3")
        connection.commit()
    found = kept.post("/bank/check")
    assert "The bank has" in alert(found.text)
    assert "problem #3" in found.text
    monkeypatch.setattr(_bank_care, "MOST_CHECKED", 5)
    assert "storybank bank check" in alert(kept.post("/bank/check").text)


def test_figures_are_those_of_the_bank(kept: TestClient) -> None:
    assert "What the bank holds, in figures</a>" in kept.get("/bank").text
    text = kept.get("/bank?figures=yes").text
    assert '<th scope="row">problems</th><td class="sum">6</td>' in text


def test_a_locked_damaged_newer_or_foreign_bank_is_said(
    kept: TestClient, home: Home, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(_bank_open, "WAIT", 0.1)
    with closing(sqlite3.connect(home.bank, isolation_level=None)) as connection:
        connection.execute("BEGIN IMMEDIATE")
        for address in (f"/bank/keep?{SET}&theme=winter-days", "/bank/mark", "/bank/hand-out"):
            sent = {"number": "1", "do": "star", "class": "2B"}
            answer = kept.post(address, data=sent)
            assert answer.status_code == 400
            assert "Another program has been writing to the bank" in alert(answer.text)
        connection.execute("ROLLBACK")
        connection.execute("PRAGMA user_version = 99")
    pages = ("/bank", "/bank/classes")
    for address in pages:
        assert "was written by a newer Storybank" in alert(kept.get(address).text)
    for data in (b"SQLite format 3\x00" + b"\x01" * 9000, b"no bank at all " * 99, b""):
        for beside in home.folder.iterdir():
            beside.unlink()
        home.bank.write_bytes(data)
        for address in pages:
            answer = kept.get(address)
            assert answer.status_code == 400
            assert "our.bank" in alert(answer.text)
        for address in ("/bank/check", "/bank/back-up", f"/bank/keep?{SET}"):
            if data:
                assert "our.bank" in alert(kept.post(address).text)


def test_what_others_wrote_is_shown_as_text(kept: TestClient) -> None:
    note = "<script>alert(1)</script>\"'><b>"
    kept.post("/bank/mark", data={"number": "1", "do": "note", "note": note})
    kept.post("/bank/mark", data={"number": "1", "do": "used", "class": '"><i>2B'})
    for address in ("/bank", "/bank/classes?class=%22%3E%3Ci%3E2B", "/set?kept=1"):
        text = kept.get(address).text
        assert "<script>alert" not in text
        assert "<i>2B" not in text
    assert "&lt;script&gt;alert(1)" in kept.get("/bank").text
