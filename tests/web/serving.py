"""A small app behind all layers, served to real sockets, and what is said to it byte by byte."""

import asyncio
import socket
import threading
import time
from collections.abc import AsyncIterator, Iterator
from contextlib import contextmanager

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response, StreamingResponse
from starlette.routing import Route

from storybank.web._guard import access
from storybank.web._home import Home
from storybank.web._layers import served
from storybank.web._limits import KIB, MIB, Bounds, form_of
from storybank.web._protocol import BoundedProtocol, bounded_by
from storybank.web._running import PageServer, listening

WAIT = 8
LIMITS = {"/bank": 2 * MIB, "/bank/import": 4 * MIB}


async def _first(request: Request) -> Response:
    return PlainTextResponse("said by the app")


async def _kept(request: Request) -> Response:
    """How many bytes of files and of fields came in a form."""
    form = await form_of(request, files=2, fields=20, field_size=64 * KIB)
    sizes = [
        len(value) if isinstance(value, str) else len(await value.read())
        for _, value in form.multi_items()
    ]
    await form.close()
    request.app.state.kept.append(sizes)
    return PlainTextResponse(f"kept {sizes}")


async def _counted(request: Request) -> Response:
    count = 0
    async for part in request.stream():
        count += len(part)
    return PlainTextResponse(f"counted {count}")


async def _unread(request: Request) -> Response:
    return PlainTextResponse("not read")


async def _broken(request: Request) -> Response:
    """Fails with what was sent in the message of the exception."""
    raise ValueError(f"{(await request.body())!r} {request.url.query}")


async def _worded(request: Request) -> Response:
    raise HTTPException(400, "There is no <theme> of this name.")


async def _slow(request: Request) -> Response:
    await asyncio.sleep(0.6)
    return PlainTextResponse("at last")


def _stuck(request: Request) -> Response:
    """Holds a thread for longer than any test runs."""
    time.sleep(60)
    return PlainTextResponse("far too late")


async def _endless(request: Request) -> Response:
    async def parts() -> AsyncIterator[bytes]:
        for _ in range(1000):
            yield bytes(MIB)

    return StreamingResponse(parts())


def small_app(home: Home | None = None) -> Starlette:
    """An app with a page for each thing that the layers around it must bear."""
    app = Starlette(
        routes=[
            Route("/", _first),
            Route("/keep", _kept, methods=["POST"]),
            Route("/static/plain.txt", _first),
            Route("/unread", _unread, methods=["POST"]),
            Route("/broken", _broken, methods=["GET", "POST"]),
            Route("/worded", _worded),
            Route("/slow", _slow),
            Route("/stuck", _stuck),
            Route("/endless", _endless),
            Route("/any", _counted, methods=["POST"]),
            Route("/bank/import", _counted, methods=["POST"]),
        ]
    )
    app.state.home = home
    app.state.kept = []
    app.state.limits = LIMITS
    return app


class Served:
    """A server that runs in a thread, and its port."""

    def __init__(self, server: PageServer, port: int, app: Starlette) -> None:
        self.server = server
        self.port = port
        self.app = app

    def raw(self, sent: bytes, seconds: float = WAIT) -> bytes:
        """All that is answered until the connection is closed."""
        with self.connected() as connection:
            connection.sendall(sent)
            return rest_of(connection, seconds)

    def ask(self, head: str, body: bytes = b"", *more: str) -> bytes:
        """What is answered to a request line with our Host, our Origin and these headers."""
        lines = [f"{head} HTTP/1.1", f"Host: 127.0.0.1:{self.port}", "Connection: close", *more]
        if not head.startswith(("GET", "HEAD")):
            lines.append(f"Origin: http://127.0.0.1:{self.port}")
        return self.raw("\r\n".join([*lines, "", ""]).encode() + body)

    def connected(self) -> socket.socket:
        return socket.create_connection(("127.0.0.1", self.port), timeout=WAIT)

    def open_connections(self) -> int:
        return len(self.server.server_state.connections)


def until(connection: socket.socket, words: bytes) -> bytes:
    """What comes until these words have come."""
    got = b""
    while words not in got:
        part = connection.recv(65536)
        assert part, got
        got += part
    return got


def rest_of(connection: socket.socket, seconds: float = WAIT) -> bytes:
    """What comes until the other side closes; fails where that takes longer than `seconds`."""
    until = time.monotonic() + seconds
    got = b""
    while True:
        connection.settimeout(max(until - time.monotonic(), 0.001))
        try:
            part = connection.recv(65536)
        except ConnectionResetError:
            return got
        if not part:
            return got
        got += part


def status_of(answer: bytes) -> int:
    assert answer.startswith(b"HTTP/1.1 "), answer[:200]
    return int(answer[9:12])


@contextmanager
def serving(
    bounds: Bounds | None = None,
    protocol: type[BoundedProtocol] | None = None,
    token: str | None = None,
) -> Iterator[Served]:
    """Serves the small app on loopback while it holds, and ends it."""
    listener = listening("127.0.0.1", 0)
    port = listener.getsockname()[1]
    app = small_app()
    answers = threading.Event()
    server = PageServer(
        served(
            app,
            access(port, "127.0.0.1", token=token),
            stop=lambda: server.stop(),
            bounds=bounds or Bounds(larger=LIMITS),
        ),
        protocol=protocol or bounded_by(),
        on_answering=answers.set,
        end_seconds=1,
    )
    thread = threading.Thread(target=server.run, kwargs={"sockets": [listener]}, daemon=True)
    thread.start()
    try:
        assert answers.wait(WAIT)
        yield Served(server, port, app)
    finally:
        server.stop()
        thread.join(WAIT)
        assert not thread.is_alive()
