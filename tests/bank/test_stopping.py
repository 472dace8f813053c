"""A grow that is stopped, killed or undone goes on where it was, to the same bank."""

import os
import signal
import sqlite3
import subprocess
import sys
import time
from pathlib import Path

import pytest
from bank.grown import WISHES, digest, unbroken
from bank.kept import rows

from storybank import Bank
from storybank.bank import grow

COMMAND = (
    "grow", "--theme", "autumn-harvest", "--situation", "join-result-unknown", "--within", "20",
    "--strategy", "any", "--no-settings",
)  # fmt: skip


def command(path: Path, problems: int, *more: str) -> "subprocess.Popen[str]":
    """The command, which is running."""
    line = [sys.executable, "-m", "storybank", *COMMAND, "--bank", str(path)]
    return subprocess.Popen(
        [*line, "--problems", str(problems), *more],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
        preexec_fn=_interruptible,
    )


def _interruptible() -> None:
    """Ctrl+C counts, also where the tests themselves run in the background, which ignores it."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)


def kept(path: Path) -> int:
    if not path.exists():
        return 0
    try:
        return int(rows(path, "SELECT coalesce(sum(count), 0) FROM grown")[0][0])  # type: ignore[call-overload]
    except sqlite3.OperationalError:
        return 0


def wait_for(path: Path, problems: int) -> None:
    for _ in range(1200):
        if kept(path) >= problems:
            return
        time.sleep(0.05)
    raise AssertionError("the grow does not come on")


def children(process: "subprocess.Popen[str]") -> list[int]:
    """The processes that one has started, from the system's list of them."""
    found = Path(f"/proc/{process.pid}/task/{process.pid}/children").read_text()
    return [int(one) for one in found.split()]


def is_running(process: int) -> bool:
    try:
        return Path(f"/proc/{process}/stat").read_text().split()[2] != "Z"
    except FileNotFoundError:
        return False


@pytest.mark.parametrize("workers", ["1", "2"])
def test_stopped_by_the_keyboard_and_asked_again(workers: str, tmp_path: Path) -> None:
    path = tmp_path / "a.bank"
    running = command(path, 3000, "--seed", "7", "--workers", workers)
    wait_for(path, 500)
    started = children(running)
    os.killpg(running.pid, signal.SIGINT)
    out, said = running.communicate(timeout=60)
    assert running.returncode == 130 and out == ""
    assert "stopped; what was grown is kept" in said and "Traceback" not in said
    assert not any(is_running(one) for one in started)
    assert 500 <= kept(path) < 3000
    assert grow(path, WISHES, 3000, workers=1)[0].there == _whole(path)
    assert digest(path) == unbroken(3000)


def _whole(path: Path) -> int:
    """What the first of two grows has kept."""
    found = rows(path, "SELECT sum(count) FROM grown WHERE action = 1")
    return int(found[0][0])  # type: ignore[call-overload]


def test_stopped_while_its_workers_begin(tmp_path: Path) -> None:
    path = tmp_path / "a.bank"
    running = command(path, 3000, "--workers", "2")
    for _ in range(1200):
        if len(started := children(running)) == 2:
            break
        time.sleep(0.01)
    os.killpg(running.pid, signal.SIGINT)
    _, said = running.communicate(timeout=60)
    assert running.returncode == 130 and "Traceback" not in said
    assert not any(is_running(one) for one in started)


def test_a_worker_that_is_killed_is_told_of(tmp_path: Path) -> None:
    path = tmp_path / "a.bank"
    running = command(path, 3000, "--seed", "7", "--workers", "2")
    wait_for(path, 500)
    os.kill(children(running)[0], signal.SIGKILL)
    _, said = running.communicate(timeout=60)
    assert running.returncode == 2
    assert "1 of 2 workers stopped before the end (exit code -9)" in said
    assert grow(path, WISHES, 3000, workers=2)[0].there < 3000
    assert digest(path) == unbroken(3000)


@pytest.mark.parametrize("everybody", [False, True])
def test_killed_and_asked_again(everybody: bool, tmp_path: Path) -> None:
    """Workers whose parent is killed end by themselves."""
    path = tmp_path / "a.bank"
    running = command(path, 3000, "--seed", "7", "--workers", "2")
    wait_for(path, 500)
    started = children(running)
    assert len(started) == 2
    for one in (running.pid, *(started if everybody else ())):
        os.kill(one, signal.SIGKILL)
    running.communicate(timeout=60)
    for _ in range(600):
        if not any(is_running(one) for one in started):
            break
        time.sleep(0.05)
    assert not any(is_running(one) for one in started)
    there = kept(path)
    assert there < 3000
    assert grow(path, WISHES, 3000)[0].there == there
    assert digest(path) == unbroken(3000)


def test_two_programs_grow_the_same_at_once(tmp_path: Path) -> None:
    path = tmp_path / "a.bank"
    both = [command(path, 1501, "--seed", "7"), command(path, 1501, "--seed", "7")]
    said = [one.communicate(timeout=120) for one in both]
    assert [one.returncode for one in both] == [0, 0], said
    assert digest(path) == unbroken(1501)


@pytest.mark.parametrize("workers", ["1", "2"])
def test_a_grow_that_is_undone_while_it_runs_stops(workers: str, tmp_path: Path) -> None:
    path = tmp_path / "a.bank"
    running = command(path, 3000, "--seed", "7", "--workers", workers)
    wait_for(path, 500)
    with Bank(path) as bank:
        bank.undo()
        assert bank.count() == 0
    _, said = running.communicate(timeout=60)
    assert running.returncode == 2
    assert said.count("This grow was undone by another program while it ran, so it stopped.") == 1
    with Bank(path) as bank:
        assert bank.count() == 0
    assert grow(path, WISHES, 1501)[1] == 1501
    assert digest(path) == unbroken(1501)


@pytest.mark.parametrize("more", [("--slice", "5/4"), ("--slice", "x"), ("--workers", "0")])
def test_the_command_says_what_cannot_be_grown(more: tuple[str, ...], tmp_path: Path) -> None:
    running = command(tmp_path / "a.bank", 500, *more)
    out, said = running.communicate(timeout=60)
    assert running.returncode == 2 and out == ""
    assert said.startswith("storybank: ") and " ".join(more) in said.replace('"', "")
    assert list(tmp_path.iterdir()) == []
