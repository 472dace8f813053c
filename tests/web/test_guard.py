"""Who may ask: names, origins, tokens; and the headers that every answer carries."""

import socket
from collections.abc import Iterator

import pytest
from starlette.testclient import TestClient
from web.serving import Served, serving, small_app, status_of

from storybank.version import VERSION
from storybank.web._guard import Access, access, is_loopback
from storybank.web._headers import CONTENT_SECURITY_POLICY
from storybank.web._layers import served

TOKEN = "a-token-of-the-test"


@pytest.fixture(scope="module")
def page() -> Iterator[Served]:
    with serving() as page:
        yield page


def client(allowed: Access, **named: object) -> TestClient:
    return TestClient(
        served(small_app(), allowed, stop=lambda: None),
        base_url=f"http://127.0.0.1:{allowed.port}",
        follow_redirects=False,
        **named,  # type: ignore[arg-type]
    )


@pytest.mark.parametrize(
    ("host", "known"),
    [
        ("127.0.0.1:8420", True),
        ("localhost:8420", True),
        ("LocalHost:8420", True),
        ("[::1]:8420", True),
        ("127.0.0.1", False),
        ("127.0.0.1:8421", False),
        ("127.0.0.1:08420", False),
        ("localhost.:8420", False),
        ("localhost:8420.evil.example", False),
        ("evil.example:8420", False),
        ("192.0.2.7:8420", False),
        ("::1:8420", False),
        ("", False),
        ("localhost:8420,localhost:8420", False),
    ],
)
def test_only_loopback_names_with_the_port_are_known(host: str, known: bool) -> None:
    assert access(8420, "127.0.0.1").knows(host) is known


def test_further_names_are_known_with_our_port_or_with_their_own() -> None:
    allowed = access(8420, "192.0.2.7", ("Room-2B", "box.example:8000", "2001:db8::5"))
    for host in ("192.0.2.7:8420", "room-2b:8420", "box.example:8000", "[2001:db8::5]:8420"):
        assert allowed.knows(host), host
    for host in ("192.0.2.8:8420", "room-2b:8000", "box.example:8420", "room-2b"):
        assert not allowed.knows(host), host
    assert access(80, "127.0.0.1").knows("localhost")
    assert access(8420, "2001:db8::5").knows("[2001:db8::5]:8420")


def test_served_everywhere_any_address_is_known_but_no_foreign_name() -> None:
    """An address cannot be rebound; a name can."""
    own = socket.gethostname().lower()
    for everywhere in ("0.0.0.0", "::"):
        allowed = access(8420, everywhere)
        for host in ("192.0.2.9:8420", "[2001:db8::1]:8420", f"{own}:8420"):
            assert allowed.knows(host), host
        for host in ("evil.example:8420", "192.0.2.9:80", "192.0.2.9.evil.example:8420"):
            assert not allowed.knows(host), host
        for host in ("999.1.1.1:8420", "[::zz]:8420", "[1.2.3]:8420", "192.0.2.9"):
            assert not allowed.knows(host), host


@pytest.mark.parametrize(
    ("address", "loopback"),
    [
        ("127.0.0.1", True),
        ("127.8.9.1", True),
        ("::1", True),
        ("[::1]", True),
        ("::ffff:127.0.0.1", True),
        ("localhost", True),
        ("0.0.0.0", False),
        ("::", False),
        ("192.168.1.2", False),
        ("room-2b", False),
    ],
)
def test_what_is_loopback(address: str, loopback: bool) -> None:
    assert is_loopback(address) is loopback


@pytest.mark.parametrize(
    ("head", "status"),
    [
        ("GET / HTTP/1.1\r\nHost: 127.0.0.1:PORT", 200),
        ("GET / HTTP/1.1\r\nHost: localhost:PORT", 200),
        ("GET / HTTP/1.1\r\nHost: evil.example:PORT", 421),
        ("GET /alive HTTP/1.1\r\nHost: evil.example:PORT", 421),
        ("GET / HTTP/1.1\r\nHost: 127.0.0.1:1", 421),
        ("GET / HTTP/1.1\r\nHost:", 421),
        ("GET / HTTP/1.0", 421),
        # h11 refuses these itself, as RFC 9112, 3.2 asks for.
        ("GET / HTTP/1.1", 400),
        ("GET / HTTP/1.1\r\nHost: 127.0.0.1:PORT\r\nHost: evil.example", 400),
        ("GET / HTTP/1.1\r\nHost: 127.0.0.1:PORT\r\nHost: 127.0.0.1:PORT", 400),
        # Whole addresses are for proxies, two slashes would name a machine.
        ("GET http://127.0.0.1:PORT/ HTTP/1.1\r\nHost: 127.0.0.1:PORT", 400),
        ("GET http://evil.example/ HTTP/1.1\r\nHost: 127.0.0.1:PORT", 400),
        ("GET //evil.example/ HTTP/1.1\r\nHost: 127.0.0.1:PORT", 400),
        ("GET /%2fevil.example HTTP/1.1\r\nHost: 127.0.0.1:PORT", 400),
        ("GET /a%00b HTTP/1.1\r\nHost: 127.0.0.1:PORT", 400),
        ("GET /a%0d%0aSet-Cookie:x HTTP/1.1\r\nHost: 127.0.0.1:PORT", 400),
        ("OPTIONS * HTTP/1.1\r\nHost: 127.0.0.1:PORT", 400),
        ("nonsense", 400),
    ],
)
def test_hosts_and_addresses_on_the_wire(page: Served, head: str, status: int) -> None:
    lines = head.replace("PORT", str(page.port)) + "\r\nConnection: close\r\n\r\n"
    answer = page.raw(lines.encode())
    assert status_of(answer) == status
    assert b"said by the app" not in answer or status == 200


@pytest.mark.parametrize(
    ("origins", "site", "status"),
    [
        (["http://127.0.0.1:PORT"], None, 200),
        (["http://127.0.0.1:PORT"], "same-origin", 200),
        ([], "same-origin", 200),
        (["HTTP://127.0.0.1:PORT"], None, 200),
        ([], None, 403),
        (["null"], None, 403),
        (["null"], "same-origin", 403),
        ([""], None, 403),
        (["http://evil.example"], None, 403),
        (["http://localhost:PORT"], None, 403),
        (["https://127.0.0.1:PORT"], None, 403),
        (["http://127.0.0.1:1"], None, 403),
        (["http://127.0.0.1"], None, 403),
        (["http://127.0.0.1:PORT.evil.example"], None, 403),
        (["http://127.0.0.1:PORT", "http://evil.example"], None, 403),
        (["http://127.0.0.1:PORT"], "cross-site", 403),
        ([], "cross-site", 403),
        ([], "same-site", 403),
        ([], "none", 403),
    ],
)
def test_only_our_own_pages_change_something(
    page: Served, origins: list[str], site: str | None, status: int
) -> None:
    """Another port of this machine is the same site, but another origin."""
    page.app.state.kept.clear()
    lines = [f"Origin: {origin}".replace("PORT", str(page.port)) for origin in origins]
    lines += [] if site is None else [f"Sec-Fetch-Site: {site}"]
    form = "Content-Type: application/x-www-form-urlencoded\r\nContent-Length: 3"
    head = f"POST /keep HTTP/1.1\r\nHost: 127.0.0.1:{page.port}\r\nConnection: close\r\n{form}"
    answer = page.raw("\r\n".join([head, *lines, "", "a=b"]).encode())
    assert status_of(answer) == status
    assert page.app.state.kept == ([[1]] if status == 200 else [])


def test_what_a_proxy_would_say_is_not_believed(page: Served) -> None:
    """No proxy stands before us, and a page that is open in the browser can send its headers."""
    own = f"127.0.0.1:{page.port}"
    lines = [f"Host: {own}", f"Origin: https://{own}", "X-Forwarded-Proto: https"]
    lines += ["X-Forwarded-For: 127.0.0.1", "Content-Length: 0", "Connection: close", "", ""]
    assert status_of(page.raw("\r\n".join(["POST /any HTTP/1.1", *lines]).encode())) == 403


@pytest.mark.parametrize("method", ["PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "STRANGE"])
def test_all_other_methods_count_as_changes(page: Served, method: str) -> None:
    head = f"{method} / HTTP/1.1\r\nHost: 127.0.0.1:{page.port}\r\nConnection: close"
    answer = page.raw(f"{head}\r\nOrigin: http://evil.example\r\n\r\n".encode())
    assert status_of(answer) == 403
    assert b"access-control" not in answer.lower()


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({}, 200),
        ({"Sec-Fetch-Site": "none"}, 200),
        ({"Sec-Fetch-Site": "same-origin", "Sec-Fetch-Mode": "cors"}, 200),
        (
            {
                "Sec-Fetch-Site": "cross-site",
                "Sec-Fetch-Mode": "navigate",
                "Sec-Fetch-Dest": "document",
            },
            200,
        ),
        (
            {
                "Sec-Fetch-Site": "cross-site",
                "Sec-Fetch-Mode": "navigate",
                "Sec-Fetch-Dest": "iframe",
            },
            403,
        ),
        ({"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "no-cors"}, 403),
        ({"Sec-Fetch-Site": "same-site", "Sec-Fetch-Mode": "cors"}, 403),
        ({"Sec-Fetch-Site": "cross-site"}, 403),
    ],
)
def test_other_pages_may_link_here_but_not_fetch(headers: dict[str, str], status: int) -> None:
    answer = client(access(8420, "127.0.0.1")).get("/", headers=headers)
    assert answer.status_code == status


def test_with_a_token_nothing_is_shown_without_it() -> None:
    outside = client(access(8420, "127.0.0.1", token=TOKEN))
    for path in ("/", "/nowhere", "/static/plain.txt", "/?token=", "/?token=wrong", "/?token=é"):
        answer = outside.get(path)
        assert answer.status_code == 403, path
        assert "address that was printed" in answer.text
        assert "set-cookie" not in answer.headers
    assert outside.get("/", headers={"Cookie": "storybank-8420=wrong"}).status_code == 403
    assert outside.get("/", headers={"Cookie": f"storybank-8421={TOKEN}"}).status_code == 403
    ours = {"Origin": "http://127.0.0.1:8420"}
    assert outside.post(f"/keep?token={TOKEN}", headers=ours).status_code == 403
    assert outside.post("/alive", headers=ours).status_code == 403
    alive = outside.get("/alive")
    assert alive.json() == {"program": "storybank", "version": VERSION, "needs_token": True}


def test_the_printed_address_gives_a_cookie_and_leads_to_the_same_without_the_token() -> None:
    inside = client(access(8420, "127.0.0.1", token=TOKEN))
    answer = inside.get(f"/static/plain.txt?a=1&token={TOKEN}&b=%C3%A4")
    assert answer.status_code == 303
    assert answer.headers["location"] == "/static/plain.txt?a=1&b=%C3%A4"
    parts = {part.strip().lower() for part in answer.headers["set-cookie"].split(";")}
    assert {"httponly", "samesite=strict", "path=/"} < parts
    assert f"storybank-8420={TOKEN}" in parts
    assert not any(part.startswith("domain") for part in parts)
    assert inside.get("/").text == "said by the app"
    ours = {"Origin": "http://127.0.0.1:8420"}
    assert inside.post("/keep", data={"a": "bc"}, headers=ours).text == "kept [2]"
    assert inside.post("/keep", data={"a": "bc"}).status_code == 403
    # An old address, with a token that is no longer right, still leads on.
    assert inside.get("/?token=old").headers["location"] == "/"
    assert inside.get(f"/?%74oken={TOKEN}").headers["location"] == "/"


def test_without_a_token_none_is_asked_for() -> None:
    inside = client(access(8420, "127.0.0.1"))
    assert inside.get("/?token=any").text == "said by the app"
    alive = inside.get("/alive")
    assert alive.json() == {"program": "storybank", "version": VERSION, "needs_token": False}


def test_the_page_is_ended_from_this_machine_only() -> None:
    ended: list[bool] = []

    def stopped(token: str | None, machine: str, **headers: str) -> int:
        app = served(
            small_app(),
            access(8420, "127.0.0.1", token=token),
            stop=lambda: ended.append(True),
        )
        asked = TestClient(app, base_url="http://127.0.0.1:8420", client=(machine, 50000))
        return asked.post("/stop", headers=headers).status_code

    ours = {"Origin": "http://127.0.0.1:8420"}
    cookie = {"Cookie": f"storybank-8420={TOKEN}"}
    assert stopped(None, "127.0.0.1", Origin="http://evil.example") == 403
    assert stopped(None, "127.0.0.1") == 403
    assert stopped(TOKEN, "127.0.0.1", **ours) == 403
    assert stopped(TOKEN, "192.0.2.7", **ours, **cookie) == 403
    assert stopped(TOKEN, "192.0.2.7", **ours, **cookie, **{"X-Forwarded-For": "127.0.0.1"}) == 403
    assert ended == []
    assert stopped(TOKEN, "127.0.0.1", **ours, **cookie) == 200
    assert stopped(None, "127.0.0.1", **ours) == 200
    assert ended == [True, True]


def test_to_look_at_stop_ends_nothing(page: Served) -> None:
    answer = page.ask("GET /stop")
    assert status_of(answer) == 405
    assert b"\r\nallow: POST\r\n" in answer
    assert not page.server.should_exit


@pytest.mark.parametrize(
    ("head", "status"),
    [
        ("GET /", 200),
        ("HEAD /", 200),
        ("GET /alive", 200),
        ("GET /static/plain.txt", 200),
        ("GET /nowhere", 404),
        ("POST /", 405),
        ("GET /broken", 500),
        ("GET /worded", 400),
        ("GET /stop", 405),
        ("POST /keep", 403),
        ("GET //", 400),
        ("GET /?" + "a" * 17_000, 414),
        ("GET / HTTP/1.1\r\nX: " + "a" * 70_000, 431),
        ("GET\t/", 400),
    ],
)
def test_every_answer_carries_the_headers(page: Served, head: str, status: int) -> None:
    if status == 431:  # A head that never ends.
        answer = page.raw(head.encode())
    elif status == 403:  # Without an Origin.
        lines = [f"{head} HTTP/1.1", f"Host: 127.0.0.1:{page.port}", "Connection: close"]
        answer = page.raw("\r\n".join([*lines, "", ""]).encode())
    else:
        answer = page.ask(head)
    assert status_of(answer) == status
    lines = answer.partition(b"\r\n\r\n")[0].decode().lower().split("\r\n")[1:]
    names = [line.partition(":")[0] for line in lines]
    for name, value in (
        ("content-security-policy", CONTENT_SECURITY_POLICY),
        ("x-content-type-options", "nosniff"),
        ("referrer-policy", "same-origin"),
        ("cross-origin-opener-policy", "same-origin"),
        ("cross-origin-resource-policy", "same-origin"),
        ("cache-control", "no-cache" if "/static/" in head else "no-store"),
    ):
        assert f"{name}: {value.lower()}" in lines
        assert names.count(name) == 1
    assert "server" not in names


def test_the_policy_names_nothing_but_ourselves() -> None:
    """Content Security Policy Level 3 (from memory): no inline code, no other machine, no frame."""
    rules = dict(rule.strip().split(" ", 1) for rule in CONTENT_SECURITY_POLICY.split(";"))
    assert rules.pop("default-src") == rules.pop("frame-ancestors") == "'none'"
    assert rules.pop("base-uri") == "'none'"
    assert rules.pop("img-src") == "'self' data:"
    assert set(rules) == {"script-src", "style-src", "connect-src", "form-action"}
    assert set(rules.values()) == {"'self'"}
