"""What a request may send, and for how long; and the pages that say so."""

import logging
import socket
import threading
import time
import warnings
from collections.abc import Iterator

import pytest
from httpx2 import Response as Answer
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import HTMLResponse, Response
from starlette.testclient import TestClient
from web.serving import LIMITS, Served, rest_of, serving, small_app, status_of, until

from storybank.web._guard import access
from storybank.web._layers import served
from storybank.web._limits import KIB, MIB, Bounds
from storybank.web._protocol import bounded_by
from storybank.web._quiet import without_words

SHORT = 0.4
SOON = 5  # Far less than any time that is not SHORT, far more than a busy machine needs.
NAME = "Wilhelmine"
OURS = {"Origin": "http://127.0.0.1:8420"}


@pytest.fixture(scope="module")
def page() -> Iterator[Served]:
    """A server with short times."""
    bounds = Bounds(larger=LIMITS, body_seconds=SHORT, linger_seconds=SHORT)
    with serving(bounds, bounded_by(head_seconds=SHORT, write_seconds=SHORT)) as page:
        yield page


@pytest.fixture(scope="module")
def patient() -> Iterator[Served]:
    """A server with its usual times."""
    with serving() as page:
        yield page


def client(**state: object) -> TestClient:
    app = small_app()
    for name, value in state.items():
        setattr(app.state, name, value)
    return TestClient(
        served(app, access(8420, "127.0.0.1")),
        base_url="http://127.0.0.1:8420",
        headers=OURS,
    )


def head(page: Served, line: str, *more: str) -> bytes:
    lines = [line, f"Host: 127.0.0.1:{page.port}", f"Origin: http://127.0.0.1:{page.port}", *more]
    return "\r\n".join([*lines, "", ""]).encode()


def chunked(size: int) -> bytes:
    """A body of `size` bytes in chunks of 64 KiB."""
    part = b"10000\r\n" + b"x" * 0x10000 + b"\r\n"
    rest = size % 0x10000
    last = b"%x\r\n" % rest + b"x" * rest + b"\r\n" if rest else b""
    return part * (size // 0x10000) + last + b"0\r\n\r\n"


@pytest.mark.parametrize(
    ("path", "most"),
    [
        ("/", MIB),
        ("/anything", MIB),
        ("/bank", 2 * MIB),
        ("/bank/other", 2 * MIB),
        ("/banks", MIB),
        ("/bank/import", 4 * MIB),
        ("/bank/import/now", 4 * MIB),
        ("/bank/importer", 2 * MIB),
    ],
)
def test_the_longest_path_that_fits_says_how_much_is_taken(path: str, most: int) -> None:
    assert Bounds(larger=LIMITS).body_at(path) == most
    assert Bounds(larger=dict(reversed(LIMITS.items()))).body_at(path) == most


@pytest.mark.parametrize(("path", "most"), [("/any", MIB), ("/bank/import", 4 * MIB)])
def test_a_body_is_taken_up_to_its_last_byte_and_not_one_more(
    patient: Served, path: str, most: int
) -> None:
    for size, status in ((most, 200), (most + 1, 413)):
        length = patient.ask(f"POST {path}", b"x" * size, f"Content-Length: {size}")
        assert status_of(length) == status
        answer = patient.ask(f"POST {path}", chunked(size), "Transfer-Encoding: chunked")
        assert status_of(answer) == status
        assert (b"counted %d" % size in answer) is (status == 200)


def test_too_long_a_length_is_refused_before_the_body_comes(page: Served) -> None:
    for length in (100 * MIB, 10**18, 10**19):
        with page.connected() as connection:
            connection.sendall(head(page, "POST /any HTTP/1.1", f"Content-Length: {length}"))
            assert status_of(rest_of(connection, SOON)) == 413  # Waited for, it would be 408.


def test_who_waits_to_be_let_go_on_is_refused_at_once(page: Served) -> None:
    asked = head(page, "POST /any HTTP/1.1", f"Content-Length: {100 * MIB}", "Expect: 100-continue")
    assert status_of(page.raw(asked)) == 413
    let = head(page, "POST /any HTTP/1.1", "Content-Length: 2", "Expect: 100-continue")
    with page.connected() as connection:
        connection.sendall(let)
        assert connection.recv(65536).startswith(b"HTTP/1.1 100 ")
        connection.sendall(b"ab")
        until(connection, b"counted 2")


@pytest.mark.parametrize("length", ["-1", "+5", "5, 6", "5 5", "0x10", "", "٣"])
def test_a_length_that_is_no_number_is_refused(page: Served, length: str) -> None:
    asked = head(page, "POST /any HTTP/1.1", f"Content-Length: {length}", "Connection: close")
    assert status_of(page.raw(asked + b"hello")) == 400


def test_a_body_that_comes_drop_by_drop_is_given_up(page: Served) -> None:
    with page.connected() as connection:
        began = time.monotonic()
        connection.sendall(head(page, "POST /any HTTP/1.1", "Content-Length: 1000"))
        answer = dripped(connection)
        assert status_of(answer) == 408
        assert b"This took too long" in answer
        assert SHORT <= time.monotonic() - began < SOON


def dripped(connection: socket.socket) -> bytes:
    """What is answered while one byte after the other is sent, 0.05 seconds apart."""
    got = b""
    connection.settimeout(0.05)
    for _ in range(100):
        try:
            connection.sendall(b"x")
            part = connection.recv(65536)
        except TimeoutError:
            continue
        except (ConnectionResetError, BrokenPipeError):
            return got
        if not part:
            return got
        got += part
    pytest.fail("the connection was never closed")


@pytest.mark.parametrize("first", [b"", b"G", b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nX-"])
def test_a_head_that_comes_drop_by_drop_is_given_up(page: Served, first: bytes) -> None:
    with page.connected() as connection:
        began = time.monotonic()
        connection.sendall(first)
        assert dripped(connection) == b""
        assert SHORT * 0.9 <= time.monotonic() - began < SOON


def test_who_says_nothing_at_all_is_not_waited_for(page: Served) -> None:
    with page.connected() as connection:
        assert rest_of(connection, SOON) == b""


def test_a_second_head_on_the_same_connection_has_no_more_time(page: Served) -> None:
    with page.connected() as connection:
        connection.sendall(head(page, "GET / HTTP/1.1"))
        until(connection, b"said by the app")
        time.sleep(SHORT / 2)
        connection.sendall(head(page, "GET / HTTP/1.1"))
        until(connection, b"said by the app")
        connection.sendall(b"GET / HT")
        assert dripped(connection) == b""


def test_a_page_that_takes_long_is_not_cut_off_by_these_times(page: Served) -> None:
    assert b"at last" in page.ask("GET /slow")


def test_who_does_not_read_the_answer_is_let_go(page: Served) -> None:
    with page.connected() as connection:
        connection.sendall(head(page, "GET /endless HTTP/1.1"))
        assert connection.recv(1000).startswith(b"HTTP/1.1 200 ")
        latest = time.monotonic() + SOON
        while page.open_connections():
            assert time.monotonic() < latest
            time.sleep(0.02)


def test_a_body_that_nobody_reads_does_not_hold_the_connection(page: Served) -> None:
    """The app has answered; the rest is thrown away for a short time only."""
    with page.connected() as connection:
        began = time.monotonic()
        connection.sendall(head(page, "POST /unread HTTP/1.1", "Content-Length: 100000"))
        answer = dripped(connection)
        assert status_of(answer) == 200
        assert b"not read" in answer
        assert time.monotonic() - began < SOON
    whole = page.raw(head(page, "POST /unread HTTP/1.1", "Content-Length: 3") + b"abc")
    assert b"connection: close" in whole.lower()


@pytest.mark.parametrize(
    ("line", "more", "status"),
    [
        ("GET /?" + "a" * 16 * KIB + " HTTP/1.1", [], 200),
        ("GET /?" + "a" * (16 * KIB + 1) + " HTTP/1.1", [], 414),
        ("GET /" + "a" * (16 * KIB + 1) + " HTTP/1.1", [], 414),
        ("GET / HTTP/1.1", [f"X-{n}: y" for n in range(90)], 200),
        ("GET / HTTP/1.1", [f"X-{n}: y" for n in range(101)], 431),
        ("GET / HTTP/1.1", ["X-Long: " + "y" * 40 * KIB], 431),
        ("GET / HTTP/1.1", [f"X-{n}: {'y' * 1000}" for n in range(1000)], 431),
    ],
    ids=["query", "long query", "long path", "headers", "many", "long", "flood"],
)
def test_heads_are_bounded(patient: Served, line: str, more: list[str], status: int) -> None:
    with patient.connected() as connection:
        try:
            connection.sendall(head(patient, line, *more, "Connection: close"))
        except (ConnectionResetError, BrokenPipeError):
            assert len(more) == 1000  # Only the flood is cut off while it is sent.
        answer = rest_of(connection)
    assert answer == b"" or status_of(answer) == status
    assert answer or len(more) == 1000


def test_too_many_connections_are_told_so_and_far_too_many_are_closed() -> None:
    with serving(protocol=bounded_by(most=3)) as page:
        held = [page.connected() for _ in range(3)]
        latest = time.monotonic() + 5
        while page.open_connections() < 3:
            assert time.monotonic() < latest
            time.sleep(0.01)
        answer = page.raw(head(page, "GET / HTTP/1.1"))
        assert status_of(answer) == 503
        assert b"Too many at once" in answer
        assert b"content-security-policy" in answer.lower()
        held += [page.connected() for _ in range(3)]
        with page.connected() as far_too_many:
            assert rest_of(far_too_many, 2) == b""
        for connection in held:
            connection.close()
        while page.open_connections():
            assert time.monotonic() < latest
            time.sleep(0.01)
        assert b"said by the app" in page.ask("GET /")


def refused(answer: Answer) -> str:
    assert answer.status_code == 400, answer.text
    assert answer.headers["content-type"].startswith("text/html")
    assert NAME not in answer.text
    return answer.text


def test_forms_are_bounded_in_files_fields_and_length() -> None:
    page = client()
    file = (f"{NAME}.csv", NAME.encode())
    assert page.post("/keep", files={"a": file, "b": file}).text == "kept [10, 10]"
    three = {"a": file, "b": file, "c": file}
    assert "at most 2 files" in refused(page.post("/keep", files=three))
    many = {f"{NAME}{n}": NAME for n in range(30)}
    assert "More fields" in refused(page.post("/keep", data=many))
    assert "More fields" in refused(page.post("/keep", data=many, files={"a": file}))
    long = {NAME: NAME * 10_000}
    assert "longer than 64 KiB" in refused(page.post("/keep", data=long))
    assert "longer than 64 KiB" in refused(page.post("/keep", data=long, files={"a": file}))


@pytest.mark.parametrize(
    ("kind", "body"),
    [
        ("multipart/form-data", b"--x\r\n"),
        ("multipart/form-data; boundary=x", f"{NAME} is not a form".encode()),
        ("multipart/form-data; boundary=x", f"--x\r\n{NAME}\r\n\r\n--x--".encode()),
        (
            "multipart/form-data; boundary=x",
            f"--x\r\nContent-Disposition: form-data\r\n\r\n{NAME}\r\n--x--".encode(),
        ),
        ("multipart/form-data; boundary=" + "x" * 5000, b"--x\r\n"),
    ],
)
def test_what_is_no_whole_form_is_refused_kindly(kind: str, body: bytes) -> None:
    answer = client().post("/keep", content=body, headers={"Content-Type": kind})
    assert "did not come whole" in refused(answer)


def test_errors_are_kind_pages_without_a_trace() -> None:
    page = client()
    quiet = TestClient(page.app, base_url="http://127.0.0.1:8420", headers=OURS)
    for method, path, status, words in (
        ("GET", "/nowhere", 404, "no such page"),
        ("POST", "/", 405, "only to be looked at"),
        ("GET", "/worded", 400, "There is no &lt;theme&gt; of this name."),
        ("GET", f"/broken?{NAME}", 500, "not yours"),
    ):
        answer = quiet.request(method, path)
        assert answer.status_code == status
        assert answer.headers["content-type"] == "text/html; charset=utf-8"
        assert words in answer.text
        assert NAME not in answer.text
        assert "Traceback" not in answer.text
        assert answer.text.startswith("<!DOCTYPE html>")
    assert "GET" in page.post("/").headers["allow"]


def test_the_app_may_make_the_pages_of_its_errors() -> None:
    def ours(request: Request, status: int, title: str, text: str) -> Response:
        return HTMLResponse(f"<h1>{status} {title}</h1>", status_code=200)

    page = client(render_error=ours)
    for path, status in (("/nowhere", 404), ("/broken", 500), ("/worded", 400)):
        answer = page.get(path)
        assert answer.status_code == status
        assert answer.text.startswith(f"<h1>{status} ")
    large = page.post("/any", content=b"x" * (MIB + 1))
    assert (large.status_code, large.text) == (413, "<h1>413 This is too large</h1>")


def test_where_the_apps_page_fails_a_plain_one_is_shown(
    capsys: pytest.CaptureFixture[str],
) -> None:
    def fails(request: Request, status: int, title: str, text: str) -> Response:
        raise HTTPException(418, NAME)

    answer = client(render_error=fails).get("/nowhere")
    assert answer.status_code == 404
    assert "no such page" in answer.text
    said = capsys.readouterr().err
    assert "a fault of the page: HTTPException at " in said
    assert NAME not in said


def test_a_fault_is_written_by_its_type_and_place_only(
    capsys: pytest.CaptureFixture[str],
) -> None:
    client().post(f"/broken?{NAME}=1", content=NAME.encode())
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.startswith("storybank: a fault of the page: ValueError at ")
    assert said.err.count("\n") == 1
    assert NAME not in said.err


def test_nothing_that_libraries_say_shows_its_words(capsys: pytest.CaptureFixture[str]) -> None:
    """Logs, warnings, faults of threads and of what is taken down."""

    class Falls:
        def __del__(self) -> None:
            raise LookupError(NAME)

    def fails() -> None:
        raise ArithmeticError(NAME)

    logger = logging.getLogger("some.library")
    with without_words():
        logger.error("sent: %s", NAME)
        logger.warning(NAME)
        warnings.warn(NAME, UserWarning, stacklevel=1)
        try:
            fails()
        except ArithmeticError:
            logger.exception(NAME)
        thread = threading.Thread(target=fails, name=NAME)
        thread.start()
        thread.join(5)
        Falls()
    said = capsys.readouterr()
    assert NAME not in said.out + said.err
    kinds = [
        line.removeprefix("storybank: a fault of the page: ") for line in said.err.splitlines()
    ]
    assert [kind.partition(" at ")[0] for kind in kinds] == [
        "ArithmeticError",
        "ArithmeticError",
        "LookupError",
    ]
