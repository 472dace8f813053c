"""What cannot go together is said beside its field: before anything is pressed, and after."""

from urllib.parse import parse_qs, urlsplit

import pytest
from playwright.sync_api import Page, expect
from web.browser.conftest import OpenPage

Chosen = list[tuple[str, str]]
CASES: dict[str, tuple[Chosen, set[str]]] = {
    "two kinds of story": ([("steps", "2"), ("addends", "3")], {"steps", "addends"}),
    "a kind that does not suit": (
        [("strategy", "make-a-ten"), ("situation", "compare-difference-unknown-more")],
        {"strategy", "situation"},
    ),
    "a number too small": ([("within", "4")], {"within"}),
    "no number": ([("count", "many")], {"count"}),
}
"""What is chosen, and the fields beside which the reason stands."""


def choose(page: Page, chosen: Chosen) -> None:
    """Chooses the values, each in its field; a field is left before the next one."""
    page.goto("/")
    page.get_by_text("More kinds of story, subjects left out").click()
    for name, value in chosen:
        box = page.locator(f'input[type="checkbox"][name="{name}"][value="{value}"]')
        if box.count():
            box.check()
        elif page.locator(f'select[name="{name}"]').count():
            page.locator(f'select[name="{name}"]').select_option(value)
        else:
            page.locator(f'input[name="{name}"]').fill(value)
            page.keyboard.press("Tab")


def blamed(page: Page) -> set[str]:
    """The fields beside which a reason is seen."""
    seen = page.locator("form.choose [data-fault]").filter(visible=True, has_text=".")
    return {one.get_attribute("data-fault") or "" for one in seen.all()} - {""}


@pytest.mark.parametrize("case", CASES)
def test_it_is_said_before_anything_is_pressed(opened: OpenPage, case: str) -> None:
    chosen, fields = CASES[case]
    with opened() as (page, seen):
        choose(page, chosen)
        bar = page.locator(".send .fault")
        expect(bar).to_be_visible()
        assert blamed(page) == fields
        assert {urlsplit(one).path for one in seen.asked} & {"/choose", "/set"} == set()
        # The bar leads to the reason, and is gone once the choices go together.
        bar.get_by_role("link").first.click()
        expect(page.locator(":target")).to_be_in_viewport()
        page.locator(".send").get_by_role("link", name="Clear all").click()
        expect(page.locator(".send .fault")).to_be_hidden()


@pytest.mark.parametrize(
    ("case", "scripts"), [("two kinds of story", True), *((case, False) for case in CASES)]
)
def test_it_is_said_after_sending(opened: OpenPage, case: str, scripts: bool) -> None:
    chosen, fields = CASES[case]
    with opened(java_script_enabled=scripts) as (page, _):
        choose(page, chosen)
        page.get_by_label("Or your class list").fill("Zofi\nQuim")
        page.get_by_role("button", name="Show the stories").click()
        alert = page.get_by_role("alert")
        expect(alert).to_be_visible()
        assert blamed(page) == fields
        expect(alert.get_by_role("link")).to_have_count(len(fields))
        # What was chosen is still there, and the names.
        for name, value in chosen:
            field = page.locator(f'[name="{name}"]')
            boxes = page.locator(f'[name="{name}"][value="{value}"]:checked')
            assert boxes.count() == 1 or field.first.input_value() == value, name
        assert page.get_by_label("Or your class list").input_value() == "Zofi\nQuim"


def test_what_goes_together_again_is_no_longer_blamed(page: Page) -> None:
    choose(page, [("steps", "2"), ("addends", "3")])
    expect(page.locator("#fault-steps")).to_be_visible()
    page.locator('select[name="addends"]').select_option("2")
    expect(page.locator("#fault-steps")).to_be_hidden()
    expect(page.locator(".send .fault")).to_be_hidden()
    assert blamed(page) == set()


def test_the_live_check_sends_no_names(opened: OpenPage) -> None:
    with opened() as (page, seen):
        page.goto("/")
        page.get_by_label("Or your class list").fill("Zofi\nQuim")
        page.get_by_label("Largest number").fill("4")
        with page.expect_response("**/check?*"):
            page.keyboard.press("Tab")
        checks = [one for one in seen.asked if "/check?" in one]
        assert checks and seen.naming(["Zofi", "Quim"]) == []
        sent = set(parse_qs(urlsplit(checks[-1]).query))
        assert "within" in sent and not sent & {"names", "names-file"}
        # Names alone ask for nothing.
        with page.expect_response("**/check?*") as answer:
            page.get_by_label("Or your class list").fill("Ynes")
            page.get_by_label("Or your class list").blur()
            page.get_by_label("Autumn harvest").check()
        assert "theme=autumn-harvest" in answer.value.url
        assert len([one for one in seen.asked if "/check?" in one]) == len(checks) + 1
