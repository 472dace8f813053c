"""The pages with their Content Security Policy, where there is no `storybank serve` yet."""

import argparse
import socket
from pathlib import Path

import uvicorn
from starlette.datastructures import MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from storybank.web import Home, create_app

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; "
    "connect-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'"
)


class WithPolicy:
    """An app whose every answer carries the policy, unless it has one of its own."""

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        async def with_policy(message: Message) -> None:
            if message["type"] == "http.response.start":
                MutableHeaders(scope=message).setdefault("Content-Security-Policy", POLICY)
            await send(message)

        await self._app(scope, receive, with_policy)


def serve(port: int, folder: Path) -> None:
    """Serves the pages of a folder until it is ended; says the address first."""
    with socket.create_server(("127.0.0.1", port), reuse_port=False) as listener:
        print(f"http://127.0.0.1:{listener.getsockname()[1]}/", flush=True)  # noqa: T201
        app = WithPolicy(create_app(Home(folder, folder / "our.bank")))
        uvicorn.Server(uvicorn.Config(app, log_level="warning")).run(sockets=[listener])


if __name__ == "__main__":
    said = argparse.ArgumentParser()
    said.add_argument("--port", type=int, required=True)
    said.add_argument("--folder", type=Path, required=True)
    asked = said.parse_args()
    serve(asked.port, asked.folder)
