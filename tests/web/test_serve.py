"""`storybank serve` as it is started and ended: real processes, their words, their exit codes."""

import os
import signal
import socket
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from pathlib import Path

import pytest
from web.serving import WAIT, rest_of, serving, small_app, status_of, until

from storybank.cli import _serve as command
from storybank.cli import main
from storybank.version import VERSION
from storybank.web import _browser, _serve
from storybank.web._home import Home, folder_of_account
from storybank.web._serve import Wishes

NAME = "Wilhelmine"
TESTS = Path(__file__).parents[1]
# The command itself, with the small app of these tests in place of the pages.
START = (
    f"import sys; sys.path.insert(0, {str(TESTS)!r}); sys.argv[0] = 'storybank'\n"
    "from storybank import web; from web.serving import small_app\n"
    "web.create_app = small_app\n"
    "from storybank.__main__ import run; run()\n"
)
FORM = "Content-Type: multipart/form-data; boundary=cut"


@pytest.fixture(autouse=True)
def own_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    return tmp_path


class Process:
    """`storybank serve` in a process of its own, once it has told its address."""

    def __init__(self, code: str) -> None:
        self.process = subprocess.Popen(
            [sys.executable, "-c", code, "serve", "--no-browser", "--port", "0"],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            bufsize=0,  # Else what was read ahead is not in what `communicate` gives.
        )
        assert self.process.stdout is not None
        self.said = self.process.stdout.readline().decode()
        assert self.said.startswith("Storybank's page: http://127.0.0.1:"), self.said
        self.port = int(self.said.rstrip("/\n").rpartition(":")[2])

    def connected(self) -> socket.socket:
        return socket.create_connection(("127.0.0.1", self.port), timeout=WAIT)

    def post(self, path: str, body: bytes, *more: str) -> socket.socket:
        """A connection on which a whole request of our own page was sent."""
        own = f"127.0.0.1:{self.port}"
        lines = [f"POST {path} HTTP/1.1", f"Host: {own}", f"Origin: http://{own}", *more]
        connection = self.connected()
        connection.sendall("\r\n".join([*lines, "", ""]).encode() + body)
        return connection

    def get(self, path: str) -> bytes:
        with self.connected() as connection:
            lines = [f"GET {path} HTTP/1.1", f"Host: 127.0.0.1:{self.port}", "Connection: close"]
            connection.sendall("\r\n".join([*lines, "", ""]).encode())
            return rest_of(connection)

    def end(self, how: signal.Signals | None = None) -> tuple[int, str]:
        """The exit code, and all that was written."""
        if how is not None:
            self.process.send_signal(how)
        out, err = self.process.communicate(timeout=WAIT)
        return self.process.returncode, self.said + out.decode() + err.decode()

    def peak(self) -> int:
        """The most memory that the process has had, in bytes."""
        status = Path(f"/proc/{self.process.pid}/status").read_text(encoding="ascii")
        return int(status.partition("VmHWM:")[2].split()[0]) * 1024


@contextmanager
def process(code: str = START) -> Iterator[Process]:
    started = Process(code)
    try:
        yield started
    finally:
        started.process.kill()
        started.process.communicate()


def form(name: str, text: str) -> bytes:
    """A form with a field and a file, all of whose words are these."""
    head = f'--cut\r\nContent-Disposition: form-data; name="{name}"'
    return (
        f'{head}\r\n\r\n{text}\r\n{head}; filename="{name}.csv"\r\n\r\n{text}\r\n--cut--'.encode()
    )


def test_nothing_that_is_sent_is_written_anywhere(own_folder: Path) -> None:
    """A name in body, address, headers, file name: in pages that work, and in all that fail."""
    with process() as page:
        assert b"said by the app" in page.get(f"/?child={NAME}")
        assert status_of(page.get(f"/{NAME}?{NAME}")) == 404
        assert status_of(page.get(f"/broken?child={NAME}")) == 500
        for path, body, status in (
            ("/keep", form(NAME, NAME), 200),
            ("/keep", form(NAME, NAME)[:-9], 200),
            ("/keep", f"{NAME}\r\n--cut".encode(), 400),
            (f"/broken?{NAME}", form(NAME, NAME), 500),
        ):
            more = (FORM, f"Content-Length: {len(body)}", f"X-Name: {NAME}", "Connection: close")
            with page.post(path, body, *more) as connection:
                assert status_of(rest_of(connection)) == status
        with page.post("/any", NAME.encode(), "Content-Length: 1000"):
            pass  # Gone before all was sent.
        with page.connected() as connection:
            connection.sendall(f"{NAME} is no HTTP\r\n\r\n".encode())
            assert status_of(rest_of(connection)) == 400
        with page.post("/any", f"{NAME}\r\n".encode(), "Transfer-Encoding: chunked") as connection:
            assert status_of(rest_of(connection)) == 400
        code, said = page.end(signal.SIGTERM)
    assert code == 0
    lines = said.splitlines()
    assert lines[:2] == [f"Storybank's page: http://127.0.0.1:{page.port}/", "Ctrl+C ends it."]
    assert len(lines) == 4
    for line in lines[2:]:
        assert line.startswith("storybank: a fault of the page: ValueError at ")
    assert NAME not in said
    assert list(own_folder.iterdir()) == []


@pytest.mark.skipif(sys.platform != "linux", reason="the memory of a process is read from /proc")
def test_a_hundred_megabytes_are_not_taken_into_memory() -> None:
    chunk = b"100000\r\n" + bytes(0x100000) + b"\r\n"
    with process() as page:
        page.get("/")
        before = page.peak()
        for path in ("/any", "/unread", "/nowhere", "/keep"):
            with page.post(path, b"", "Transfer-Encoding: chunked") as connection:
                sent = 0
                try:
                    for _ in range(100):
                        connection.sendall(chunk)
                        sent += len(chunk)
                    connection.sendall(b"0\r\n\r\n")
                except (ConnectionResetError, BrokenPipeError):
                    pytest.fail(f"closed after {sent} bytes, before the answer could be read")
                expected = {"/any": 413, "/unread": 200, "/nowhere": 404, "/keep": 200}[path]
                assert status_of(rest_of(connection)) == expected
        assert page.peak() - before < 16 * 1024 * 1024
        assert page.end(signal.SIGTERM)[0] == 0


@pytest.mark.parametrize("how", [signal.SIGINT, signal.SIGTERM])
def test_it_ends_gently_with_connections_open(how: signal.Signals) -> None:
    with process() as page, ExitStack() as held:
        held.enter_context(page.connected())
        kept = held.enter_context(page.post("/any", b"ab", "Content-Length: 2"))
        until(kept, b"counted 2")
        if how == signal.SIGTERM:  # An upload that never ends.
            held.enter_context(page.post("/any", b"a", "Content-Length: 2"))
        slow = held.enter_context(page.connected())
        slow.sendall(f"GET /slow HTTP/1.1\r\nHost: 127.0.0.1:{page.port}\r\n\r\n".encode())
        time.sleep(0.2)
        began = time.monotonic()
        code, said = page.end(how)
        assert time.monotonic() - began < 6
        assert (code, said.splitlines()[1:]) == (0, ["Ctrl+C ends it."])
        assert b"at last" in rest_of(slow)


def test_it_ends_though_a_thread_goes_on() -> None:
    soon = f"from storybank.cli import _serve; _serve._HARD_END_SECONDS = 0.5\n{START}"
    with process(soon) as page, page.connected() as stuck:
        stuck.sendall(f"GET /stuck HTTP/1.1\r\nHost: 127.0.0.1:{page.port}\r\n\r\n".encode())
        time.sleep(0.2)
        began = time.monotonic()
        assert page.end(signal.SIGTERM)[0] == 0
        assert 0.4 < time.monotonic() - began < 3


def test_stop_ends_it() -> None:
    with process() as page:
        with page.post("/stop", b"", "Content-Length: 0", "Connection: close") as connection:
            answer = rest_of(connection)
        assert status_of(answer) == 200
        assert b"Storybank has ended" in answer
        assert page.end()[0] == 0


def refused(capsys: pytest.CaptureFixture[str], *words: str) -> str:
    """The message of a command that must not work."""
    capsys.readouterr()
    assert main(["serve", "--no-browser", *words]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert "Traceback" not in said.err
    return said.err


def test_where_it_runs_already_the_browser_is_opened_there(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    shown: list[str] = []
    monkeypatch.setattr(_browser, "show", shown.append)
    with serving() as page:
        address = f"http://127.0.0.1:{page.port}/"
        for more in ([], ["--no-browser"]):
            assert main(["serve", "--port", str(page.port), *more]) == 0
            said = capsys.readouterr()
            assert said.out == f"Storybank's page runs already: {address} (version {VERSION}).\n"
    assert shown == [address]


def test_where_it_runs_with_a_token_the_printed_address_is_pointed_to(
    capsys: pytest.CaptureFixture[str],
) -> None:
    with serving(token="secret") as page:
        said = refused(capsys, "--port", str(page.port))
    assert "the address that was printed" in said
    assert str(page.port) in said


ANSWERS = {
    "closes": b"",
    "other words": b"220 mail.example ready\r\n",
    "other page": b"HTTP/1.1 200 OK\r\nContent-Length: 2\r\n\r\nhi",
    "other JSON": b"HTTP/1.1 200 OK\r\nContent-Length: 21\r\n\r\n" + b'{"program": "another"}',
    "a list": b"HTTP/1.1 200 OK\r\nContent-Length: 13\r\n\r\n" + b'["storybank"]',
    "no end": b"HTTP/1.1 200 OK\r\n\r\n" + b"{" * 9000,
}


@pytest.mark.parametrize("kind", ANSWERS)
def test_a_port_of_another_program_is_told(kind: str, capsys: pytest.CaptureFixture[str]) -> None:
    with other_program(ANSWERS[kind]) as port:
        said = refused(capsys, "--port", str(port))
    assert f"Port {port} is in use by another program." in said
    assert "--port " in said


@contextmanager
def other_program(answer: bytes) -> Iterator[int]:
    """Another program at a port, which gives one answer to everyone."""
    with socket.create_server(("127.0.0.1", 0)) as listener:
        listener.settimeout(WAIT)

        def answer_all() -> None:
            while True:
                try:
                    connection, _ = listener.accept()
                except OSError:
                    return
                with connection:
                    connection.sendall(answer)

        threading.Thread(target=answer_all, daemon=True).start()
        yield listener.getsockname()[1]
        listener.shutdown(socket.SHUT_RDWR)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["--port", "65536"], "--port 65536 is no port"),
        (["--port", "-1"], "--port -1 is no port"),
        (["--host", "192.0.2.7", "--port", "0"], '"192.0.2.7"'),
        (["--host", "no such host", "--port", "0"], '"no such host"'),
        (["--host", "", "--port", "0"], 'address ""'),
        (["--folder", "a-file", "--port", "0"], '"a-file" is a file'),
        (["--settings", "nowhere.yaml", "--port", "0"], '"nowhere.yaml"'),
    ],
)
def test_wrong_wishes_are_told(
    words: list[str], says: str, capsys: pytest.CaptureFixture[str]
) -> None:
    Path("a-file").touch()
    assert says in refused(capsys, *words)


def test_without_the_extra_it_says_what_to_install(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    found = command.find_spec
    monkeypatch.setattr(
        command, "find_spec", lambda name: None if name == "uvicorn" else found(name)
    )
    said = refused(capsys, "--port", "0")
    assert "uvicorn" in said and "starlette" not in said
    assert "pip install 'storybank[web]'" in said


def test_other_commands_load_nothing_of_it() -> None:
    code = (
        "import sys; from storybank.cli import main; main(['explain', '82 - 47'])\n"
        "names = ('starlette', 'uvicorn', 'jinja2', 'asyncio', 'storybank.web')\n"
        "sys.exit(str([name for name in names if name in sys.modules]))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.stderr == "[]\n"


class Told:
    """`serve` in a thread of this process: what it says, and the Home that its app was given."""

    def __init__(self, wishes: Wishes) -> None:
        self.said: list[str] = []
        self.warned: list[str] = []
        self.homes: list[Home] = []
        self.codes: list[int] = []
        self._tells = threading.Event()
        self.thread = threading.Thread(target=self._serve, args=(wishes,), daemon=True)
        self.thread.start()
        assert self._tells.wait(WAIT)

    def _serve(self, wishes: Wishes) -> None:
        def make(home: Home) -> object:
            self.homes.append(home)
            return small_app(home)

        def say(text: str) -> None:
            self.said.append(text)
            self._tells.set()

        self.codes.append(_serve.serve(wishes, say, self.warned.append, make_app=make))

    def stop(self) -> None:
        stop: Callable[[], None] | None = self.homes[0].stop
        assert stop is not None
        stop()
        self.thread.join(WAIT)
        assert self.codes == [0]


def test_the_app_is_given_its_home_and_ends_the_server(own_folder: Path) -> None:
    told = Told(Wishes(port=0, browser=False))
    told.stop()
    (home,) = told.homes
    assert home.folder == own_folder / "data" / "storybank"
    assert home.bank == home.folder / "our.bank"
    assert home.themes == home.folder / "themes"
    assert told.warned == []
    told = Told(Wishes(port=0, browser=False, folder=Path("kept"), bank=Path("school.bank")))
    told.stop()
    assert told.homes[0].folder == own_folder / "kept"
    assert told.homes[0].bank == own_folder / "school.bank"
    assert list(own_folder.iterdir()) == []


def test_the_browser_is_opened_once_the_page_answers(monkeypatch: pytest.MonkeyPatch) -> None:
    shown: list[tuple[str, bytes]] = []
    asked = threading.Event()

    def show(address: str) -> bool:
        port = int(address.rstrip("/").rpartition(":")[2])
        with socket.create_connection(("127.0.0.1", port), timeout=WAIT) as connection:
            connection.sendall(f"GET / HTTP/1.0\r\nHost: localhost:{port}\r\n\r\n".encode())
            shown.append((address, rest_of(connection)))
        asked.set()
        return True

    monkeypatch.setattr(_browser, "show", show)
    told = Told(Wishes(port=0))
    assert asked.wait(WAIT)
    told.stop()
    ((address, answer),) = shown
    assert told.said == [f"Storybank's page: {address}\nCtrl+C ends it."]
    assert b"said by the app" in answer


def test_served_to_others_it_warns_and_asks_for_a_token(monkeypatch: pytest.MonkeyPatch) -> None:
    """On loopback all the same: only that it is loopback is not seen here."""
    monkeypatch.setattr(_serve, "is_loopback", lambda host: False)
    tokens = set()
    for _ in range(2):
        told = Told(Wishes(port=0, browser=False))
        address = told.said[0].splitlines()[0].rpartition(" ")[2]
        before, _, token = address.partition("/?token=")
        port = int(before.rpartition(":")[2])
        with socket.create_connection(("127.0.0.1", port), timeout=WAIT) as connection:
            connection.sendall(f"GET / HTTP/1.0\r\nHost: 127.0.0.1:{port}\r\n\r\n".encode())
            assert status_of(rest_of(connection)) == 403
        with socket.create_connection(("127.0.0.1", port), timeout=WAIT) as connection:
            asked = f"GET /?token={token} HTTP/1.0\r\nHost: 127.0.0.1:{port}\r\n\r\n"
            connection.sendall(asked.encode())
            assert status_of(rest_of(connection)) == 303
        told.stop()
        tokens.add(token)
        (warning,) = told.warned
        for words in ("can reach this one", "answers", "children's names", "unencrypted"):
            assert words in warning
        assert token not in warning
    assert len(tokens) == 2
    assert all(len(token) >= 43 for token in tokens)  # 32 bytes (secrets.token_urlsafe)


@pytest.mark.parametrize(
    ("environment", "platform", "folder"),
    [
        ({"XDG_DATA_HOME": "/data"}, "linux", "/data/storybank"),
        ({"XDG_DATA_HOME": "/data"}, "darwin", "/data/storybank"),
        ({"XDG_DATA_HOME": "not/whole"}, "linux", "/home/own/.local/share/storybank"),
        ({"XDG_DATA_HOME": ""}, "linux", "/home/own/.local/share/storybank"),
        ({}, "linux", "/home/own/.local/share/storybank"),
        ({"APPDATA": "/roaming"}, "linux", "/home/own/.local/share/storybank"),
        ({}, "darwin", "/home/own/Library/Application Support/storybank"),
        ({"APPDATA": "/roaming", "LOCALAPPDATA": "/local"}, "win32", "/roaming/storybank"),
        ({"LOCALAPPDATA": "/local"}, "win32", "/local/storybank"),
        ({}, "win32", "/home/own/.local/share/storybank"),
    ],
)
def test_the_folder_of_the_account(environment: dict[str, str], platform: str, folder: str) -> None:
    assert folder_of_account(environment, Path("/home/own"), platform) == Path(folder)


def test_double_clicked_it_shows_by_the_browser_why_it_does_not_start(
    monkeypatch: pytest.MonkeyPatch, own_folder: Path
) -> None:
    ended: list[int] = []
    shown: list[str] = []
    monkeypatch.setattr(os, "_exit", ended.append)
    monkeypatch.setattr(_browser, "show", shown.append)
    monkeypatch.setattr(_browser.tempfile, "tempdir", str(own_folder))
    with other_program(b"") as port:
        monkeypatch.setattr(command, "_PORT", port)
        with monkeypatch.context() as windowless:
            windowless.setattr(sys, "stdout", None)
            windowless.setattr(sys, "stderr", None)
            command.double_clicked()
    assert ended == [2]
    (file,) = own_folder.iterdir()
    assert shown == [file.as_uri()]
    assert f"Port {port} is in use" in file.read_text(encoding="utf-8")


def test_double_clicked_while_it_runs_it_only_opens_the_browser(
    monkeypatch: pytest.MonkeyPatch, own_folder: Path
) -> None:
    ended: list[int] = []
    shown: list[str] = []
    monkeypatch.setattr(os, "_exit", ended.append)
    monkeypatch.setattr(_browser, "show", shown.append)
    with serving() as page, monkeypatch.context() as windowless:
        windowless.setattr(command, "_PORT", page.port)
        windowless.setattr(sys, "stdout", None)
        windowless.setattr(sys, "stderr", None)
        command.double_clicked()
    assert ended == [0]
    assert shown == [f"http://127.0.0.1:{page.port}/"]
    assert list(own_folder.iterdir()) == []


def test_a_browser_of_the_terminal_is_not_opened(monkeypatch: pytest.MonkeyPatch) -> None:
    opened: list[str] = []
    monkeypatch.delenv("BROWSER", raising=False)
    monkeypatch.setattr(_browser.webbrowser, "open", lambda address: bool(opened.append(address)))
    in_terminal = _browser.webbrowser.GenericBrowser("text-browser")
    monkeypatch.setattr(_browser.webbrowser, "get", lambda: in_terminal)
    assert _browser.show("http://127.0.0.1:8420/") is False
    assert opened == []
    in_window = _browser.webbrowser.BackgroundBrowser("browser")
    monkeypatch.setattr(_browser.webbrowser, "get", lambda: in_window)
    _browser.show("http://127.0.0.1:8420/")
    assert opened == ["http://127.0.0.1:8420/"]
