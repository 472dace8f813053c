"""A teacher's whole way: choose, read, change, edit, take; with names of her class and without."""

import csv
import io
import json
import re
import zipfile
from pathlib import Path

import pytest
from docx import Document
from docx.document import Document as DocumentType
from playwright.sync_api import Error, Locator, Page, expect
from web.browser.conftest import OpenPage
from web.browser.running import Server
from web.browser.told import shown, texts

NAMES = ["Zofi", "Quim", "Ynes", "Tavi"]
"""Names that stand in no list of ours and in no word of an address."""
STORY = ("Story", "StoryQuestion")
W = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}"


def choose(page: Page, names: list[str], count: int = 6) -> None:
    """Chooses theme, strategy, kinds, English, how many and who, and sends it."""
    page.goto("/")
    page.get_by_label("Autumn harvest").check()
    page.get_by_label("Friendly number, then compensate").check()
    for group in ("Join: some more come", "Separate: some go away"):
        cells = page.get_by_role("group", name=group)
        cells.get_by_role("checkbox", name="Result unknown").check()
        cells.get_by_role("checkbox", name="Change unknown").check()
    page.get_by_role("radio", name="Level 3").check()
    page.get_by_label("Stories", exact=True).fill(str(count))
    page.get_by_label("Or your class list").fill("\n".join(names))
    page.get_by_text("More kinds of story, subjects left out").click()
    page.get_by_label("Number of the set").fill("11")
    page.get_by_role("button", name="Show the stories").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text(f"{count} stories")


def act(page: Page, name: str) -> None:
    """Presses what has this name, be it a link or a button, and waits for the page."""
    doer = page.get_by_role("link", name=name, exact=True)
    with page.expect_navigation():
        doer.or_(page.get_by_role("button", name=name, exact=True)).click()


def story(page: Page, place: int) -> Locator:
    return page.locator(f"#story-{place}")


def reword(page: Page, place: int, text: str) -> None:
    """Writes a story in other words, where it stands."""
    form = story(page, place).locator("details", has_text="The story, its question last")
    if form.get_attribute("open") is None:
        form.get_by_text("Change the words").click()
    form.get_by_label("The story, its question last").fill(text)
    with page.expect_navigation():
        form.get_by_role("button", name="Check and use these words").click()


def taken(page: Page, name: str) -> bytes:
    """What is downloaded where the button of this name is pressed."""
    with page.expect_download() as found:
        page.get_by_role("button", name=name, exact=True).click()
    path = found.value.path()
    return Path(path).read_bytes()


def printed(page: Page) -> str:
    """The text of the page to print, which opens beside."""
    with page.context.expect_page() as found:
        page.get_by_role("button", name="To print from the browser").click()
    beside = found.value
    text = beside.locator("body").inner_text()
    beside.close()
    return text


def paragraphs(document: DocumentType, *styles: str) -> list[str]:
    """The paragraphs of some styles, those in tables too, in the order of the file."""
    found = []
    for one in document.element.body.iter(f"{W}p"):
        style = one.find(f"{W}pPr/{W}pStyle")
        if style is not None and style.get(f"{W}val") in styles:
            found.append("".join(part.text or "" for part in one.iter(f"{W}t")))
    return found


def changed_places(before: list[str], after: list[str]) -> list[int]:
    """The places, from 1, at which the texts differ."""
    assert len(before) == len(after)
    pairs = zip(before, after, strict=True)
    return [at for at, (one, other) in enumerate(pairs, 1) if one != other]


def without_numbers(text: str) -> str:
    return re.sub(r"\d+", "#", text)


def check_files(page: Page, names: list[str]) -> None:
    """What can be taken holds exactly what the page shows."""
    stories = shown(page)
    lines = [line for one in stories for line in one.text.split("\n")]
    titles = [f"Problem {at} · {one.code}" for at, one in enumerate(stories, 1)]

    student = taken(page, "Student pages (Word)")
    sheet = Document(io.BytesIO(student))
    assert paragraphs(sheet, *STORY) == lines
    assert paragraphs(sheet, "Heading1") == titles
    key = Document(io.BytesIO(taken(page, "Key (Word)")))
    assert paragraphs(key, "Heading2") == titles
    worked = "\n".join(paragraphs(key, "KeyNote", "KeyFacts"))
    place = 0
    for one in stories:
        # Each answer stands behind its own story and before the next one.
        for said in (one.text.replace("\n", " "), one.answer):
            place = worked.index(said, place) + len(said)
    told = "\n".join(lines)
    assert all(name in told for name in names)

    made = json.loads(taken(page, "JSON"))
    assert [one["code"] for one in made["problems"]] == [one.code for one in stories]
    rows = list(csv.DictReader(io.StringIO(taken(page, "Table (CSV)").decode("utf-8-sig"))))
    assert [one["code"] for one in rows] == [one.code for one in stories]
    paper = printed(page)
    assert all(line in paper for line in lines)
    with zipfile.ZipFile(io.BytesIO(taken(page, "All files in one .zip"))) as archive:
        assert archive.testzip() is None
        files = {one: archive.read(one) for one in archive.namelist()}
    assert {Path(one).suffix for one in files} == {".docx", ".html", ".csv", ".json"}
    zipped = Document(io.BytesIO(files["student.docx"]))
    assert paragraphs(zipped, *STORY) == lines


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
def test_with_names_and_own_words(opened: OpenPage, server: Server, scripts: bool) -> None:
    with opened(java_script_enabled=scripts) as (page, seen):
        choose(page, NAMES)
        first = texts(page)
        assert all(any(name in text for name in NAMES) for text in first)

        act(page, "Swap story 2 for another")
        expect(page.get_by_role("status")).to_contain_text("Story 2 was swapped.")
        act(page, "Swap story 4 for another")
        assert page.url.endswith("#story-4")
        swapped = texts(page)
        assert changed_places(first, swapped) == [2, 4]

        act(page, "Other numbers for story 3")
        renumbered = texts(page)
        assert changed_places(swapped, renumbered) == [3]
        assert without_numbers(renumbered[2]) == without_numbers(swapped[2])

        number = re.findall(r"\d+", renumbered[0])[0]
        reword(page, 1, renumbered[0].replace(number, "some", 1))
        fault = story(page, 1).get_by_role("group", name="What no longer holds of story 1")
        expect(fault.locator(".fault").filter(has_text=number)).to_have_count(1)
        bad = texts(page)
        assert changed_places(renumbered, bad) == [1]
        own = f"It was a bright day. {renumbered[0]}"
        reword(page, 1, own)
        expect(fault.locator(".fault")).to_have_count(0)
        expect(story(page, 1).get_by_text("Your own words")).to_be_visible()
        act(page, "Undo")
        assert texts(page) == bad
        reword(page, 1, own)
        edited = texts(page)
        assert changed_places(renumbered, edited) == [1]
        assert edited[0].replace("\n", " ") == own.replace("\n", " ")

        for place in (1, 2, 3):
            page.get_by_label(f"Leave as it is: story {place}").check()
        act(page, "Replace all others")
        renewed = texts(page)
        assert changed_places(edited, renewed) == [4, 5, 6]

        act(page, "Move story 1 down")
        moved = texts(page)
        assert moved == [renewed[1], renewed[0], *renewed[2:]]
        act(page, "Remove story 5")
        left = texts(page)
        assert left == [*moved[:4], moved[5]]

        act(page, "level 2")
        assert texts(page) == left
        others = page.locator(".text.other")
        expect(others).to_have_count(5)
        told = [one for one in others.all_inner_texts() if one.startswith("Level 2")]
        assert told, "no story is shown at level 2"

        check_files(page, NAMES)
        assert any(own.split(".")[0] in text for text in texts(page))
        assert seen.naming(NAMES) == []
    assert not [name for name in NAMES if name in server.said()]


def test_without_names_everything_is_a_link(opened: OpenPage) -> None:
    with opened() as (page, _):
        choose(page, [], 4)
        for name in ("Swap story 1 for another", "Move story 3 up", "Story 2 on the board"):
            expect(page.get_by_role("link", name=name)).to_have_count(1)
        first = texts(page)
        act(page, "Swap story 1 for another")
        act(page, "Move story 3 up")
        act(page, "One story more")
        expect(page.locator("#story-5")).to_be_in_viewport()
        act(page, "Remove story 4")
        changed = texts(page)
        assert changed[2] == first[1] and changed[1] == first[2] and len(changed) == 4

        page.get_by_label("Show each story also at").select_option("level 2")
        act(page, "Show")
        assert texts(page) == changed
        assert len(page.locator(".text.other").all()) == 4
        check_files(page, [])
        # All that was done stands in the address.
        page.reload()
        assert texts(page) == changed


def test_back_is_undo(page: Page) -> None:
    choose(page, [], 3)
    first = texts(page)
    act(page, "Swap story 2 for another")
    assert texts(page) != first
    page.go_back()
    assert texts(page) == first


def test_a_page_with_names_is_not_kept_by_the_browser(page: Page) -> None:
    """Back would have to send the form again, and the browser asks first; so the page has Undo."""
    choose(page, NAMES, 3)
    first = texts(page)
    act(page, "Remove story 1")
    assert texts(page) == first[1:]
    act(page, "Undo")
    assert texts(page) == first
    with pytest.raises(Error, match="ERR_CACHE_MISS"):
        page.go_back()


def test_a_page_with_names_is_kept_over_a_reload(page: Page) -> None:
    choose(page, NAMES, 3)
    act(page, "Swap story 2 for another")
    before = texts(page)
    page.reload()
    assert texts(page) == before
    assert any(name in text for name in NAMES for text in before)


@pytest.mark.parametrize("of_names", ["typed", "in a file"])
def test_names_in_a_file_do_as_typed_ones(opened: OpenPage, of_names: str) -> None:
    """The choices can be gone back to, with the names still in them."""
    with opened() as (page, seen):
        if of_names == "typed":
            choose(page, NAMES, 3)
        else:
            page.goto("/")
            data = "\ufeff" + "\r\n".join(NAMES)
            file = {"name": "class.txt", "mimeType": "text/plain", "buffer": data.encode()}
            page.get_by_label("Or a file of names").set_input_files([file])
            page.get_by_role("button", name="Show the stories").click()
        assert any(name in text for name in NAMES for text in texts(page))
        act(page, "Change the choices")
        assert page.get_by_label("Or your class list").input_value().split() == NAMES
        assert seen.naming(NAMES) == []
