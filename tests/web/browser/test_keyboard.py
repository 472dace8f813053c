"""All of it by the keyboard alone: the focus is always seen, and goes in the order of the page."""

import re
from typing import Any

import pytest
from playwright.sync_api import Page, expect
from web.browser.conftest import OpenPage
from web.browser.states import SET, STATES
from web.browser.told import texts

MOST_STOPS = 250
_FOCUS = """
() => {
  const one = document.activeElement;
  const box = one.getBoundingClientRect();
  const style = getComputedStyle(one);
  const [x, y] = [box.left + box.width / 2, box.top + Math.min(box.height, 40) / 2];
  const there = document.elementFromPoint(x, y);
  const part = one.closest("fieldset:not(.inner):has(h2), .more, .send");
  return {
    name: one.getAttribute("aria-label") || one.labels?.[0]?.textContent.trim()
      || one.textContent.trim() || one.type || one.tagName,
    value: one.value || "",
    outlined: style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2,
    onTop: there !== null && (one.contains(there) || there.contains(one)),
    part: part ? part.id || "send" : "",
    tag: one.tagName,
    left: one === document.body,
  };
}
"""


def focused(page: Page) -> dict[str, Any]:
    """What has the focus, and how it is seen."""
    found: dict[str, Any] = page.evaluate(_FOCUS)
    return found


def seen(stop: dict[str, Any]) -> bool:
    return bool(stop["outlined"] and stop["onTop"])


def tab_to(page: Page, name: str, value: str = "") -> dict[str, Any]:
    """Presses Tab until what begins with this name, or has this value, has the focus."""
    for _ in range(MOST_STOPS):
        page.keyboard.press("Tab")
        stop = focused(page)
        if stop["name"].startswith(name) and (not value or stop["value"] == value):
            assert seen(stop), stop
            return stop
    raise AssertionError(f"{name} does not get the focus")


def press(page: Page, key: str) -> None:
    """Presses a key that leads to another page."""
    with page.expect_navigation():
        page.keyboard.press(key)


@pytest.mark.parametrize("width", [1024, 360])
@pytest.mark.parametrize(
    "state",
    [
        "form", "form, everything opened", "set, changed", "set with names, everything opened",
        "set, reworded badly", "set, beside level 2", "board, step 2", "explain, found",
    ],
)  # fmt: skip
def test_every_stop_is_seen(opened: OpenPage, state: str, width: int) -> None:
    """No stop is without an outline, nor under a bar that sticks to an edge."""
    with opened(viewport={"width": width, "height": 640}) as (page, _):
        STATES[state].come_to(page)
        page.evaluate("() => { location.hash = ''; document.activeElement.blur(); scrollTo(0, 0) }")
        stops = []
        for _ in range(MOST_STOPS):
            page.keyboard.press("Tab")
            stop = focused(page)
            if stop["left"]:
                break
            stops.append(stop)
        assert stops and stops[-1]["name"] in ("Close Storybank", "All stories")
        assert [one for one in stops if not seen(one)] == []


def test_the_parts_of_the_form_come_in_order(page: Page) -> None:
    page.goto("/")
    parts: list[str] = []
    for _ in range(MOST_STOPS):
        page.keyboard.press("Tab")
        stop = focused(page)
        if stop["left"]:
            break
        if stop["part"] and stop["part"] not in parts[-1:]:
            parts.append(stop["part"])
    assert parts == [
        "theme", "strategy", "kind", "numbers", "english", "who", "more", "send", "for-a-class",
    ]  # fmt: skip


@pytest.mark.parametrize(
    "address", ["/", f"/set?{SET}", f"/board?{SET}&story=1&step=1", "/explain"]
)
def test_the_skip_link_leads_to_the_main_part(page: Page, address: str) -> None:
    page.goto(address)
    page.keyboard.press("Tab")
    assert focused(page)["name"] == "Go to the main part"
    assert seen(focused(page))
    page.keyboard.press("Enter")
    expect(page.locator("main")).to_be_focused()
    page.keyboard.press("Tab")
    assert page.evaluate("() => document.activeElement.closest('main') !== null")


def test_the_whole_way(page: Page) -> None:
    page.goto("/")
    tab_to(page, "Winter days")
    page.keyboard.press("Space")
    tab_to(page, "Friendly number")
    page.keyboard.press("Space")
    tab_to(page, "Level 4")
    page.keyboard.press("ArrowUp")
    assert focused(page)["value"] == "level-3"
    tab_to(page, "Stories")
    page.keyboard.type("3")
    tab_to(page, "More kinds of story")
    page.keyboard.press("Enter")
    tab_to(page, "Number of the set")
    page.keyboard.type("7")
    tab_to(page, "Show the stories")
    press(page, "Enter")
    expect(page.get_by_role("heading", level=1)).to_contain_text("3 stories")
    assert "theme=winter-days&strategy=friendly-then-compensate&count=3&seed=7" in page.url

    first = texts(page)
    tab_to(page, "Swap story 2 for another")
    press(page, "Enter")
    at_the_story(page, 2)
    assert texts(page)[1] != first[1]

    # What comes next is in that very story: nothing has to be gone through again.
    page.keyboard.press("Tab")
    assert page.evaluate("() => document.activeElement.closest('#story-2') !== null")
    worked = page.locator("#story-2 details", has=page.get_by_text("Worked solution", exact=True))
    if focused(page)["name"] != "Worked solution":
        tab_to(page, "Worked solution")
    page.keyboard.press("Space")
    expect(worked).to_have_attribute("open", "")

    told = texts(page)[1]
    tab_to(page, "Change the words")
    page.keyboard.press("Enter")
    tab_to(page, "The story, its question last")
    page.keyboard.press("Control+Home")
    page.keyboard.type("It was cold. ")
    tab_to(page, "Check and use these words")
    press(page, "Enter")
    at_the_story(page, 2)
    assert texts(page)[1].replace("\n", " ") == f"It was cold. {told}".replace("\n", " ")

    tab_to(page, "Move story 2 up")
    press(page, "Space")
    at_the_story(page, 1)
    assert texts(page)[0].startswith("It was cold.")
    tab_to(page, "Student pages (Word)")
    with page.expect_download() as found:
        page.keyboard.press("Enter")
    assert found.value.suggested_filename == "student.docx"


def at_the_story(page: Page, place: int) -> None:
    """The story that changed has the focus and is in sight, below what sticks to the top."""
    expect(page.locator(f"#story-{place}")).to_be_focused()
    said = page.get_by_role("status").bounding_box()
    box = page.locator(f"#story-{place}").bounding_box()
    assert said is not None and box is not None
    assert said["y"] + said["height"] <= box["y"] < 400


@pytest.mark.parametrize("names", ["no names", "names"])
def test_the_board(opened: OpenPage, names: str) -> None:
    with opened() as (page, _):
        if names == "names":
            STATES["set with names"].come_to(page)
            page.get_by_role("button", name="Show on the board").click()
        else:
            page.goto(f"/board?{SET}&story=1&step=0")
        heading = page.get_by_role("heading", level=1)
        expect(heading).to_contain_text("Story 1 of 3")
        steps = page.locator(".shown h2")
        shown = []
        while page.get_by_text("Next step").filter(visible=True).count():
            press(page, "ArrowRight")
            shown.append(steps.inner_text())
        assert shown[0] == "Equation" and shown[-1] == "Answer" and len(shown) >= 4
        page.keyboard.press("ArrowRight")  # There is no further step; nothing happens.
        press(page, "ArrowLeft")
        expect(steps).to_have_text(shown[-2])
        press(page, "PageDown")
        expect(heading).to_contain_text("Story 2 of 3")
        expect(steps).to_have_count(0)
        press(page, "PageUp")
        expect(heading).to_contain_text("Story 1 of 3")
        press(page, "Escape")
        expect(page.locator("#story-1")).to_be_focused()
        assert re.search(r"/set\?.*#story-1$", page.url)


def test_nothing_moves_on_the_board_from_step_to_step(page: Page) -> None:
    """Whoever presses "Next step" again and again need not look for it."""
    page.goto(f"/board?{SET}&story=1&step=0")
    places = set()
    while page.get_by_role("link", name="Next step").count():
        box = page.get_by_role("link", name="Next step").bounding_box()
        assert box is not None
        places.add((box["x"], box["y"]))
        with page.expect_navigation():
            page.get_by_role("link", name="Next step").click()
    assert len(places) == 1
