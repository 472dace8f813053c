"""HTTP as uvicorn speaks it with h11, with the limits that it does not have itself.

uvicorn 0.54 sets no time for a request's head: neither on a new connection nor, once a first byte
has come, on one that is kept open; it answers too many connections with a bare text, and what is
no HTTP with an answer without our headers. h11 bounds the bytes of a head (431) and refuses two
Host headers or none (400, as RFC 9112, 3.2 asks for).
"""

import asyncio
import sys
from http import HTTPStatus
from typing import Any

import h11
from starlette.types import Receive, Scope, Send
from uvicorn.protocols.http.h11_impl import H11Protocol

from storybank.web import _errors
from storybank.web._headers import SECURITY, Headers


class BoundedProtocol(H11Protocol):
    """A connection that must send its heads, and read its answers, within a time.

    Above `most` connections, new ones are told to come later; above twice as many they are closed.
    """

    head_seconds: float = 10
    write_seconds: float = 60
    most: int = 64

    def __init__(self, *args: Any, **named: Any) -> None:
        super().__init__(*args, **named)
        self._head_timer: asyncio.TimerHandle | None = None
        self._write_timer: asyncio.TimerHandle | None = None

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """Begins to wait for the first head."""
        super().connection_made(transport)
        if len(self.connections) > 2 * self.most:
            transport.abort()
            return
        if len(self.connections) > self.most:
            self.app = _BUSY
        self._watch_head()

    def data_received(self, data: bytes) -> None:
        """Hands the data on; a head that is not whole yet keeps the time it began with."""
        super().data_received(data)
        self._watch_head()

    def connection_lost(self, exc: Exception | None) -> None:
        """Ends the waiting."""
        for timer in (self._head_timer, self._write_timer):
            if timer is not None:
                timer.cancel()
        super().connection_lost(exc)

    def _watch_head(self) -> None:
        waits = self.conn.their_state is h11.IDLE and not self.transport.is_closing()
        if waits and self._head_timer is None:
            self._head_timer = self.loop.call_later(self.head_seconds, self._too_slow)
        elif not waits and self._head_timer is not None:
            self._head_timer.cancel()
            self._head_timer = None

    def _too_slow(self) -> None:
        self._head_timer = None
        if self.conn.their_state is h11.IDLE:
            self.transport.close()

    def pause_writing(self) -> None:
        """Begins to wait for the other side to read."""
        super().pause_writing()
        if self._write_timer is None:
            self._write_timer = self.loop.call_later(self.write_seconds, self.transport.abort)

    def resume_writing(self) -> None:
        """The other side reads again."""
        super().resume_writing()
        if self._write_timer is not None:
            self._write_timer.cancel()
            self._write_timer = None

    def send_400_response(self, msg: str) -> None:
        """Answers what is no HTTP, or too much of it, unless an answer has begun already."""
        if self.conn.our_state not in (h11.IDLE, h11.SEND_RESPONSE):
            self.transport.close()
            return
        status = getattr(sys.exception(), "error_status_hint", 400)
        response = _errors.plain(status, *_errors.SAID.get(status, _errors.SAID[400]))
        for name, value in (*SECURITY.items(), ("Cache-Control", "no-store")):
            response.headers[name] = value
        response.headers["Connection"] = "close"
        reason = HTTPStatus(status).phrase.encode()
        for event in (
            h11.Response(status_code=status, headers=response.raw_headers, reason=reason),
            h11.Data(data=bytes(response.body)),
            h11.EndOfMessage(),
        ):
            self.transport.write(self.conn.send(event) or b"")
        self.transport.close()


async def _too_many(scope: Scope, receive: Receive, send: Send) -> None:
    response = _errors.plain(503, *_errors.SAID[503])
    response.headers["Connection"] = "close"
    response.headers["Retry-After"] = "5"
    await response(scope, receive, send)


_BUSY = Headers(_too_many)


def bounded_by(
    head_seconds: float = BoundedProtocol.head_seconds,
    write_seconds: float = BoundedProtocol.write_seconds,
    most: int = BoundedProtocol.most,
) -> type[BoundedProtocol]:
    """The class of connections with other limits."""
    values = {"head_seconds": head_seconds, "write_seconds": write_seconds, "most": most}
    return type("Bounded", (BoundedProtocol,), values)
