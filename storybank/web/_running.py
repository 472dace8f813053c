"""The server itself: its socket, and how it ends."""

import errno
import os
import signal
import socket
import sys
import threading
from collections.abc import Callable
from types import FrameType

import uvicorn
from starlette.types import ASGIApp

from storybank.errors import StorybankError
from storybank.web._protocol import BoundedProtocol

HEAD_BYTES = 64 * 1024
_END_SECONDS = 3


class ServeError(StorybankError):
    """A page that cannot be served here, with the reason."""


class TakenError(ServeError):
    """The port is in use."""


def listening(host: str, port: int) -> socket.socket:
    """A socket that listens already, so that nobody else can take the port any more.

    Raises TakenError where another program has it, ServeError for any other reason.
    """
    try:
        family, kind, protocol, _, address = socket.getaddrinfo(
            host, port, type=socket.SOCK_STREAM, flags=socket.AI_PASSIVE
        )[0]
    except (OSError, UnicodeError):
        raise ServeError(
            f'There is no address "{host}" to listen at. Choose an address of this machine for '
            "--host, or leave --host out to serve this machine only."
        ) from None
    listener = socket.socket(family, kind, protocol)
    try:
        if sys.platform == "win32":  # There SO_REUSEADDR would let two programs share the port.
            listener.setsockopt(socket.SOL_SOCKET, socket.SO_EXCLUSIVEADDRUSE, 1)
        else:
            listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        if host == "::":
            listener.setsockopt(socket.IPPROTO_IPV6, socket.IPV6_V6ONLY, 0)
        listener.bind(address)
        listener.listen(128)
    except OSError as error:
        listener.close()
        if error.errno == errno.EADDRINUSE:
            raise TakenError(
                f"Port {port} is in use by another program. Choose another one, such as "
                f"--port {port + 1 if port < 65535 else 8420}, or end that program."
            ) from None
        if error.errno in (errno.EACCES, errno.EPERM):
            raise ServeError(
                f"Port {port} may not be used by this account. Choose another one with --port, "
                "from 1024 to 65535."
            ) from None
        raise ServeError(
            f'It is not possible to listen at "{host}", port {port}: {error.strerror}. Choose '
            "an address of this machine for --host, or leave --host out."
        ) from None
    return listener


class PageServer(uvicorn.Server):
    """A server that says when it answers, and ends gently and with exit code 0 on a signal.

    Once it is to end, it waits a few seconds for what is still under way. `hard_end` is after how
    many seconds the whole process is ended where even then a thread goes on, or None for never;
    what a bank keeps is whole at any moment.
    """

    def __init__(
        self,
        app: ASGIApp,
        *,
        protocol: type[BoundedProtocol] = BoundedProtocol,
        on_answering: Callable[[], None] | None = None,
        end_seconds: int = _END_SECONDS,
        hard_end: float | None = None,
    ) -> None:
        # Forwarded headers are not trusted: no proxy stands before us, and a page that is open
        # in the browser could send them.
        config = uvicorn.Config(
            app,
            loop="asyncio",
            http=protocol,
            ws="none",
            log_config=None,
            access_log=False,
            proxy_headers=False,
            server_header=False,
            timeout_graceful_shutdown=end_seconds,
            h11_max_incomplete_event_size=HEAD_BYTES,
        )
        super().__init__(config)
        self._on_answering = on_answering
        self._hard_end = hard_end

    def stop(self) -> None:
        """Ends the server soon; answers that are under way are still given."""
        self.should_exit = True

    def handle_exit(self, sig: int, frame: FrameType | None) -> None:
        """Ends on Ctrl+C and on being told to; a second Ctrl+C does not wait for anything.

        uvicorn's own raises the signal again after the end, so that the exit code tells of it.
        """
        self.force_exit = self.should_exit and sig == signal.SIGINT
        self.should_exit = True

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        """Begins to answer, then says so."""
        try:
            await super().startup(sockets=sockets)
        except SystemExit:
            raise ServeError(
                "The pages could not be made ready. It is a fault of Storybank; the bank and the "
                "themes are untouched."
            ) from None
        if self.started and self._on_answering is not None:
            self._on_answering()

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        """Ends; where that takes too long, the process is ended."""
        if self._hard_end is not None:
            timer = threading.Timer(self._hard_end, os._exit, (0,))
            timer.daemon = True
            timer.start()  # Nothing cancels it: threads may go on when the server has ended.
        await super().shutdown(sockets=sockets)
