"""Every page in every state: accessible, in its width, large enough to touch, without complaint."""

from typing import Any, Literal

import pytest
from axe_playwright_python.base import AXE_SCRIPT, AxeResults
from playwright.sync_api import Page
from web.browser.conftest import OpenPage
from web.browser.states import STATES, unroll

_MORE = (
    "target-size", "label-content-name-mismatch", "focus-order-semantics", "css-orientation-lock",
    "p-as-heading", "table-fake-caption", "td-has-header",
)  # fmt: skip
ALL = {"resultTypes": ["violations"], "rules": {name: {"enabled": True} for name in _MORE}}
"""All rules of axe for WCAG 2.2 A and AA, its best practices, and its experiments, which it leaves
out unless they are asked for. Its rules for AAA stay out: no page aims at AAA."""
OF_LOOKS = {
    "resultTypes": ["violations"],
    "runOnly": [
        "color-contrast",
        "link-in-text-block",
        "target-size",
        "scrollable-region-focusable",
    ],
}
"""The rules whose verdict hangs on colours and on the width."""
LOOKS: list[tuple[int, Literal["light", "dark"], dict[str, Any]]] = [
    (1024, "light", ALL), (1024, "dark", OF_LOOKS), (360, "light", OF_LOOKS), (360, "dark", ALL),
]  # fmt: skip
SMALLEST = 24
"""WCAG 2.2, success criterion 2.5.8, in CSS pixels; from memory."""
_SMALL = """
(smallest) => [...document.querySelectorAll("button, .actions a, summary, nav a, select")]
  .filter((one) => one.checkVisibility())
  .map((one) => [one.textContent.trim(), one.getBoundingClientRect()])
  .filter(([, box]) => box.width < smallest || box.height < smallest)
  .map(([text, box]) => `${text}: ${box.width} x ${box.height}`)
"""
_TOO_WIDE = """
() => document.documentElement.scrollWidth > innerWidth
  ? [...document.querySelectorAll("body *")]
      .filter((one) => one.getBoundingClientRect().right > innerWidth + 1)
      .map((one) => one.outerHTML.slice(0, 120))
  : []
"""


def found_by_axe(page: Page, rules: dict[str, Any]) -> str:
    """What axe finds, as a text; empty where nothing is wrong."""
    if not page.evaluate("() => 'axe' in window"):
        page.evaluate(AXE_SCRIPT)
    found = AxeResults(page.evaluate("(rules) => axe.run(document, rules)", rules))
    return found.generate_report() if found.violations_count else ""


@pytest.mark.parametrize("state", STATES)
def test_page(opened: OpenPage, state: str) -> None:
    with opened(viewport={"width": 1024, "height": 768}) as (page, _):
        STATES[state].come_to(page)
        for width, scheme, rules in LOOKS:
            page.emulate_media(color_scheme=scheme)
            unroll(page, width)
            assert found_by_axe(page, rules) == "", f"{width} {scheme}"
            assert page.evaluate(_TOO_WIDE) == [], width
            assert page.evaluate(_SMALL, SMALLEST) == [], width
        # A window of 1280 dots has 640 CSS pixels at 200 %, and 320 at 400 %, where the text is as
        # large for its width as in this one with its text alone at 200 %.
        page.set_viewport_size({"width": 640, "height": 400})
        assert page.evaluate(_TOO_WIDE) == [], "200 %"
        page.evaluate("() => { document.documentElement.style.fontSize = '225%' }")
        assert page.evaluate(_TOO_WIDE) == [], "200 %, text at 200 %"


def test_what_is_wrong_is_found(page: Page) -> None:
    """The checks above can fail."""
    page.goto("/explain")
    page.evaluate(
        """() => {
          document.querySelector("label").remove();
          document.querySelector("button").style = "min-height: 0; padding: 0; height: 20px";
          document.querySelector("h1").style = "width: 2000px";
        }"""
    )
    assert "label" in found_by_axe(page, ALL)
    page.locator("h1").evaluate("(one) => { one.style.color = '#eee' }")
    assert "color-contrast" in found_by_axe(page, OF_LOOKS)
    assert page.evaluate(_SMALL, SMALLEST)
    assert page.evaluate(_TOO_WIDE)


def test_what_the_policy_forbids_is_noticed(opened: OpenPage) -> None:
    with pytest.raises(AssertionError, match="Content Security Policy"), opened() as (page, _):
        page.goto("/")
        page.evaluate("() => { document.body.innerHTML += '<p style=\"color: red\">red</p>' }")


def test_another_host_is_noticed(opened: OpenPage) -> None:
    with pytest.raises(AssertionError, match="elsewhere"), opened(bypass_csp=True) as (page, _):
        page.route("**/*.invalid/*", lambda route: route.fulfill(status=204))
        page.goto("/")
        page.evaluate("() => fetch('http://elsewhere.invalid/', {mode: 'no-cors'})")
