"""`storybank serve`: the pages on a port of this machine, and the browser opened there."""

import http.client
import json
import os
import secrets
import socket
import threading
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from storybank.web import _browser, _quiet
from storybank.web._guard import ALIVE, EVERYWHERE, access, is_loopback
from storybank.web._home import BANK, Home, folder_of_account
from storybank.web._layers import PROGRAM, served
from storybank.web._running import PageServer, ServeError, TakenError, listening

if TYPE_CHECKING:
    from starlette.applications import Starlette

    from storybank.settings import Settings

LOOPBACK = "127.0.0.1"
MakeApp = Callable[[Home], "Starlette"]
Say = Callable[[str], None]
_WAIT_SECONDS = 3
_MOST_BYTES = 4096


@dataclass(frozen=True, slots=True)
class Wishes:
    """What the command line says: where to serve, what with, and whether to open the browser.

    `folder` None is the account's own, `bank` None the one in the folder.
    """

    port: int
    host: str = LOOPBACK
    also_called: tuple[str, ...] = ()
    folder: Path | None = None
    bank: Path | None = None
    settings: "Settings | None" = None
    browser: bool = True


def serve(
    wishes: Wishes,
    say: Say,
    warn: Say,
    *,
    make_app: MakeApp | None = None,
    hard_end: float | None = None,
) -> int:
    """The exit code, 0, once the server has ended, or where our own page runs already.

    `say` is told the address, `warn` what to be careful of. `make_app` makes another app than
    Storybank's own pages. `hard_end` ends the process, exit code 0, where a thread goes on for so
    many seconds after the end. Raises ServeError where the page cannot be served here.
    """
    if not 0 <= wishes.port <= 65535:
        raise ServeError(f"--port {wishes.port} is no port. Choose one from 1024 to 65535.")
    folder = wishes.folder or folder_of_account(os.environ, Path.home())
    if folder.exists() and not folder.is_dir():
        raise ServeError(f'--folder "{folder}" is a file. Choose a folder, or leave it out.')
    try:
        listener = listening(wishes.host, wishes.port)
    except TakenError:
        if _runs_already(wishes, say):
            return 0
        raise
    make_app = make_app or _our_app()
    port: int = listener.getsockname()[1]
    token = None if is_loopback(wishes.host) else secrets.token_urlsafe()
    address = f"http://{_shown_host(wishes.host)}:{port}/" + (f"?token={token}" if token else "")

    def answering() -> None:
        if token is not None:
            warn(_WARNING)
        say(f"Storybank's page: {address}\nCtrl+C ends it.")
        if wishes.browser:
            threading.Thread(target=_browser.show, args=(address,), daemon=True).start()

    def stop() -> None:
        server.stop()

    folder = folder.absolute()
    home = Home(folder, (wishes.bank or folder / BANK).absolute(), wishes.settings, stop)
    allowed = access(port, wishes.host, wishes.also_called, token)
    app = served(make_app(home), allowed, stop=stop)
    server = PageServer(app, on_answering=answering, hard_end=hard_end)
    with listener, _quiet.without_words():
        server.run(sockets=[listener])
    return 0


def _our_app() -> MakeApp:
    from storybank import web

    make: MakeApp = vars(web)["create_app"]
    return make


_WARNING = (
    "warning: everyone whose machine can reach this one can open the page with the address below. "
    "It shows answers, so keep the address from the children. What is sent, children's names too, "
    "travels unencrypted: use this only in a network that you trust."
)


def _shown_host(host: str) -> str:
    """The host as it stands in an address that other machines can open."""
    if host in EVERYWHERE:
        # No packet is sent; the system only says which of its addresses leads outward. The
        # other address is one of those kept for documentation (RFC 5737).
        with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as outward:
            try:
                outward.connect(("192.0.2.1", 9))
            except OSError:
                return socket.gethostname()
            return str(outward.getsockname()[0])
    return f"[{host}]" if ":" in host else host


def _runs_already(wishes: Wishes, say: Say) -> bool:
    """Whether our own page has the port; then the browser is opened there.

    Raises ServeError where it runs with a token, which only its own window shows.
    """
    host = LOOPBACK if wishes.host in EVERYWHERE else wishes.host
    found = _alive(host, wishes.port)
    if found is None:
        return False
    address = f"http://{_shown_host(host)}:{wishes.port}/"
    if found.get("needs_token") or not is_loopback(host):
        raise ServeError(
            f"Storybank's page runs already at port {wishes.port}, with a token. Open the address "
            "that was printed when it was started, or choose another --port."
        )
    say(f"Storybank's page runs already: {address} (version {found.get('version')}).")
    if wishes.browser:
        _browser.show(address)
    return True


def _alive(host: str, port: int) -> dict[str, object] | None:
    """What our own page says of itself at a port, or None where something else is there."""
    connection = http.client.HTTPConnection(host, port, timeout=_WAIT_SECONDS)
    try:
        connection.request("GET", ALIVE)
        said = json.loads(connection.getresponse().read(_MOST_BYTES))
    except (OSError, http.client.HTTPException, ValueError):
        return None
    finally:
        connection.close()
    ours = isinstance(said, dict) and said.get("program") == PROGRAM
    return said if ours else None
