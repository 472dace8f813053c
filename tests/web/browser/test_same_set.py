"""An address gives the same set again: another browser, another day, the server started anew."""

from pathlib import Path

from playwright.sync_api import Browser, Page
from web.browser.running import Server
from web.browser.told import shown, texts

ADDRESS = (
    "/set?theme=winter-days&strategy=any&count=4&seed=5&vocabulary=level-2"
    "&change=swap-2&change=numbers-3&change=down-1&change=more&change=remove-4"
)


def told(browser: Browser, address: str) -> list[object]:
    """What a browser that knows nothing shows there."""
    with browser.new_context() as context:
        page = context.new_page()
        page.goto(address)
        return [*shown(page)]


def test_the_same_after_the_server_was_started_anew(browser: Browser, tmp_path: Path) -> None:
    """It has a server of its own, so that others may run beside it."""
    server = Server(tmp_path)
    server.start()
    address = server.address
    first = told(browser, address + ADDRESS)
    server.stop()
    server.start()
    try:
        assert server.address == address
        assert told(browser, address + ADDRESS) == first
        assert len(first) == 4
        # It can tell sets apart: other luck gives other stories.
        assert told(browser, address + ADDRESS.replace("seed=5", "seed=6")) != first
    finally:
        server.stop()


def test_a_bookmark_of_a_class_gives_the_set_with_our_names(page: Page) -> None:
    page.goto("/")
    page.get_by_label("Winter days").check()
    page.get_by_label("Or your class list").fill("Zofi\nQuim")
    page.get_by_role("button", name="Show the stories").click()
    page.wait_for_url("**/set?*")
    hers = texts(page)
    page.goto(page.url)
    ours = texts(page)
    assert len(ours) == len(hers)
    assert any("Zofi" in one or "Quim" in one for one in hers)
    assert not any("Zofi" in one or "Quim" in one for one in ours)
