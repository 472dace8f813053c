"""The headers that every answer carries, errors too, and the last place where faults are caught."""

from starlette.datastructures import MutableHeaders
from starlette.requests import ClientDisconnect
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from storybank.web import _errors, _quiet

CONTENT_SECURITY_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; "
    "connect-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'"
)
PRINT_POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; sandbox"
"""The one other policy: a page to print has its own styles, and no script can run in it."""
_POLICY = "Content-Security-Policy"
SECURITY = {
    _POLICY: CONTENT_SECURITY_POLICY,
    "X-Content-Type-Options": "nosniff",
    # With "no-referrer" a browser sends "Origin: null" with a form (Fetch Standard, "append a
    # request Origin header"; from memory), and we could not tell our own forms from others'.
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
}
STATIC = "/static/"
_KEPT = {200, 206, 304}


class Headers:
    """An app whose every answer carries the headers, and whose faults show no words.

    Pages are never stored by the browser: a class list may stand on them. Files under `STATIC` may
    be, if they are asked for anew each time.
    """

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        started = False

        async def with_headers(message: Message) -> None:
            nonlocal started
            if message["type"] == "http.response.start":
                started = True
                message.setdefault("headers", [])
                headers = MutableHeaders(scope=message)
                own = headers.get(_POLICY, "")
                headers.update(SECURITY)
                if own == PRINT_POLICY:
                    headers[_POLICY] = own
                kept = scope["path"].startswith(STATIC) and message["status"] in _KEPT
                headers["Cache-Control"] = "no-cache" if kept else "no-store"
                del headers["Server"]
            await send(message)

        try:
            await self._app(scope, receive, with_headers)
        except ClientDisconnect:
            return
        except Exception as error:
            _quiet.write(error)
            if not started:
                response = _errors.plain(500, *_errors.SAID[500])
                await response(scope, receive, with_headers)
