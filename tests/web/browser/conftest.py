"""A real browser, and the pages in a process of their own; each worker has its own of both."""

from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect, sync_playwright
from web.browser.running import Server
from web.browser.watching import Watched, watched

SECONDS = 15
"""How long the browser waits for anything before the test fails."""
OpenPage = Callable[..., AbstractContextManager[tuple[Page, Watched]]]


@pytest.fixture(scope="session")
def server(
    tmp_path_factory: pytest.TempPathFactory, needs_program: Callable[[str], str]
) -> Iterator[Server]:
    """The pages of a teacher who has nothing yet."""
    needs_program("chromium")
    running = Server(tmp_path_factory.mktemp("teacher"))
    running.start()
    yield running
    running.stop()


@pytest.fixture(scope="module")
def browser(needs_program: Callable[[str], str]) -> Iterator[Browser]:
    """Debian's Chromium. It ends with the module, since it holds the thread's event loop."""
    program = needs_program("chromium")
    with sync_playwright() as playwright:
        # The sandbox needs rights that root in a container has not; only our own pages are shown.
        launched = playwright.chromium.launch(executable_path=program, args=["--no-sandbox"])
        expect.set_options(timeout=SECONDS * 1000)
        yield launched
        launched.close()


@pytest.fixture
def opened(browser: Browser, server: Server) -> OpenPage:
    """A function that opens a page in a context of its own; its end looks for complaints.

    What it takes are the options of a context; addresses may begin at the root.
    """

    @contextmanager
    def open_page(**options: Any) -> Iterator[tuple[Page, Watched]]:
        # Nothing glides, so that what is looked at stands still.
        still: dict[str, Any] = {"reduced_motion": "reduce", "base_url": server.address}
        with browser.new_context(**still, **options) as context:
            context.set_default_timeout(SECONDS * 1000)
            with watched(context, server.address) as found:
                yield found

    return open_page


@pytest.fixture
def page(opened: OpenPage) -> Iterator[Page]:
    """A page of usual width, with scripts."""
    with opened(viewport={"width": 1024, "height": 768}) as (found, _):
        yield found
