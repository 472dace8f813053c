"""Several processes that grow one bank; each writes what it makes."""

import os
import pickle
import subprocess
import sys
import time
from pathlib import Path

from storybank.bank._bank import Bank
from storybank.bank._growing import Growth, Report, grown, keep_piece, rows_of
from storybank.errors import BankError, RequestError, StorybankError

MOST = 64
_LOOK = 0.25


def grow_with(
    workers: int, path: Path, bank: Bank, growth: Growth, report: Report | None = None
) -> None:
    """Grows all missing pieces with so many processes; they end with this one.

    Raises BankError where one of them stopped; what is kept is kept.
    """
    if not 1 <= workers <= MOST:
        raise RequestError(f"--workers {workers} is out of range. Choose 1 to {MOST}.")
    processes = [_started(path, growth, at, workers) for at in range(workers)]
    try:
        while any(one.poll() is None for one in processes):
            time.sleep(_LOOK)
            if report is not None:
                with bank.told() as connection:
                    report(grown(connection, growth), growth.wanted)
    except BaseException:
        for one in processes:
            one.terminate()
        raise
    finally:
        for one in processes:
            one.wait()
    broken = [str(one.returncode) for one in processes if one.returncode]
    if broken:
        raise BankError(
            f"{len(broken)} of {workers} workers stopped before the end (exit code "
            f"{', '.join(broken)}). Nothing is lost; the same command goes on from here."
        )


def _started(path: Path, growth: Growth, at: int, of: int) -> "subprocess.Popen[bytes]":
    """A process of its own: a forked one would share the open file of this one."""
    process = subprocess.Popen([sys.executable, "-m", __name__], stdin=subprocess.PIPE)
    assert process.stdin is not None
    with process.stdin as stream:
        pickle.dump((path, growth, at, of, os.getpid()), stream)
    return process


def _work(path: Path, growth: Growth, at: int, of: int, parent: int) -> int:
    """Grows every `of`-th piece from `at` on, until the parent is gone; the exit code."""
    try:
        with Bank(path, create=False) as bank:
            for piece in growth.pieces[at::of]:
                if os.getppid() != parent:
                    return 1
                keep_piece(bank, growth, piece, rows_of(growth.request, *piece))
    except StorybankError as error:
        sys.stderr.write(f"storybank: {error}\n")
        return 2
    except KeyboardInterrupt:
        return 130
    return 0


if __name__ == "__main__":
    sys.exit(_work(*pickle.load(sys.stdin.buffer)))
