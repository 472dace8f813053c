"""How the page answers: many teachers at once, each on the whole way, at a server of its own.

python _web_load.py SECONDS TEACHERS     figures as lines

Each teacher opens the form, asks for a set of 12, swaps two stories, gives one other numbers,
tells one in her own words with the names of a class in the page, and takes the student pages as
Word, without a pause. Every answer is looked at: its status, and that it is the page asked for.
"""

import http.client
import os
import socket
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from statistics import median
from urllib.parse import urlencode

NAMES = "Ana, she\nBen, he\nChipo\nDewi"
_START_SECONDS = 20


@contextmanager
def server() -> Iterator[tuple[int, int]]:
    """The port and the process id of a page that is served until the end."""
    with tempfile.TemporaryDirectory() as folder:
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            port = free.getsockname()[1]
        command = [sys.executable, "-m", "storybank", "serve", "--no-browser", "--no-settings"]
        running = subprocess.Popen(
            [*command, "--port", str(port), "--folder", folder],
            stdout=subprocess.DEVNULL,
            env={**os.environ, "XDG_DATA_HOME": folder},
        )
        try:
            until = time.monotonic() + _START_SECONDS
            while True:
                try:
                    asked(http.client.HTTPConnection("127.0.0.1", port), "GET", "/alive")
                    break
                except OSError:
                    if time.monotonic() > until:
                        raise
                    time.sleep(0.05)
            yield port, running.pid
        finally:
            running.terminate()
            running.wait(20)


def asked(
    connection: http.client.HTTPConnection, method: str, path: str, body: str | None = None
) -> tuple[int, bytes]:
    """The status and the body of an answer."""
    headers = {"Origin": f"http://127.0.0.1:{connection.port}"}
    if body is not None:
        headers["Content-Type"] = "application/x-www-form-urlencoded"
    connection.request(method, path, body, headers)
    answer = connection.getresponse()
    return answer.status, answer.read()


WAY = (
    ("form", "GET", "/", {}, b"Choose the stories"),
    ("first set", "GET", "/set?seed={seed}", {}, b'id="story-12"'),
    ("swap", "GET", "/set?seed={seed}&change=swap-3", {}, b"Story 3 was swapped."),
    ("swap", "GET", "/set?seed={seed}&change=swap-3&change=swap-7", {}, b"Story 7 was swapped."),
    ("numbers", "GET", "/set?seed={seed}&change=swap-3&change=numbers-5", {}, b'id="story-12"'),
    ("with names", "POST", "/set?seed={seed}&change=swap-3", {"names": NAMES}, b"Chipo"),
    ("download", "POST", "/take?seed={seed}", {"names": NAMES, "what": "student"}, b"PK"),
)  # fmt: skip


def teacher(port: int, number: int, until: float, times: list[tuple[str, float]]) -> None:
    """Goes the way again and again; raises where an answer is not what was asked for."""
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=60)
    turn = 0
    while time.monotonic() < until:
        turn += 1
        for what, method, path, form, holds in WAY:
            body = urlencode(form) if form else None
            started = time.perf_counter()
            address = path.format(seed=1000 * number + turn)
            status, data = asked(connection, method, address, body)
            times.append((what, time.perf_counter() - started))
            if status != 200 or holds not in data:
                raise AssertionError(f"{address}: {status}")


def memory(pid: int) -> float:
    """The resident memory of a process, in MiB (proc(5))."""
    for line in Path(f"/proc/{pid}/status").read_text().splitlines():
        if line.startswith("VmRSS:"):
            return int(line.split()[1]) / 1024
    raise AssertionError("no VmRSS")


def main(seconds: float, teachers: int) -> None:
    """Prints the figures."""
    with server() as (port, pid):
        times: list[tuple[str, float]] = []
        warm: list[tuple[str, float]] = []
        teacher(port, 999, time.monotonic() + 1, warm)
        before = memory(pid)
        failed: list[str] = []

        def work(number: int, until: float) -> None:
            try:
                teacher(port, number, until, times)
            except (AssertionError, OSError, http.client.HTTPException) as error:
                failed.append(str(error))

        until = time.monotonic() + seconds
        threads = [
            threading.Thread(target=work, args=(number, until)) for number in range(teachers)
        ]
        for one in threads:
            one.start()
        for one in threads:
            one.join()
        after = memory(pid)
    print(f"{teachers} teachers, {seconds:g} s: {len(times)} answers, {len(failed)} errors")
    print(f"memory {before:.0f} MiB before, {after:.0f} MiB after")
    for what in dict.fromkeys(one[0] for one in WAY):
        found = sorted(took for name, took in times if name == what)
        high = found[min(len(found) - 1, int(len(found) * 0.99))]
        print(
            f"{what:<12} {len(found):>6}   median {1000 * median(found):7.1f} ms   "
            f"99th percentile {1000 * high:7.1f} ms"
        )
    if failed:
        print(failed[:5])


if __name__ == "__main__":
    main(float(sys.argv[1]), int(sys.argv[2]))
