"""What a browser is seen to do: what it asks for, and what it complains of."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from urllib.parse import unquote_plus

from playwright.sync_api import BrowserContext, ConsoleMessage, Page, Request, Response


@dataclass
class Watched:
    """All that the pages of a context asked for, and their complaints.

    `refused` are the addresses that were answered by a page with a fault on it, which the browser
    writes to its console as well.
    """

    asked: list[str] = field(default_factory=list)
    complaints: list[str] = field(default_factory=list)
    refused: set[str] = field(default_factory=set)

    def watch(self, context: BrowserContext) -> None:
        """Watches everything in a context from now on."""
        context.on("request", self._request)
        context.on("response", self._response)
        context.on("console", self._console)
        context.on("weberror", lambda error: self.complaints.append(str(error.error)))

    def _request(self, request: Request) -> None:
        self.asked.append(request.url)

    def _response(self, response: Response) -> None:
        if response.status in (400, 404, 405) and response.request.is_navigation_request():
            self.refused.add(response.url)

    def _console(self, message: ConsoleMessage) -> None:
        if message.type in ("error", "warning") and not self._is_a_fault_page(message):
            self.complaints.append(f"{message.type}: {message.text}")

    def _is_a_fault_page(self, message: ConsoleMessage) -> bool:
        """Whether the browser only says that a page came with a fault on it."""
        found = message.text.startswith("Failed to load resource") and message.location
        return bool(found) and message.location["url"].partition("#")[0] in {
            one.partition("#")[0] for one in self.refused
        }

    def asked_elsewhere(self, address: str) -> list[str]:
        """What was asked for of another host than the one of `address`."""
        ours = (f"{address}/", "data:", "blob:")
        return [one for one in self.asked if not one.startswith(ours)]

    def naming(self, words: list[str]) -> list[str]:
        """The addresses in which one of these words stands."""
        plain = [unquote_plus(one).lower() for one in self.asked]
        return [one for one in plain if any(word.lower() in one for word in words)]


@contextmanager
def watched(context: BrowserContext, address: str) -> Iterator[tuple[Page, Watched]]:
    """A page of a context, all of which is watched; in the end nothing may have been wrong."""
    seen = Watched()
    seen.watch(context)
    yield context.new_page(), seen
    assert seen.complaints == [], seen.complaints
    elsewhere = seen.asked_elsewhere(address)
    assert elsewhere == [], elsewhere
    assert seen.asked, "nothing was watched"
