"""A server killed in the middle of a download leaves nothing half there, here or at the browser."""

import http.client
import io
import os
import random
import signal
import socket
import subprocess
import sys
import time
import zipfile
from contextlib import closing
from pathlib import Path
from urllib.parse import urlencode

ADDRESS = "/set?count=40&seed=11&change=swap-3&change=remove-7"
KILLS = 6
START_SECONDS = 30


def started(folder: Path, port: int) -> subprocess.Popen[bytes]:
    """A server with its own folders, once it answers."""
    command = [sys.executable, "-m", "storybank", "serve", "--no-browser", "--no-settings"]
    running = subprocess.Popen(
        [*command, "--port", str(port), "--folder", str(folder / "home")],
        env={**os.environ, "TMPDIR": str(folder / "temporary"), "HOME": str(folder)},
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    until = time.monotonic() + START_SECONDS
    while time.monotonic() < until:
        try:
            got(port, "/alive")
            return running
        except OSError:
            assert running.poll() is None, "the server ended"
            time.sleep(0.05)
    raise AssertionError("the server did not answer")


def got(port: int, path: str) -> bytes:
    """The page at a path."""
    with closing(http.client.HTTPConnection("127.0.0.1", port, timeout=30)) as connection:
        connection.request("GET", path)
        return connection.getresponse().read()


def taken(port: int, running: subprocess.Popen[bytes], after: float | None) -> bytes | None:
    """The archive of a set; None if it broke, the server being killed `after` so many seconds."""
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=30)
    body = urlencode({"what": "all", "names": "Ana\nBen"})
    headers = {
        "Origin": f"http://127.0.0.1:{port}",
        "Content-Type": "application/x-www-form-urlencoded",
    }
    try:
        connection.request("POST", ADDRESS.replace("/set", "/take"), body, headers)
        if after is not None:
            time.sleep(after)
            running.send_signal(signal.SIGKILL)
        answer = connection.getresponse()
        data = answer.read()
        assert answer.status == 200
        return data
    except (OSError, http.client.HTTPException):
        return None
    finally:
        connection.close()


def test_a_server_killed_amid_downloads_leaves_nothing_half_there(tmp_path: Path) -> None:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    (tmp_path / "temporary").mkdir()
    first, whole = None, 0.0
    luck = random.Random(5)
    broken = 0
    for turn in range(KILLS + 1):
        running = started(tmp_path, port)
        try:
            page = got(port, ADDRESS)
            first = first or page
            # The same address gives the same set after every restart; only the offer of another
            # set is a new one each time.
            assert stories(page) == stories(first)
            began = time.perf_counter()
            data = taken(port, running, luck.uniform(0.1, 0.9) * whole if turn else None)
            whole = whole or time.perf_counter() - began
        finally:
            running.kill()
            running.wait()
        if data is None:
            broken += 1
        else:
            assert zipfile.ZipFile(io.BytesIO(data)).testzip() is None
        assert not (tmp_path / "home").exists()
        assert list((tmp_path / "temporary").iterdir()) == []
    assert broken, "no download was cut off; the kills came too late"


def stories(page: bytes) -> list[bytes]:
    """The texts of the stories on a page, with their codes."""
    found = page.split(b'<li class="story"')[1:]
    assert len(found) == 39
    return [one.split(b'<div class="opens">')[0] for one in found]
