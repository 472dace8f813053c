"""The app as it is served: every answer with its headers, every request bounded and guarded."""

from collections.abc import Callable

from starlette.applications import Starlette
from starlette.responses import JSONResponse
from starlette.types import ASGIApp, Receive, Scope, Send

from storybank.version import VERSION
from storybank.web import _errors
from storybank.web._guard import ALIVE, Access, Guard, is_loopback
from storybank.web._headers import Headers
from storybank.web._limits import Bounds, Limits

PROGRAM = "storybank"
STOP = "/stop"


def served(
    app: Starlette,
    access: Access,
    *,
    stop: Callable[[], None] | None = None,
    bounds: Bounds | None = None,
) -> ASGIApp:
    """The app within all layers.

    The app may set two things in its `state`: `limits`, a mapping from paths to the largest body
    in bytes that is taken there and below, and `render_error`, which makes the page of an error.
    """
    bounds = bounds or Bounds(larger=getattr(app.state, "limits", {}))
    render = getattr(app.state, "render_error", _errors.plainly)
    _errors.give_pages(app, render)
    return Headers(Limits(Guard(_Own(app, access, stop), access), bounds, render))


class _Own:
    """The app with two addresses of the server's own: is it alive, and end it."""

    def __init__(self, app: ASGIApp, access: Access, stop: Callable[[], None] | None) -> None:
        self._app = app
        self._access = access
        self._stop = stop

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        path = scope["path"] if scope["type"] == "http" else None
        if path == ALIVE and scope["method"] in ("GET", "HEAD"):
            needs = self._access.token is not None
            alive = {"program": PROGRAM, "version": VERSION, "needs_token": needs}
            await JSONResponse(alive)(scope, receive, send)
        elif path == STOP and self._stop is not None:
            await self._end(self._stop, scope, receive, send)
        else:
            await self._app(scope, receive, send)

    async def _end(
        self, stop: Callable[[], None], scope: Scope, receive: Receive, send: Send
    ) -> None:
        if scope["method"] != "POST":
            response = _errors.plain(405, *_errors.SAID[405])
            response.headers["Allow"] = "POST"
            await response(scope, receive, send)
            return
        client = scope.get("client")
        if self._access.token is not None and not (client and is_loopback(client[0])):
            text = "Only whoever sits at the machine that Storybank runs on can end it."
            await _errors.plain(403, "This was refused", text)(scope, receive, send)
            return
        text = "You may close this window. What you kept is still there the next time."
        page = _errors.plain(200, "Storybank has ended", text, way=None)
        await page(scope, receive, send)
        stop()
