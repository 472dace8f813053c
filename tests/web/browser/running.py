"""The pages in a process of their own, at an address of this machine, as a teacher starts them."""

import os
import subprocess
import sys
import time
import urllib.request
from pathlib import Path

_SECONDS = 30


def command(port: int, folder: Path) -> list[str]:
    """The command that serves the pages of `folder` at `port`, 0 for any that is free.

    The only place that says how the server is started. It prints its address.
    """
    where = ["--port", str(port), "--folder", str(folder)]
    return [sys.executable, "-m", "storybank", "serve", "--no-browser", *where]


class Server:
    """The pages of a teacher whose home is a folder; what is kept between runs is there too."""

    def __init__(self, home: Path) -> None:
        self.home = home
        self.address = ""
        self._said = home / "said.txt"
        self._port = 0
        self._process: subprocess.Popen[bytes] | None = None

    def start(self) -> None:
        """Starts it, at the port that it had before; returns once it answers."""
        kept = {"XDG_CACHE_HOME": "cache", "XDG_CONFIG_HOME": "config", "XDG_DATA_HOME": "data"}
        own = {name: str(self.home / folder) for name, folder in kept.items()}
        ours = os.pathsep.join(one for one in sys.path if one)
        environment = {**os.environ, **own, "PYTHONPATH": ours, "PYTHONUNBUFFERED": "1"}
        # What it says is gathered over restarts, so that a test can look for names in all of it.
        with self._said.open("ab") as said:
            before = said.tell()
            self._process = subprocess.Popen(
                command(self._port, self.home / "folder"),
                stdin=subprocess.DEVNULL,
                stdout=said,
                stderr=subprocess.STDOUT,
                cwd=self.home,
                env=environment,
            )
        self.address = self._printed_address(before)
        self._port = int(self.address.rsplit(":", 1)[1])
        with urllib.request.urlopen(self.address, timeout=_SECONDS) as answer:
            assert answer.status == 200

    def stop(self) -> None:
        """Ends it."""
        assert self._process is not None
        self._process.terminate()
        self._process.wait(_SECONDS)
        self._process = None

    def said(self) -> str:
        """All that it has printed."""
        return self._said.read_text(encoding="utf-8")

    def _printed_address(self, before: int) -> str:
        """The address that it prints, without the slash at its end."""
        assert self._process is not None
        until = time.monotonic() + _SECONDS
        while time.monotonic() < until:
            printed = self._said.read_bytes()[before:].decode()
            for word in printed.split():
                if word.startswith("http://") and printed.endswith("\n"):
                    return word.rstrip("/")
            assert self._process.poll() is None, f"the server ended: {printed}"
            time.sleep(0.02)
        raise AssertionError(f"no address within {_SECONDS} seconds: {self.said()}")
