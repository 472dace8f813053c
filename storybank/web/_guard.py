"""Who may ask: requests of our own pages, under our own names, with the token where one is needed.

A page of another site, open in the same browser, can send requests to this machine too. So the
Host header must name us (another name that leads here is DNS rebinding), and what changes
something must come from our own pages.
"""

import hmac
import ipaddress
import re
import socket
from dataclasses import dataclass
from urllib.parse import unquote_plus

from starlette.datastructures import Headers
from starlette.requests import Request
from starlette.responses import PlainTextResponse, RedirectResponse, Response
from starlette.types import ASGIApp, Receive, Scope, Send

from storybank.web import _errors

ALIVE = "/alive"
EVERYWHERE = ("0.0.0.0", "::")
_LOOPBACK = ("127.0.0.1", "localhost", "[::1]")
_CHANGES_NOTHING = ("GET", "HEAD")
_ADDRESS = re.compile(r"(?:\[([0-9a-f:.]+)\]|([0-9.]+)):([0-9]{1,5})")


@dataclass(frozen=True, slots=True)
class Access:
    """Under which names we are asked for, and the token that is needed, or None.

    `hosts` are whole values of the Host header, small letters, with the port. `addresses` says
    that any IP address with the port is fine too: who rebinds a name has a name, not an address.
    """

    port: int
    hosts: frozenset[str]
    addresses: bool = False
    token: str | None = None

    def knows(self, host: str) -> bool:
        """Whether a value of the Host header names us."""
        host = host.lower()
        if host in self.hosts:
            return True
        found = _ADDRESS.fullmatch(host) if self.addresses else None
        if found is None or int(found[3]) != self.port:
            return False
        try:
            ipaddress.ip_address(found[1] or found[2])
        except ValueError:
            return False
        return True

    def opens(self, given: str) -> bool:
        """Whether this is the token, compared in a time that does not tell how near it is."""
        return self.token is not None and hmac.compare_digest(given.encode(), self.token.encode())

    @property
    def cookie(self) -> str:
        """The name of the cookie; cookies are shared by all ports of a machine."""
        return f"storybank-{self.port}"


def access(
    port: int, host: str, also_called: tuple[str, ...] = (), token: str | None = None
) -> Access:
    """The access of a server that listens at `host`.

    `also_called` are further names; one with a port is taken as it is, so that what a router or a
    container leads on to another port can be named.
    """
    names = [*_LOOPBACK, _bracketed(host), *map(_bracketed, also_called)]
    if host in EVERYWHERE:
        own = socket.gethostname()
        names += [own, own.split(".")[0], f"{own.split('.')[0]}.local"]
    hosts = set()
    for name in filter(None, (name.lower() for name in names)):
        with_port = re.search(r"(?:^[^:]+|\]):[0-9]+$", name) is not None
        hosts.add(name if with_port else f"{name}:{port}")
        if port == 80 and not with_port:  # Browsers leave the usual port out.
            hosts.add(name)
    return Access(port, frozenset(hosts), host in EVERYWHERE, token)


def _bracketed(name: str) -> str:
    return f"[{name}]" if name.count(":") > 1 and not name.startswith("[") else name


def is_loopback(address: str) -> bool:
    """Whether an address is this machine's own loopback; names are not looked up."""
    try:
        ip = ipaddress.ip_address(address.strip("[]"))
    except ValueError:
        return address.lower() == "localhost"
    return (getattr(ip, "ipv4_mapped", None) or ip).is_loopback


class Guard:
    """An app that only those reach who may; others get 400, 403 or 421 with the reason."""

    def __init__(self, app: ASGIApp, access: Access) -> None:
        self._app = app
        self._access = access

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] == "lifespan":
            await self._app(scope, receive, send)
        elif scope["type"] == "http":
            refusal = self._refusal(scope)
            await (self._app if refusal is None else refusal)(scope, receive, send)
        else:
            await send({"type": "websocket.close", "code": 1008})

    def _refusal(self, scope: Scope) -> Response | None:
        headers = Headers(scope=scope)
        hosts = headers.getlist("host")
        if len(hosts) != 1 or not self._access.knows(hosts[0]):
            return PlainTextResponse(
                "Storybank is not called by this name. Open the address that was printed when it "
                "was started, or start it with --also-called NAME.\n",
                status_code=421,
            )
        if not _is_path(scope):
            return PlainTextResponse("The address is no path of a page.\n", status_code=400)
        because = _not_ours(scope, headers, hosts[0].lower())
        if because is not None:
            return _errors.plain(403, "This was refused", because)
        asks_whether_alive = scope["path"] == ALIVE and scope["method"] in _CHANGES_NOTHING
        if self._access.token is None or asks_whether_alive:
            return None
        return self._without_token(Request(scope))

    def _without_token(self, request: Request) -> Response | None:
        """None with the cookie; a redirect that sets it where the address has the token."""
        inside = self._access.opens(request.cookies.get(self._access.cookie, ""))
        given = request.query_params.get("token")
        if given is None or request.method not in _CHANGES_NOTHING:
            return None if inside else _outside()
        if not inside and not self._access.opens(given):
            return _outside()
        response = RedirectResponse(_without(request), status_code=303)
        if not inside:
            response.set_cookie(
                self._access.cookie, given, path="/", httponly=True, samesite="strict"
            )
        return response


def _is_path(scope: Scope) -> bool:
    """Whether the request asks for a path, not for a whole address or for what a path may hide.

    Browsers send whole addresses ("GET http://...") to proxies only. Two slashes at the beginning
    would be read as a name of a machine where we send the browser on.
    """
    raw: bytes = scope.get("raw_path") or scope["path"].encode()
    if not raw.startswith(b"/") or raw[:2] in (b"//", b"/\\"):
        return False
    return scope["path"].isprintable() and not scope["path"].startswith(("//", "/\\"))


def _not_ours(scope: Scope, headers: Headers, host: str) -> str | None:
    """Why a request does not come from our own pages, or None.

    What looks at a page changes nothing, so any page may lead here by a link. Other pages may not
    fetch from here, though: from what comes and how long it takes they could tell what is kept.
    """
    sites = headers.getlist("sec-fetch-site")
    if scope["method"] in _CHANGES_NOTHING:
        if all(site in ("same-origin", "none") for site in sites):
            return None
        mode, destination = headers.get("sec-fetch-mode"), headers.get("sec-fetch-dest")
        if mode == "navigate" and destination in ("document", None):
            return None
        return "Another page asked for this in your browser. Only links may lead here."
    origins = headers.getlist("origin")
    if not origins and not sites:
        return (
            "The browser did not say which page this came from (neither Origin nor "
            "Sec-Fetch-Site). Use a browser of the last years, and the buttons of the page."
        )
    ours = f"{scope['scheme']}://{host}"
    if any(origin.lower() != ours for origin in origins) or any(
        site != "same-origin" for site in sites
    ):
        return (
            "This was sent by another page than Storybank's own, so nothing was done. Open "
            "Storybank's page and use its buttons."
        )
    return None


def _outside() -> Response:
    return _errors.plain(
        403,
        "Open the address that was printed",
        "Storybank's page is open only to those who have its whole address, with the token at its "
        "end. It was printed when Storybank was started. If you have just opened that address "
        "from another page, follow the link below.",
    )


def _without(request: Request) -> str:
    """The path and query of a request without its token."""
    raw: bytes = request.scope.get("raw_path") or request.scope["path"].encode()
    query = request.scope["query_string"].split(b"&")
    rest = b"&".join(
        part for part in query if unquote_plus(part.partition(b"=")[0].decode("latin-1")) != "token"
    )
    return (raw + (b"?" + rest if rest else b"")).decode("latin-1")
