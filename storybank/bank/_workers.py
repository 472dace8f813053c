"""Several processes that grow one bank; each writes what it makes."""

import os
import pickle
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from storybank.bank._bank import Bank
from storybank.bank._growing import Growth, Report, grown, keep_piece, rows_of
from storybank.errors import BankError, StorybankError

_LOOK = 0.25


def grow_with(
    workers: int, path: Path, bank: Bank, growth: Growth, report: Report | None = None
) -> None:
    """Grows all missing pieces with so many processes; they end with this one.

    Raises BankError where one of them stopped; what is kept is kept.
    """
    processes: list[subprocess.Popen[bytes]] = []
    try:
        for at in range(min(workers, len(growth.pieces))):
            with _undisturbed():
                processes.append(_started())
            _give(processes[-1], (path, growth, at, workers, os.getpid()))
        while any(one.poll() is None for one in processes):
            time.sleep(_LOOK)
            if report is not None:
                with bank.told() as connection:
                    report(grown(connection, growth), growth.wanted)
    finally:
        for one in processes:
            one.terminate()
        said = [_ended(one) for one in processes]
    for text in filter(None, said):
        raise BankError(text)
    broken = [str(one.returncode) for one in processes if one.returncode]
    if broken:
        raise BankError(
            f"{len(broken)} of {len(processes)} workers stopped before the end (exit code "
            f"{', '.join(broken)}). Nothing is lost; the same command goes on from here."
        )


def _started() -> "subprocess.Popen[bytes]":
    """A process of its own: a forked one would share the open file of this one.

    It looks for modules where this one does, and not in the folder it happens to stand in.
    """
    folders = os.pathsep.join(one or str(Path.cwd()) for one in sys.path)
    return subprocess.Popen(
        [sys.executable, "-P", "-m", __name__],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        env={**os.environ, "PYTHONPATH": folders},
    )


@contextmanager
def _undisturbed() -> Iterator[None]:
    """Ctrl+C waits, and then stops this process alone, which stops those started inside."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _give(process: "subprocess.Popen[bytes]", work: object) -> None:
    assert process.stdin is not None
    with suppress(BrokenPipeError), process.stdin as stream:  # It has ended: its code says so.
        pickle.dump(work, stream)


def _ended(process: "subprocess.Popen[bytes]") -> str:
    """What a process said, once it has ended."""
    assert process.stdout is not None
    with process.stdout as stream:
        text = stream.read().decode("utf-8", "replace")
    process.wait()
    return text


def _work(path: Path, growth: Growth, at: int, of: int, parent: int) -> int:
    """Grows every `of`-th piece from `at` on, until the parent is gone; the exit code."""
    try:
        with Bank(path, create=False) as bank:
            for piece in growth.pieces[at::of]:
                rows = rows_of(growth.request, *piece)
                if os.getppid() != parent:
                    return 1
                keep_piece(bank, growth, piece, rows)
    except StorybankError as error:
        sys.stdout.buffer.write(str(error).encode())
        return 2
    except KeyboardInterrupt:
        return 130
    return 0


def _asked() -> int:
    """Does the work that comes in; none comes from a process that was stopped meanwhile."""
    try:
        work = pickle.load(sys.stdin.buffer)
    except (EOFError, KeyboardInterrupt, pickle.UnpicklingError):
        return 130
    return _work(*work)


if __name__ == "__main__":
    sys.exit(_asked())
