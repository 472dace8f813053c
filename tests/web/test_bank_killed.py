"""A server killed in the middle of keeping and handing out: whole sets, or nothing of them."""

import os
import re
import signal
import socket
import sqlite3
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from http.client import HTTPConnection, HTTPException
from pathlib import Path
from urllib.parse import urlencode

import pytest

import storybank
from storybank import Bank, Request, make_set
from storybank.bank import Wanted

SERVED = Path(__file__).with_name("served.py")
IN_A_SET = 4
BEFORE_THE_KILL = 12
"""How many requests are answered before the server is killed."""


@contextmanager
def server(folder: Path) -> Iterator[tuple[subprocess.Popen[bytes], int]]:
    """A real server of a home in that folder, and its port."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    tree = str(Path(storybank.__file__).parent.parent)
    process = subprocess.Popen(
        [sys.executable, str(SERVED), str(folder), str(port)],
        env={**os.environ, "PYTHONPATH": tree},
    )
    try:
        until = time.monotonic() + 60
        while True:
            try:
                socket.create_connection(("127.0.0.1", port), 1).close()
                break
            except OSError:
                assert process.poll() is None and time.monotonic() < until, "it did not start"
                time.sleep(0.1)
        yield process, port
    finally:
        process.kill()
        process.wait()


def send(port: int, address: str, **fields: str) -> tuple[int, str]:
    """The status of the answer, and where it leads. Raises where the server is gone."""
    connection = HTTPConnection("127.0.0.1", port, timeout=60)
    headers = {"Content-Type": "application/x-www-form-urlencoded"}
    try:
        connection.request("POST", address, urlencode(fields), headers)
        answer = connection.getresponse()
        answer.read()
        return answer.status, answer.headers.get("location", "")
    finally:
        connection.close()


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="there is no SIGKILL on this system")
def test_a_killed_server_leaves_whole_sets_and_all_that_it_said(tmp_path: Path) -> None:
    kept: list[int] = []
    handed: list[list[int]] = []
    enough = threading.Event()

    def work(kind: int, port: int) -> None:
        for at in range(10_000):
            seed = 1000 * kind + at
            try:
                if kind < 2:
                    status, _ = send(port, f"/bank/keep?strategy=any&count={IN_A_SET}&seed={seed}")
                    assert status == 200
                    kept.append(seed)
                else:
                    fields = {"class": "2B", "from": "new", "seed": str(seed), "strategy": "any"}
                    status, place = send(port, "/bank/hand-out", count=str(IN_A_SET), **fields)
                    assert status == 303
                    handed.append([int(one) for one in re.findall("kept=([0-9]+)", place)])
            except (OSError, HTTPException):
                return
            if min(len(kept), len(handed) * 2) >= BEFORE_THE_KILL:
                enough.set()

    with server(tmp_path) as (process, port):
        threads = [threading.Thread(target=work, args=(kind, port)) for kind in range(3)]
        for one in threads:
            one.start()
        assert enough.wait(120)
        process.send_signal(signal.SIGKILL)
        process.wait()
        for one in threads:
            one.join(60)
    with Bank(tmp_path / "our.bank", create=False) as bank:
        report = bank.check()
        assert not report.faults
        history = [[number for number, *_ in one.problems] for one in bank.history("2B")]
        done = [one for one in bank.actions(10_000) if one.what in ("add", "make")]
        everything = {one.text for one in bank.find(Wanted(retired=True))}
    with closing(sqlite3.connect(tmp_path / "our.bank")) as connection:
        added = connection.execute(
            "SELECT action.told, count(problem.id) FROM action JOIN problem "
            "ON problem.action = action.id WHERE action.what = 'add' GROUP BY action.id"
        ).fetchall()
    assert all(told == f"{count} problems" for told, count in added)
    assert all(one.finished for one in done)
    assert all(len(one) == IN_A_SET for one in history)
    assert all(sorted(one) in history for one in handed)
    for seed in kept:
        asked = Request(strategy=["any"], count=IN_A_SET, seed=seed)
        assert all(one.text in everything for one in make_set(asked).problems), seed
