"""The pages that say what went wrong: kind, without traces, in the app's look where it has one."""

from collections.abc import Callable
from html import escape
from http import HTTPStatus

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse, Response
from starlette.types import Scope

from storybank.web import _quiet

RenderError = Callable[[Request, int, str, str], Response]
"""Makes the page of an error from the request, the status, a title and a text (no HTML)."""

SAID = {
    400: ("This could not be read", "What was sent is not what a page of Storybank sends."),
    404: ("There is no such page", "The address may be misspelt. Begin again at the first page."),
    405: ("This page is only to be looked at", "Go back and use the buttons of the page."),
    408: ("This took too long", "The rest of what was sent did not come. Send it again."),
    413: ("This is too large", "Nothing of it was kept. Choose a smaller file or less text."),
    414: ("This address is too long", "Nothing was changed. Go back and ask for less at once."),
    431: ("This request is too large", "Clear this site's cookies in the browser; try again."),
    500: (
        "Something went wrong here",
        "It is a fault of Storybank, not yours. What was kept before is still there. Go back and "
        "try again; if it stays, end Storybank and start it anew.",
    ),
    503: ("Too many at once", "More pages are open than Storybank serves. Close some; try again."),
}
_OTHER = ("This cannot be done", "Nothing was changed. Begin again at the first page.")


def plain(status: int, title: str, text: str, way: str | None = "To the first page") -> Response:
    """A page without any style. `way` is the text of a link to the first page; None for no link."""
    link = "" if way is None else f'<p><a href="/">{escape(way)}</a></p>\n'
    return HTMLResponse(
        '<!DOCTYPE html>\n<html lang="en">\n<head><meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{escape(title)} - Storybank</title></head>\n<body>\n<main>\n"
        f"<h1>{escape(title)}</h1>\n<p>{escape(text)}</p>\n{link}</main>\n</body>\n</html>\n",
        status_code=status,
    )


def plainly(request: Request, status: int, title: str, text: str) -> Response:
    """The page of an error where the app has no look of its own for it."""
    return plain(status, title, text)


def page(render: RenderError, scope: Scope, status: int, text: str | None = None) -> Response:
    """The page of a status, made by `render`, or plainly where that fails itself."""
    title, usual = SAID.get(status, _OTHER)
    try:
        response = render(Request(scope), status, title, text or usual)
    except Exception as error:
        _quiet.write(error)
        response = plain(status, title, text or usual)
    response.status_code = status
    return response


def give_pages(app: Starlette, render: RenderError) -> None:
    """Lets an app answer its errors with these pages, unless it has handlers of its own.

    The text of an HTTPException is shown where somebody wrote one for it.
    """

    async def refused(request: Request, error: Exception) -> Response:
        assert isinstance(error, HTTPException)
        status = error.status_code
        if status in (204, 304):
            return Response(status_code=status, headers=error.headers)
        ours = error.detail if error.detail != _phrase(status) else None
        response = page(render, request.scope, status, ours)
        response.headers.update(error.headers or {})
        return response

    async def broken(request: Request, error: Exception) -> Response:
        return page(render, request.scope, 500)

    app.exception_handlers.setdefault(HTTPException, refused)
    if 500 not in app.exception_handlers:
        app.exception_handlers.setdefault(Exception, broken)


def _phrase(status: int) -> str:
    try:
        return HTTPStatus(status).phrase
    except ValueError:
        return ""
