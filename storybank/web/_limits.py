"""Limits of what a request may send: how much, how long, how many parts."""

import asyncio
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass, field

from starlette.datastructures import FormData, MutableHeaders
from starlette.datastructures import Headers as HeaderValues
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from storybank.web import _errors
from storybank.web._errors import RenderError

KIB = 1024
MIB = 1024 * KIB
_FORMS = "storybank.forms"
"""Where a request keeps the forms that were read of it."""


@dataclass(frozen=True, slots=True)
class Bounds:
    """How much of a request is taken; our own design, no source.

    `larger` gives paths, with all below them, that take bodies of another size than `body`; the
    longest that fits holds. `linger_seconds` is how long the rest of a refused body is read and
    thrown away, so that the browser reads our answer instead of telling of a broken connection.
    """

    body: int = MIB
    larger: Mapping[str, int] = field(default_factory=dict)
    body_seconds: float = 60
    linger_seconds: float = 3
    address: int = 16 * KIB
    head: int = 32 * KIB
    headers: int = 100

    def body_at(self, path: str) -> int:
        """The largest body that is taken at a path, in bytes."""
        fitting = [at for at in self.larger if path == at or path.startswith(f"{at.rstrip('/')}/")]
        return self.larger[max(fitting, key=len)] if fitting else self.body


class Limits:
    """An app whose requests keep the bounds; others are answered here, 408, 413, 414 or 431."""

    def __init__(self, app: ASGIApp, bounds: Bounds, render: RenderError = _errors.plainly) -> None:
        self._app = app
        self._bounds = bounds
        self._render = render

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        exchange = _Exchange(scope, receive, send, self._bounds, self._render)
        status = _refused_at_once(scope, self._bounds)
        if status is not None:
            await exchange.cut(status)
            return
        try:
            await self._app(scope, exchange.receive, exchange.send)
        except Exception:
            if not exchange.was_cut:  # Else the app only stumbled over what we cut off.
                raise


def _refused_at_once(scope: Scope, bounds: Bounds) -> int | None:
    """The status of a refusal that the head of the request is enough for."""
    if len(scope["query_string"]) > bounds.address or len(scope["path"]) > bounds.address:
        return 414
    raw = scope["headers"]
    if (
        len(raw) > bounds.headers
        or sum(len(name) + len(value) for name, value in raw) > bounds.head
    ):
        return 431
    length = HeaderValues(scope=scope).get("content-length")
    if length is None:
        return None
    if not (length.isascii() and length.isdecimal()):
        return 400
    # Compared by its figures first: a very long number is costly to read.
    digits = length.lstrip("0")
    if len(digits) > 18 or int(digits or "0") > bounds.body_at(scope["path"]):
        return 413
    return None


class _Exchange:
    """One request and its answer: the body counted and timed, the connection closed when cut off.

    uvicorn reads on, without end, what a client sends after it was answered (uvicorn 0.54,
    `H11Protocol.handle_events`). So an answer to a request whose body was not read to its end
    closes the connection.
    """

    def __init__(
        self, scope: Scope, receive: Receive, send: Send, bounds: Bounds, render: RenderError
    ) -> None:
        self.was_cut = False
        self._scope = scope
        self._receive = receive
        self._send = send
        self._bounds = bounds
        self._render = render
        self._most = bounds.body_at(scope["path"])
        self._until = asyncio.get_running_loop().time() + bounds.body_seconds
        headers = HeaderValues(scope=scope)
        self._sends_body = "transfer-encoding" in headers or (
            headers.get("content-length", "0").strip("0") != ""
        )
        self._count = 0
        self._whole = False
        self._started = False
        self._closes = False

    async def receive(self) -> Message:
        """The next part of the body; a disconnect where it was cut off."""
        if self.was_cut:
            return {"type": "http.disconnect"}
        if self._whole:
            return await self._receive()
        try:
            async with asyncio.timeout_at(self._until):
                message = await self._receive()
        except TimeoutError:
            await self.cut(408)
            return {"type": "http.disconnect"}
        if message["type"] != "http.request":
            self._whole = True
            return message
        self._count += len(message.get("body", b""))
        self._whole = not message.get("more_body", False)
        if self._count > self._most:
            await self.cut(413)
            return {"type": "http.disconnect"}
        return message

    async def send(self, message: Message) -> None:
        """Sends a part of the answer, unless another was given when the request was cut off."""
        if not self.was_cut:
            await self._pass_on(message)

    async def cut(self, status: int) -> None:
        """Answers at once, and whatever the app answers later is dropped."""
        self.was_cut = True
        if not self._started:
            response: Response = _errors.page(self._render, self._scope, status)
            await response(self._scope, self._receive, self._pass_on)

    async def _pass_on(self, message: Message) -> None:
        if message["type"] == "http.response.start":
            self._started = True
            if self.was_cut or (self._sends_body and not self._whole):
                self._closes = True
                message.setdefault("headers", [])
                MutableHeaders(scope=message)["Connection"] = "close"
        last = message["type"] == "http.response.body" and not message.get("more_body", False)
        if not (last and self._closes and self._sends_body and not self._whole):
            await self._send(message)
            return
        await self._send({**message, "more_body": True})
        await self._throw_away()
        await self._send({"type": "http.response.body", "body": b"", "more_body": False})

    async def _throw_away(self) -> None:
        with suppress(TimeoutError):
            async with asyncio.timeout(self._bounds.linger_seconds):
                while True:
                    message = await self._receive()
                    if message["type"] != "http.request" or not message.get("more_body", False):
                        return


class ClosedForms:
    """An app whose forms are closed once it has answered, with the files that came in them."""

    def __init__(self, app: ASGIApp) -> None:
        self._app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        try:
            await self._app(scope, receive, send)
        finally:
            for form in scope.get(_FORMS, ()):
                await form.close()


async def form_of(
    request: Request, *, files: int = 1, fields: int = 1500, field_size: int = MIB
) -> FormData:
    """The form that a request sends, within limits; `ClosedForms` closes it in the end.

    `files` and `fields` say how many may come, `field_size` how many bytes one field may have; a
    file is bounded by the body. Raises HTTPException 400 with a text for the teacher.
    """
    try:
        form = await request.form(max_files=files, max_fields=fields, max_part_size=field_size)
    except HTTPException as error:
        raise HTTPException(400, _kindly(error.detail, files, fields, field_size)) from None
    except (ValueError, LookupError):  # FormParserError of python-multipart is a ValueError.
        raise HTTPException(400, _kindly("", files, fields, field_size)) from None
    request.scope.setdefault(_FORMS, []).append(form)
    # Starlette before 1.0 bounds only forms that may have files.
    texts = [value for _, value in form.multi_items() if isinstance(value, str)]
    if len(texts) > fields or any(len(text) > field_size for text in texts):
        await form.close()
        found = "Too many fields" if len(texts) > fields else "Field exceeded maximum size"
        raise HTTPException(400, _kindly(found, files, fields, field_size))
    return form


def _kindly(detail: str, files: int, fields: int, field_size: int) -> str:
    """Our words for what Starlette found; they hold nothing of what was sent."""
    if detail.startswith("Too many files"):
        some = "one file" if files == 1 else f"{files} files"
        return f"More files came than this page takes. Go back and choose at most {some}."
    if detail.startswith("Too many fields"):
        return f"More fields came than this page has ({fields}). Go back and load the page anew."
    if "exceeded maximum size" in detail:
        return (
            f"A text is longer than {field_size // KIB} KiB. Go back and shorten it, or send it as "
            "a file."
        )
    return "The form did not come whole, so nothing was done. Go back and send it again."
